"""Lines: a deck as a tree beside the board, to walk through, to search and to practise from.

It draws what `telling.lines` says of the place where one stands. It changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Key
from textual.reactive import var
from textual.widgets import Input

from trainer.app.screens import lines_keys
from trainer.app.screens.board_screen import BoardScreen
from trainer.app.screens.lines_keys import Reach, does_something, reach_of
from trainer.app.taste import taste_of
from trainer.app.telling.blocks import Paragraph
from trainer.app.telling.finder import Finder
from trainer.app.telling.here import Here
from trainer.app.telling.lines import NO_DECK, failed, heading, nothing_open, say, which
from trainer.app.telling.moment import Stage
from trainer.app.telling.positions import facts
from trainer.app.telling.stretch_rows import edge
from trainer.app.widgets.board import BoardView
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.line_tree import LineTree
from trainer.app.widgets.lines_desk import LinesDesk
from trainer.app.widgets.move_box import MoveBox
from trainer.app.widgets.two_ends import TwoEnds
from trainer.errors import TrainerError
from trainer.lines.letters import LANGUAGES
from trainer.lines.stretches import Spot
from trainer.service.card_history import card_history
from trainer.service.collection import set_apart, take_back
from trainer.service.lines_report import LinesReport, report_lines
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study


class LinesScreen(BoardScreen):
    """The tree of one side of one deck."""

    CSS_PATH = "lines.tcss"
    AUTO_FOCUS = ""
    HELP: ClassVar[str] = lines_keys.HELP
    BINDINGS: ClassVar[list[BindingType]] = lines_keys.BINDINGS

    here: var[Here | None] = var(None, init=False, always_update=True)
    """Where one stands; None where there are no lines."""
    finding: var[bool] = var(False, init=False)
    """Whether the find box is open."""

    def __init__(
        self,
        study: Study,
        deck: str | None = None,
        side: str | None = None,
        at: str | None = None,
    ) -> None:
        """
        :param deck: the deck to open, else the first.
        :param at: the key of the position to stand in, else the start.
        """
        super().__init__()
        self._study = study
        self._wanted = deck, side, at
        self._report: LinesReport | None = None
        self._outdated = True
        self._finder = Finder(LANGUAGES[study.settings.piece_letters])

    def compose(self) -> ComposeResult:
        """Header, board and desk, keys."""
        yield TwoEnds(id="header")
        with Horizontal(id="table"):
            yield BoardSide(taste=taste_of(self._study.settings), id="board-side")
            yield LinesDesk(id="lines-desk")
        yield KeyBar(id="keys")

    def on_screen_resume(self) -> None:
        """The lines as they stand now, after a sitting too."""
        if self._outdated:
            self._outdated = False
            deck, side, at = (*self._report.id, None) if self._report else self._wanted
            self._show(deck, side, at)

    def on_unmount(self) -> None:
        """The lines are no longer shown."""
        take_back()

    def _show(self, deck: str | None, side: str | None, at: str | None = None) -> None:
        """Read a tree and show it, or why it cannot be read."""
        try:
            with set_apart():
                report = report_lines(self._study, deck, side, self._report)
        except TrainerError as error:
            self._report = self.here = None
            self._desk.said = failed(str(error))
        else:
            self._open(report, at)

    # What is shown

    def _open(self, report: LinesReport | None, at: str | None = None) -> None:
        """Show a tree; one that is shown already keeps the place in which one stands."""
        before, self._report = self._report, report
        if report is None:
            self._desk.said, self.here = NO_DECK, None
            return
        header = self.query_one("#header", TwoEnds)
        header.left = Content.assemble(("Lines", "bold"), f"   {heading(report)}")
        header.right = Content(which(report))
        tree = report.tree
        due = report.tally.of(range(len(tree.keys))).due
        self._tree.show(tree, partial(edge, report), len(str(due)))
        self.side.black_below = (report.side == "black") is not self.turned
        if not tree.keys:
            self._desk.said, self.here = nothing_open(report), None
            return
        old = self.here if before and before.id == report.id else None
        if old is not None and old.report.tree == tree:
            self.here = Here(report, old.spot)
        else:
            wanted = at or (old.position.key if old else "")
            self.here = Here(report, tree.spot(tree.numbers.get(wanted, 0)))

    def watch_here(self, here: Here | None) -> None:
        """Another place: its row, its position, its words."""
        if here is not None:
            self._tree.spot = here.spot
            self.side.caption = here.caption
            self._say()
        self.side.stage = Stage(here.view if here else BoardView())
        self.refresh_bindings()

    def _say(self, sentences: Sequence[str] = ()) -> None:
        """The words of the place, with what was asked for above them."""
        if (here := self.here) is not None:
            history = card_history(self._study, here.card) if here.card else None
            aside = (Paragraph("\n".join(sentences)),) if sentences else ()
            self._desk.said = say(here, history, aside)

    def watch_cramped(self) -> None:
        """Where nothing is seen, nothing is typed."""
        self.finding = self.finding and not self.cramped
        self.refresh_bindings()

    @property
    def _desk(self) -> LinesDesk:
        return self.query_one(LinesDesk)

    @property
    def _tree(self) -> LineTree:
        return self._desk.tree_of_lines

    # Walking and folding

    def _go(self, spot: Spot | None) -> None:
        if spot is not None and self.here is not None:
            self.here = Here(self.here.report, spot)

    @on(LineTree.Pointed)
    def _pointed(self, event: LineTree.Pointed) -> None:
        self._go(event.spot)

    def action_row(self, rows: int) -> None:
        """So many rows down."""
        self._go(self._tree.beside(rows))

    def action_page(self, pages: int) -> None:
        """So many screenfuls down."""
        self._go(self._tree.beside(pages * self._tree.page))

    def action_forward(self) -> None:
        """On by a move."""
        if (here := self.here) is not None:
            self._go(here.report.tree.forward(here.spot))

    def action_back(self) -> None:
        """Back by a move."""
        if (here := self.here) is not None:
            self._go(here.report.tree.back(here.spot))

    def action_deck(self, decks: int) -> None:
        """Another deck, or the other side of this one, from its start."""
        if (report := self._report) is not None:
            books = report.books
            deck, side = books[(books.index(report.id) + decks) % len(books)]
            self._show(deck, side)

    @on(LineTree.FoldsChanged)
    def _folds_changed(self) -> None:
        self.refresh_bindings()

    def action_fold(self, folded: bool) -> None:
        """Fold the selected row, or unfold it."""
        if self.here is not None:
            self._tree.fold(self.here.spot.stretch, folded)

    def action_fold_all(self, folded: bool) -> None:
        """Every row, or the first branches only."""
        self._tree.fold_all(folded)

    # Finding

    def on_key(self, event: Key) -> None:
        """A letter or a digit begins a search; those that follow at once belong to it."""
        letter = event.character if event.is_printable else None
        begins = letter and letter.isalnum() and does_something("find", (True,), self._reach())
        if letter and (begins or self.finding):
            event.stop()
            self.finding = True
            self._desk.find_row.box.put(letter)

    def action_find(self, wanted: bool) -> None:
        """Open the box, or close it."""
        self.finding = wanted

    def action_find_next(self) -> None:
        """Go to the next place found."""
        self._desk.find_row.box.enter()

    def watch_finding(self, finding: bool) -> None:
        """The box takes the place of the title."""
        self._forget_found()
        self._desk.finding = finding
        self.refresh_bindings()

    @on(Input.Changed)
    def _forget_found(self) -> None:
        self._finder.forget()
        self._desk.find_row.count = ""

    @on(MoveBox.Entered)
    def _look(self, event: MoveBox.Entered) -> None:
        """The first place that fits, or the next one."""
        if self.here is None or not event.text:
            return
        spot = self._finder.look(self.here, event.text)
        if spot is None:
            self._say([f"No line and no title here has “{event.text}”."])
            return
        self._desk.find_row.count = self._finder.count
        self._go(spot)
        self._say(self._finder.what)

    # The rest

    def action_read_out(self) -> None:
        """Say what stands on the board."""
        if self.here is not None:
            self._say(self.here.read_out())

    def action_facts(self) -> None:
        """Say what can be counted in the position."""
        if self.here is not None:
            self._say(facts(self.here.view))

    def action_turn(self, pages: int) -> None:
        """Read on or back in the note."""
        self._desk.page.turn(pages)

    def action_practise(self) -> None:
        """A sitting with the position and all that can follow it."""
        from trainer.app.screens.sitting import SittingScreen

        if (here := self.here) is None:
            return
        report = here.report
        wish = Wish(deck=report.deck, side=report.side, at=here.position.key)
        try:
            practice = prepare_practice(self._study, wish)
        except TrainerError as error:
            self.notify(str(error), severity="error", markup=False)
            self._show(*report.id)  # the deck may have changed meanwhile
        else:
            self._outdated = True
            self.app.push_screen(SittingScreen(self._study, practice))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which keys do something now."""
        if not self.is_mounted or not does_something(action, parameters, self._reach()):
            return False
        return super().check_action(action, parameters)

    def _reach(self) -> Reach:
        if self.cramped:
            return Reach(finding=self.finding)
        decks = len(self._report.books) if self._report else 0
        return reach_of(self.here, self._tree, self.finding, decks)
