"""The finished rows of the scoresheet: as many of the last ones as there is room for."""

from __future__ import annotations

from pathlib import Path

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget


class SheetRows(Widget):
    """Rows at the foot of a place whose height the stylesheet alone decides."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False

    rows: reactive[tuple[Content, ...]] = reactive((), always_update=True)
    """From the first to the last."""

    def render(self) -> Content:
        """The last rows, the last of them in the last line."""
        room = max(1, self.content_size.height)
        shown = self.rows[-room:]
        return Content("\n").join([Content()] * (room - len(shown)) + list(shown))
