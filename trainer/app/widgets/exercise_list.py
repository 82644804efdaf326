"""The rows below the tree of lines, one of them chosen. It knows no cards."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.events import Click, MouseScrollDown, MouseScrollUp
from textual.message import Message
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

CHOSEN, ABOVE, BELOW = "►", "↑", "↓"
"""Before the chosen row, and before the first and the last where there are more."""

NONE = -1
"""In place of a row where none is chosen."""


@dataclass(frozen=True, slots=True)
class ListRow:
    """What one row shows."""

    text: str
    bar: str
    """One sign."""
    number: str
    """At the right edge, where the tree has what is due."""


class ExerciseList(Widget):
    """As many rows as there are, at most as many as the stylesheet allows."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "exercises--chosen",
        "exercises--bar",
        "exercises--number",
    }

    rows: reactive[tuple[ListRow, ...]] = reactive((), layout=True)
    chosen: reactive[int] = reactive(NONE)
    """The place of the chosen row, from 0."""
    top: reactive[int] = reactive(0)
    """The first row that is shown."""

    @dataclass
    class Pointed(Message):
        """A row was clicked."""

        place: int

    def watch_rows(self, rows: tuple[ListRow, ...]) -> None:
        """Other rows begin at the first."""
        self.top = 0
        self.display = bool(rows)

    def watch_chosen(self, chosen: int) -> None:
        """The chosen row stays in view."""
        if chosen != NONE:
            self.top = min(max(self.top, chosen - self._room + 1), chosen)

    @property
    def _room(self) -> int:
        return max(1, self.content_size.height)

    def get_content_height(self, *_sizes: object) -> int:
        """A line a row."""
        return len(self.rows)

    def render(self) -> Content:
        """The rows that fit."""
        shown = self.rows[self.top : self.top + self._room]
        return Content("\n").join(
            self._row(place, row) for place, row in enumerate(shown, self.top)
        )

    def _row(self, place: int, row: ListRow) -> Content:
        edge = Content()
        if row.bar.strip() or row.number.strip():
            bar = f" {row.bar} " if row.bar.strip() else " "
            edge = Content.assemble((bar, self._style("bar")), (row.number, self._style("number")))
        room = max(0, self.content_size.width - edge.cell_length)
        text = Content(f"{self._gutter(place)}{row.text}").truncate(room, ellipsis=True)
        blanks = " " * (room - text.cell_length)
        if place == self.chosen:
            text = text.stylize(self.get_visual_style("exercises--chosen"))
        return Content.assemble(text, blanks, edge)

    def _gutter(self, place: int) -> str:
        """The sign before a row: whether it is chosen, else whether there are more beyond it."""
        last = self.top + self._room - 1
        if place == self.chosen:
            return CHOSEN
        if place == self.top and self.top:
            return ABOVE
        return BELOW if place == last < len(self.rows) - 1 else " "

    def _style(self, name: str) -> Style:
        return self.get_visual_style(f"exercises--{name}", partial=True)

    def on_click(self, event: Click) -> None:
        """A click chooses a row."""
        offset = event.get_content_offset(self)
        if offset is not None and (place := offset.y + self.top) < len(self.rows):
            event.stop()
            self.post_message(self.Pointed(place))

    def on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        """On by a row."""
        event.stop()
        self.top = min(self.top + 1, max(0, len(self.rows) - self._room))

    def on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        """Back by a row."""
        event.stop()
        self.top = max(0, self.top - 1)
