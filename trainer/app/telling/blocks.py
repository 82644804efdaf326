"""What a page of the desk is made of: paragraphs, rows with labels, gauges."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

BARS = "▁▂▃▅▆▇"
"""A bar a quality, 0 to 5."""


class Room(Enum):
    """On which desks a block stands."""

    ANY = auto()
    NARROW = auto()
    """Where the roomy desk says the same elsewhere."""
    ROOMY = auto()
    """Where there is room for more than the why."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Plain text, wrapped."""

    text: str
    room: Room = Room.ANY
    quiet: bool = False
    """Muted."""
    passing: bool = False
    """Not kept when something else is said of the same prompt."""


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of a label and a text that wraps beside it, under a heading or none."""

    rows: tuple[tuple[str, str], ...]
    heading: str = ""
    room: Room = Room.ANY


@dataclass(frozen=True, slots=True)
class Gauges:
    """Rows of a label, a bar and a text, under a heading."""

    heading: str
    rows: tuple[tuple[str, float | None, str], ...]
    """Label, part of the whole from 0 to 1 (None draws no bar), text."""
    room: Room = Room.ROOMY
    length: int = 20
    """Cells of a bar."""


@dataclass(frozen=True, slots=True)
class Choices:
    """Things to choose from by a letter or a click, each in rows of its own."""

    choices: tuple[tuple[str, str], ...]
    """Letter or digit, and text."""
    room: Room = Room.ANY
    right: str = ""
    """The letter of the right one, once it is told."""
    wrong: tuple[str, ...] = ()
    """Those that were tried in vain."""


Block = Paragraph | Rows | Gauges | Choices
