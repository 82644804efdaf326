"""The desk of the Lines screen: title or find box, tree, note, keys, each in its place."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import var
from textual.widget import Widget

from trainer.app.telling.lines import Said
from trainer.app.widgets.exercise_list import ExerciseList
from trainer.app.widgets.find_box import FindRow
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.line_tree import LineTree
from trainer.app.widgets.page import Page
from trainer.app.widgets.two_ends import TwoEnds


class LinesDesk(Widget):
    """Draws what is said; the tree is filled by the screen."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")

    said: var[Said] = var(Said(), init=False)
    """What is said of the place where one stands."""
    finding: var[bool] = var(False, init=False)
    """Whether the find box stands in the place of the title."""

    def compose(self) -> ComposeResult:
        """The rows from top to bottom."""
        yield TwoEnds(id="title")
        yield FindRow(id="find-row")
        yield LineTree(id="tree")
        yield ExerciseList(id="exercises")
        yield TwoEnds(id="here")
        yield Page(id="page")
        yield KeyBar(id="desk-keys")

    @property
    def tree_of_lines(self) -> LineTree:
        """The tree."""
        return self.query_one(LineTree)

    @property
    def exercises(self) -> ExerciseList:
        """The rows below it."""
        return self.query_one(ExerciseList)

    @property
    def find_row(self) -> FindRow:
        """The row with the find box."""
        return self.query_one(FindRow)

    @property
    def page(self) -> Page:
        """Where the note stands."""
        return self.query_one(Page)

    def watch_said(self, said: Said) -> None:
        """The words."""
        title, here = self.query_one("#title", TwoEnds), self.query_one("#here", TwoEnds)
        title.left, title.right = Content.styled(said.title, "bold"), Content("known, due")
        here.left, here.right = Content.styled(said.name, "bold"), Content(said.standing)
        self.page.blocks = said.page

    def watch_finding(self, finding: bool) -> None:
        """The box comes empty, takes the keys, and gives them back."""
        self.set_class(finding, "-finding")
        if finding:
            self.find_row.box.value = ""
            self.screen.set_focus(self.find_row.box)
        else:
            self.screen.set_focus(None)
