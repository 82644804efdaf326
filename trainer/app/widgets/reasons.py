"""What the day is made of: a row of count, kind and place each."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from trainer.app.telling.day import Reason


class Reasons(Widget):
    """Three rows in columns."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"reasons--count", "reasons--where"}

    rows: reactive[tuple[Reason, ...]] = reactive(())

    def render(self) -> Content:
        """The rows."""
        count_style = self.get_visual_style("reasons--count", partial=True)
        where_style = self.get_visual_style("reasons--where", partial=True)
        return Content("\n").join(
            Content.assemble(
                (f"{count:>4}", count_style), f"  {what:<11}", (where, where_style)
            ).truncate(self.content_size.width, ellipsis=True)
            for count, what, where in self.rows
        )
