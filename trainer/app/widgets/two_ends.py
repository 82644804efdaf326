"""A row with one text at the left end and another at the right end."""

from __future__ import annotations

from pathlib import Path

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

GAP = 2
"""Cells that stay free between the two."""


class TwoEnds(Widget):
    """The left text gives way: it is cut with an ellipsis where both do not fit."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False

    left: reactive[Content] = reactive(Content(), always_update=True)
    right: reactive[Content] = reactive(Content(), always_update=True)

    def render(self) -> Content:
        """The row, as wide as the widget."""
        width, right = self.content_size.width, self.right
        room = max(0, width - right.cell_length - (GAP if right else 0))
        left = self.left.truncate(room, ellipsis=True)
        return left.pad_right(max(0, width - left.cell_length - right.cell_length)) + right
