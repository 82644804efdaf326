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
from textual.reactive import var

from trainer.app.screens import lines_keys
from trainer.app.screens.finding import Finding
from trainer.app.screens.lines_keys import Reach, does_something, reach_of
from trainer.app.taste import taste_of
from trainer.app.telling import exercises
from trainer.app.telling.blocks import Paragraph
from trainer.app.telling.exercises import ExerciseRow, rows_of
from trainer.app.telling.finder import Finder
from trainer.app.telling.here import Here
from trainer.app.telling.lines import NO_DECK, failed, heading, nothing_open, say, which
from trainer.app.telling.moment import Stage
from trainer.app.telling.positions import facts
from trainer.app.telling.stretch_rows import edge
from trainer.app.widgets.board import BoardView
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.exercise_list import NONE, ExerciseList
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.line_tree import LineTree
from trainer.app.widgets.lines_desk import LinesDesk
from trainer.app.widgets.two_ends import TwoEnds
from trainer.errors import TrainerError
from trainer.lines.letters import LANGUAGES
from trainer.lines.stretches import Spot
from trainer.service.card_history import card_history
from trainer.service.collection import set_apart, take_back
from trainer.service.exercise_report import report_exercises
from trainer.service.lines_report import LinesReport, report_lines
from trainer.service.preparation import prepare_practice
from trainer.service.study import Study


