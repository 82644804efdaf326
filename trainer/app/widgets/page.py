"""The page of the desk: blocks of text, laid out for its width, turned with PgUp and PgDn.

It owns wrapping, the columns of rows and the look of gauges. It knows no cards.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.events import Click, MouseScrollDown, MouseScrollUp, Resize
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

from trainer.app.telling.blocks import Block, Choices, Gauges, Paragraph, Room, Rows

WIDEST = 72
"""Longer lines are hard to read."""

ROOMY = (40, 18)
"""From this width and height on the page has room for more than the why."""

_LABEL = 14

_BESIDE = 5
"""Cells left of the text of a choice."""


class Page(Widget):
    """Blocks, as many rows of them as there is room for."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "page--heading",
        "page--quiet",
        "page--gauge",
        "page--more",
        "page--key",
        "page--right",
    }

    blocks: reactive[tuple[Block, ...]] = reactive(())
    """What is said; a new page begins at its top."""
    top: reactive[int] = reactive(0)
    """The first row that is shown."""
    lead: reactive[int] = reactive(0)
    """Blank rows before the first one."""
    pointed: reactive[str] = reactive("")
    """The letter of the choice that the arrow keys point at; empty for none."""

    @dataclass
    class Chosen(Message):
        """One of the choices was clicked."""

        letter: str

    def watch_blocks(self) -> None:
        """Begin at the top, pointing at nothing."""
        self.top, self.pointed = 0, ""

    def watch_pointed(self, letter: str) -> None:
        """Turn the page to the choice."""
        rows = [
            row
            for row, line in enumerate(self.lines(self.content_size.width))
            if _choice_of(line) == letter
        ]
        if letter and rows:
            room = max(1, self.content_size.height - 1)
            self.top = min(max(self.top, rows[-1] - room + 1), rows[0])

    def render(self) -> Content:
        """The rows that fit, the last of them free for the cue if there are more."""
        width, height = self.content_size
        lines = self.lines(width)
        if len(lines) <= height:
            return Content("\n").join(lines)
        room = max(1, height - 1)
        below = len(lines) - self.top - room
        cue = f"PgDn {below} more" if below > 0 else "PgUp back"
        cue_line = Content.styled(cue, self._style("more"))
        shown = lines[self.top : self.top + room]
        shown += [Content()] * (room - len(shown))
        return Content("\n").join([*shown, cue_line])

    def get_content_height(self, _container: Size, _viewport: Size, width: int) -> int:
        """As high as the text, where the stylesheet leaves it open."""
        return len(self.lines(width))

    def lines(self, full_width: int) -> list[Content]:
        """All rows of the page for a width, closed up where room is dear."""
        if full_width < 2:
            return []
        lines = self._composed(full_width, close=False)
        if self.roomy or len(lines) <= self.content_size.height:
            return lines
        return self._composed(full_width, close=True)

    def _composed(self, full_width: int, close: bool) -> list[Content]:
        """The rows; closed up, labels without a heading follow their text at once."""
        width = min(full_width, WIDEST)
        wanted = Room.ROOMY if self.roomy else Room.NARROW
        lines: list[Content] = []
        for block in self.blocks:
            if block.room in (Room.ANY, wanted):
                joined = close and isinstance(block, Rows) and not block.heading
                lines += [Content()] if lines and not joined else []
                lines += self._laid_out(block, width, full_width)
        return [Content()] * self.lead + lines

    @property
    def roomy(self) -> bool:
        """Whether there is room for more than the why."""
        size = self.content_size
        return size.width >= ROOMY[0] and size.height >= ROOMY[1]

    def point(self, steps: int) -> None:
        """Point at a choice further down or up; at first at the first or the last."""
        letters = [
            letter
            for block in self.blocks
            if isinstance(block, Choices)
            for letter, _ in block.choices
        ]
        if not letters:
            return
        at = letters.index(self.pointed) + steps if self.pointed in letters else min(0, steps)
        self.pointed = letters[at % len(letters)]

    def turn(self, pages: int) -> None:
        """Move by so many screenfuls."""
        self.move(pages * max(1, self.content_size.height - 2))

    def move(self, rows: int) -> None:
        """Move by so many rows, no further than there is something to read."""
        room = max(1, self.content_size.height - 1)
        lines = len(self.lines(self.content_size.width))
        last = lines - room if lines > self.content_size.height else 0
        self.top = min(max(0, self.top + rows), max(0, last))

    def on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        """Read on."""
        event.stop()
        self.move(1)

    def on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        """Read back."""
        event.stop()
        self.move(-1)

    def on_click(self, event: Click) -> None:
        """A click on a choice chooses it."""
        if letter := event.style.meta.get("letter"):
            event.stop()
            self.post_message(self.Chosen(letter))

    def on_resize(self, _event: Resize) -> None:
        """Another width has other rows."""
        self.move(0)

    def _laid_out(self, block: Block, width: int, full_width: int) -> list[Content]:
        match block:
            case Paragraph(text):
                style = self._style("quiet") if block.quiet else ""
                return Content.styled(text, style).wrap(width)
            case Rows(rows, heading):
                return [*self._heading(heading), *self._rows(rows, width)]
            case Gauges(heading, rows, _, length):
                gauges = self._gauges(rows, length, full_width)
                return [*self._heading(heading), *gauges]
            case Choices(choices):
                laid = (self._choice(block, letter, text, width) for letter, text in choices)
                return [line for choice in laid for line in choice]

    def _heading(self, text: str) -> list[Content]:
        return [Content.styled(text, self._style("heading"))] if text else []

    def _rows(self, rows: Sequence[tuple[str, str]], width: int) -> Iterator[Content]:
        column = _column([label for label, _ in rows], width)
        for label, text in rows:
            beside = self._label(label, column)
            for line in Content(text).wrap(max(2, width - column)):
                yield beside + line
                beside = Content(" " * column)

    def _gauges(
        self, rows: Sequence[tuple[str, float | None, str]], length: int, width: int
    ) -> Iterator[Content]:
        column = _column([label for label, _, _ in rows], width)
        longest = max((Content(text).cell_length for _, _, text in rows), default=0)
        length = max(6, min(length, width - column - longest - 2))
        for label, part, text in rows:
            line = Content(label.ljust(column))
            if part is not None:
                line += gauge(part, length, self._style("gauge"), self._style("quiet"))
                text = f"  {text}"
            yield (line + Content(text)).truncate(width, ellipsis=True)

    def _choice(self, block: Choices, letter: str, text: str, width: int) -> Iterator[Content]:
        """A choice with its letter; behind that a sign, once it is known or was tried."""
        pressed = Style.from_meta({"letter": letter})
        pointed = letter == self.pointed
        name = Content.styled(
            f"{'►' if pointed else ' '}{letter} ", self.get_visual_style("page--key") + pressed
        )
        sign, style = " ", pressed
        if letter == block.right:
            sign, style = "●", self._style("right") + pressed
        elif letter in block.wrong:
            sign, style = "×", self._style("quiet") + pressed
        elif pointed:
            style = self._style("heading") + pressed
        beside = name + Content.styled(f"{sign} ", style)
        for line in Content(text).wrap(max(2, width - _BESIDE)):
            yield beside + line.stylize(style)
            beside = Content.styled(" " * _BESIDE, pressed)

    def _label(self, text: str, column: int) -> Content:
        label = Content.styled(text, self._style("quiet")).truncate(column, ellipsis=True)
        return label.pad_right(column - label.cell_length)

    def _style(self, name: str) -> Style:
        return self.get_visual_style(f"page--{name}", partial=True)


def _choice_of(line: Content) -> str:
    """The letter of the choice to which a row belongs; empty for other rows."""
    metas = (span.style.meta for span in line.spans if isinstance(span.style, Style))
    return next((str(meta["letter"]) for meta in metas if "letter" in meta), "")


def gauge(part: float, length: int, full: Style, empty: Style) -> Content:
    """A thin bar of which a part is full; any part above nothing shows."""
    cells = min(length, max(1, round(part * length))) if part > 0 else 0
    return Content.assemble(("━" * cells, full), ("─" * (length - cells), empty))


def _column(labels: Sequence[str], width: int) -> int:
    """The width of a column of labels with the gap behind it."""
    longest = max((Content(label).cell_length for label in labels), default=0)
    return min(longest, _LABEL, width // 2) + 2 if longest else 0
