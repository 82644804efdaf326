"""The row in which one types what to look for in the lines."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.reactive import var

from trainer.app.widgets.fixed_text import FixedText
from trainer.app.widgets.move_box import MoveBox


class FindBox(MoveBox):
    """A box that keeps its text on Enter, so that Enter leads on to the next place found."""

    BINDING_GROUP_TITLE = "find box"
    SENT_BY: ClassVar[Mapping[str, str]] = {"lines.find_next": "enter"}
    HINTED_BY: ClassVar[Mapping[str, str]] = {}

    def enter(self) -> None:
        """Send what is written."""
        self.post_message(self.Entered(self.value.strip()))


class FindRow(Horizontal):
    """The box between its name and which of the places found is shown."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")

    count: var[str] = var("", init=False)
    """`1 of 3`."""

    def compose(self) -> ComposeResult:
        """Left to right."""
        yield FixedText(Content("Find"), id="find-name")
        yield FindBox(id="find")
        yield FixedText(id="find-count")

    @property
    def box(self) -> FindBox:
        """Where one types."""
        return self.query_one(FindBox)

    def watch_count(self, count: str) -> None:
        """Show it."""
        self.query_one("#find-count", FixedText).content = Content(count)