class LinesScreen(Finding):
    """The tree of one side of one deck, and below it what else the deck has."""

    CSS_PATH = "lines.tcss"
    AUTO_FOCUS = ""
    HELP: ClassVar[str] = lines_keys.HELP
    BINDINGS: ClassVar[list[BindingType]] = lines_keys.BINDINGS

    place: var[int] = var(NONE, init=False, always_update=True)
    """The row below the tree where one stands, from 0; `NONE` in the tree."""

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
        self._rows: tuple[ExerciseRow, ...] = ()
        self._outdated = True
        self.finder = Finder(LANGUAGES[study.settings.piece_letters])

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
                others = report_exercises(self._study, report.deck) if report else ()
        except TrainerError as error:
            self._report = self.here = None
            self._list_rows(())
            self.desk.said = failed(str(error))
        else:
            kept = self.place if self._report and report and self._report.id == report.id else NONE
            self._list_rows(rows_of(others))
            self._open(report, at)
            if self._rows and (kept != NONE or self.here is None):
                self.place = min(max(0, kept), len(self._rows) - 1)

    # What is shown

    def _open(self, report: LinesReport | None, at: str | None = None) -> None:
        """Show a tree; one that is shown already keeps the place in which one stands."""
        before, self._report = self._report, report
        if report is None:
            self.desk.said, self.here = NO_DECK, None
            return
        header = self.query_one("#header", TwoEnds)
        header.left = Content.assemble(("Lines", "bold"), f"   {heading(report)}")
        header.right = Content(which(report))
        tree = report.tree
        due = report.tally.of(range(len(tree.keys))).due
        self.line_tree.show(tree, partial(edge, report), len(str(due)))
        if not tree.keys:
            self.desk.said, self.here = nothing_open(report), None
            return
        old = self.here if before and before.id == report.id else None
        if old is not None and old.report.tree == tree:
            self.here = Here(report, old.spot)
        else:
            wanted = at or (old.position.key if old else "")
            self.here = Here(report, tree.spot(tree.numbers.get(wanted, 0)))

    def watch_here(self, here: Here | None) -> None:
        """Another place: its row, its position, its words."""
        self._see_from(here.report.side if here else "white")
        if here is not None:
            self.line_tree.spot = here.spot
            self.side.caption = here.caption
            self.say()
        self.side.stage = Stage(here.view if here else BoardView())
        self.refresh_bindings()

    def say(self, sentences: Sequence[str] = ()) -> None:
        """The words of the place, with what was asked for above them."""
        if (here := self.here) is not None:
            history = card_history(self._study, here.card) if here.card else None
            aside = (Paragraph("\n".join(sentences)),) if sentences else ()
            self.desk.said = say(here, history, aside)

    def _list_rows(self, rows: tuple[ExerciseRow, ...]) -> None:
        """What else the deck has; one stands in the tree again."""
        self._rows = rows
        self.desk.exercises.rows = tuple(row.listed for row in rows)
        self.place = NONE

    def watch_place(self, place: int) -> None:
        """Another row below the tree, or back in it."""
        self.line_tree.active = place == NONE
        self.desk.exercises.chosen = place
        if (row := self._row) is None:
            self.here = self.here
            return
        if row.side:
            self._see_from(row.side)
        self.side.caption = ""
        self.side.stage = Stage(exercises.view(row))
        self.desk.said = exercises.say(row)
        self.refresh_bindings()

    @property
    def _row(self) -> ExerciseRow | None:
        return self._rows[self.place] if self.place != NONE else None

    def _see_from(self, side: str) -> None:
        self.side.black_below = (side == "black") is not self.turned

    def watch_cramped(self) -> None:
        """Where nothing is seen, nothing is typed."""
        self.finding = self.finding and not self.cramped
        self.refresh_bindings()

    # Walking and folding

    def go(self, spot: Spot | None) -> None:
        """Go to another place of the tree."""
        if spot is not None and self.here is not None:
            self.here = Here(self.here.report, spot)
            self.place = NONE

    @on(LineTree.Pointed)
    def _pointed(self, event: LineTree.Pointed) -> None:
        self.go(event.spot)

    @on(ExerciseList.Pointed)
    def _pointed_below(self, event: ExerciseList.Pointed) -> None:
        self.place = event.place

    def action_row(self, rows: int) -> None:
        """So many rows down, out of the tree and into it again."""
        if self.place != NONE and self.place + rows >= 0:
            self.place = min(self.place + rows, len(self._rows) - 1)
        elif self.place != NONE and rows == -1:
            self.place = NONE if self.here else 0
        elif self.place == NONE and self._at_foot(rows):
            self.place = min(rows, len(self._rows)) - 1
        else:
            self.go(self.line_tree.beside(rows))

    def _at_foot(self, rows: int) -> bool:
        """Whether the next row down is one below the tree."""
        spot, here = self.line_tree.beside(rows), self.here
        stays = here is None or (spot is not None and spot.stretch == here.spot.stretch)
        return rows > 0 and stays and bool(self._rows)

    def action_page(self, pages: int) -> None:
        """So many screenfuls down."""
        self.go(self.line_tree.beside(pages * self.line_tree.page))

    def action_forward(self) -> None:
        """On by a move."""
        if self.here is not None:
            self.go(self.here.report.tree.forward(self.here.spot))

    def action_back(self) -> None:
        """Back by a move."""
        if self.here is not None:
            self.go(self.here.report.tree.back(self.here.spot))

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
            self.line_tree.fold(self.here.spot.stretch, folded)

    def action_fold_all(self, folded: bool) -> None:
        """Every row, or the first branches only."""
        self.line_tree.fold_all(folded)

    # The rest

    def action_read_out(self) -> None:
        """Say what stands on the board."""
        if self.here is not None:
            self.say(self.here.read_out())

    def action_facts(self) -> None:
        """Say what can be counted in the position."""
        if self.here is not None:
            self.say(facts(self.here.view))

    def action_turn(self, pages: int) -> None:
        """Read on or back in the note."""
        self.desk.page.turn(pages)

    def action_practise(self) -> None:
        """A sitting with the position and all that can follow it, or with the row below."""
        from trainer.app.screens.sitting import SittingScreen

        report, asked = self._report, self._row or self.here
        if report is None or asked is None:
            return
        try:
            practice = prepare_practice(self._study, asked.wish)
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
        return reach_of(self.here, self._row, self.line_tree, self.finding, decks)
