"""The find box of the Lines screen: typed moves and words lead from one place to the next."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.events import Key
from textual.reactive import var
from textual.widgets import Input

from trainer.app.screens.board_screen import BoardScreen
from trainer.app.telling.finder import Finder
from trainer.app.telling.here import Here
from trainer.app.widgets.line_tree import LineTree
from trainer.app.widgets.lines_desk import LinesDesk
from trainer.app.widgets.move_box import MoveBox
from trainer.lines.stretches import Spot


class Finding(BoardScreen):
    """A screen on which one finds a place in a tree of lines."""

    here: var[Here | None] = var(None, init=False, always_update=True)
    """Where one stands; None where there are no lines."""
    finding: var[bool] = var(False, init=False)
    """Whether the find box is open."""
    finder: Finder

    @property
    def desk(self) -> LinesDesk:
        """What stands beside the board."""
        return self.query_one(LinesDesk)

    @property
    def line_tree(self) -> LineTree:
        """The tree of lines."""
        return self.desk.tree_of_lines

    def go(self, spot: Spot | None) -> None:
        """Go to another place of the tree."""
        raise NotImplementedError

    def say(self, sentences: Sequence[str] = ()) -> None:
        """The words of the place, with what was asked for above them."""
        raise NotImplementedError

    def on_key(self, event: Key) -> None:
        """A letter or a digit begins a search; those that follow at once belong to it."""
        letter = event.character if event.is_printable else None
        begins = letter and letter.isalnum() and self.check_action("find", (True,))
        if letter and (begins or self.finding):
            event.stop()
            self.finding = True
            self.desk.find_row.box.put(letter)

    def action_find(self, wanted: bool) -> None:
        """Open the box, or close it."""
        self.finding = wanted

    def action_find_next(self) -> None:
        """Go to the next place found."""
        self.desk.find_row.box.enter()

    def watch_finding(self, finding: bool) -> None:
        """The box takes the place of the title."""
        self._forget_found()
        self.desk.finding = finding
        self.refresh_bindings()

    @on(Input.Changed)
    def _forget_found(self) -> None:
        self.finder.forget()
        self.desk.find_row.count = ""

    @on(MoveBox.Entered)
    def _look(self, event: MoveBox.Entered) -> None:
        """The first place that fits, or the next one."""
        if self.here is None or not event.text:
            return
        spot = self.finder.look(self.here, event.text)
        if spot is None:
            self.say([f"No line and no title here has “{event.text}”."])
            return
        self.desk.find_row.count = self.finder.count
        self.go(spot)
        self.say(self.finder.what)
