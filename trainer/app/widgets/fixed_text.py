"""A text in a place of fixed size: a new text repaints it and lays nothing out."""

from __future__ import annotations

from pathlib import Path

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget


class FixedText(Widget):
    """Content in a box whose size the stylesheet alone decides."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False

    content: reactive[Content] = reactive(Content(), always_update=True)
    """What stands there. Never markup: deck text is put in as it is.

    Contents that differ in style alone are equal to Textual, so each one is painted.
    """

    def __init__(
        self, content: Content | None = None, *, id: str | None = None, classes: str | None = None
    ) -> None:
        super().__init__(id=id, classes=classes)
        if content is not None:
            self.set_reactive(FixedText.content, content)

    def render(self) -> Content:
        """The text; the stylesheet says how it wraps."""
        return self.content
