"""A list of rows under headings, one of them chosen. It knows no settings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.events import Click, MouseScrollDown, MouseScrollUp, Resize
from textual.message import Message
from textual.reactive import reactive, var
from textual.style import Style
from textual.widget import Widget

CHOSEN, OWN = "►", "•"
"""The signs of the chosen row and of a value that is not the default."""

MORE = "  ↓ more, and the keys"
"""The last row where there are more rows than fit."""

_LABEL, _VALUE = 44, 20
"""Cells of the longest label, and of values and signs where labels are long."""


@dataclass(frozen=True, slots=True)
class SettingRow:
    """What one row shows."""

    section: str
    """A heading stands before the first row of each that has a name."""
    label: str
    value: str = ""
    """Empty: the label has the whole row."""
    own: bool = False
    """Whether the value is another one than the default."""


class SettingList(Widget):
    """As many rows as fit, the chosen one always among them."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "settings--heading",
        "settings--chosen",
        "settings--quiet",
    }

    rows: reactive[tuple[SettingRow, ...]] = reactive(())
    chosen: reactive[int] = reactive(0)
    """The place of the chosen row, from 0."""
    top: var[int] = var(0)
    """The first line that is shown; headings are lines, too."""

    @dataclass
    class Chosen(Message):
        """A row was clicked, or scrolled to."""

        place: int

    def watch_chosen(self) -> None:
        """Keep it in sight."""
        self._scroll()

    def watch_rows(self) -> None:
        """Another number of rows has another place for each."""
        self._scroll()

    def on_resize(self, _event: Resize) -> None:
        """Another height has room for other rows."""
        self._scroll()

    @property
    def screenful(self) -> int:
        """How many rows a page turns by."""
        return max(1, self.content_size.height - 2)

    def _scroll(self) -> None:
        lines = list(self._lines())
        height = self._room(lines)
        if self.chosen not in lines or height < 1:
            return
        at = lines.index(self.chosen)
        first = at - 1 if at and lines[at - 1] is None else at  # with its heading
        top = min(self.top, max(0, len(lines) - height))
        self.top = min(max(top, at - height + 1), first)

    def _room(self, lines: Sequence[int | None]) -> int:
        """How many lines fit; one row is the cue's where there are more."""
        height = self.content_size.height
        return height - 1 if len(lines) > height > 1 else height

    def _lines(self) -> Iterator[int | None]:
        """The places of the rows, None for the headings and the blank lines before them."""
        section = None
        for place, row in enumerate(self.rows):
            if row.section != section:
                yield from [None] * ((1 if row.section else 0) + (0 if section is None else 1))
                section = row.section
            yield place

    def render(self) -> Content:
        """The lines in sight."""
        width = self.content_size.width
        lines = list(self._lines())
        height = self._room(lines)
        longest = max((len(row.label) for row in self.rows if row.value), default=0)
        column = min(longest, _LABEL, max(width // 2, width - _VALUE))
        shown = []
        for at in range(self.top, min(self.top + height, len(lines))):
            place = lines[at]
            if place is not None:
                shown.append(self._row(place, column, width))
            else:
                following = lines[at + 1]
                text = "" if following is None else self.rows[following].section
                shown.append(Content.styled(text, self._style("heading")))
        if height < self.content_size.height:
            cue = MORE if self.top + height < len(lines) else ""
            shown.append(Content.styled(cue, self._style("quiet")))
        return Content("\n").join(shown)

    def _row(self, place: int, column: int, width: int) -> Content:
        row, chosen = self.rows[place], place == self.chosen
        pressed = Style.from_meta({"place": place})
        label = Content(row.label)
        if row.value:
            label = label.truncate(column, ellipsis=True)
            own = f"{OWN if row.own else ' '} "
            label = label.pad_right(column - label.cell_length + 2)
            label += Content.assemble((own, self._style("quiet")), row.value)
        line = Content(f"{CHOSEN if chosen else ' '} ") + label
        line = line.truncate(width, ellipsis=True)
        line = line.pad_right(width - line.cell_length)
        return line.stylize(pressed).stylize(self._style("chosen") if chosen else "")

    def _style(self, name: str) -> Style:
        return self.get_visual_style(f"settings--{name}", partial=name != "chosen")

    def on_click(self, event: Click) -> None:
        """A click chooses a row."""
        place = event.style.meta.get("place")
        if place is not None:
            event.stop()
            self.post_message(self.Chosen(place))

    def on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        """The next row."""
        event.stop()
        self.post_message(self.Chosen(min(self.chosen + 1, len(self.rows) - 1)))

    def on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        """The row before."""
        event.stop()
        self.post_message(self.Chosen(max(self.chosen - 1, 0)))
