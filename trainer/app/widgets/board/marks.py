"""The shape of every mark on a square: shape first, colour second.

Each mark has a set of sub-pixels for drawn boards and up to three signs for letter boards.
Nothing here knows colours, pieces or the order in which things are painted.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto
from functools import cache

SubPixels = frozenset[tuple[int, int]]
"""Places in a square, half a cell by half a row each, (0, 0) at the top left."""


class Mark(Enum):
    """What can be said of a square. Where two want the same place, the earlier one has it."""

    HELD = auto()
    """The piece in hand, or the square it hovers over."""
    CURSOR = auto()
    """The square that the keyboard points at."""
    CHOSEN = auto()
    """A square that the reader has chosen as an answer."""
    GOAL = auto()
    """An empty square that the piece in hand may go to."""
    CAPTURE = auto()
    """A square on which the piece in hand may take."""
    CHECK = auto()
    """A king in check."""
    TO = auto()
    """Where the last move went."""
    FROM = auto()
    """Where the last move came from."""
    ARROW_TO = auto()
    """Where an arrow of a note ends. Drawn boards show the arrow itself."""
    ARROW_FROM = auto()
    """Where an arrow of a note begins. Drawn boards show the arrow itself."""
    NOTED = auto()
    """A square that a note points at."""


LETTER = "*"
"""Stands for the letter of a note among the signs below."""

_CHIP_SIGNS = {
    Mark.HELD: ("▌", "", "▐"),
    Mark.CURSOR: (">", "", "<"),
    Mark.CHOSEN: ("{", "", "}"),
    Mark.GOAL: ("", "•", ""),
    Mark.CAPTURE: ("›", "", "‹"),
    Mark.CHECK: ("+", "", "+"),
    Mark.TO: ("[", "", "]"),
    Mark.FROM: ("(", "", ")"),
    Mark.ARROW_TO: ("›", "", LETTER),
    Mark.ARROW_FROM: ("", "", LETTER),
    Mark.NOTED: ("", "", LETTER),
}
"""Left of the piece, in its place, right of it."""

_PLAIN_HELD = ("»", "", "«")


def signs(mark: Mark, plain: bool) -> tuple[str, str, str]:
    """What a letter board writes for a mark: left of the piece, in its place, right of it."""
    return _PLAIN_HELD if plain and mark is Mark.HELD else _CHIP_SIGNS[mark]


@cache
def sub_pixels(mark: Mark, width: int, height: int) -> SubPixels:
    """The shape of a mark on a drawn square of so many cells and rows."""
    w, h = 2 * width, 2 * height
    # Whole cells: a bar that ends within one would meet the piece and the square there.
    # Short at the head, where a crown would not be known without its points.
    indent = 2 * (width // 3)
    sides = {(x, y) for x in (0, w - 1) for y in range(h)}
    match mark:
        case Mark.HELD:
            return frozenset(sides | _bar(w, 0, 0) | _bar(w, 0, h - 1))
        case Mark.CURSOR:
            return frozenset(sides)
        case Mark.CHOSEN:
            return frozenset(_bar(w, 0, 0) | _bar(w, 0, h - 1))
        case Mark.GOAL:
            return frozenset(_bar(w, indent, h - 2))
        case Mark.CAPTURE:
            return frozenset(_bar(w, indent, h - 1) | _bar(w, width - 2, 0))
        case Mark.CHECK:
            return frozenset((x, y) for x, y in sides if y % 2 and y > 1)
        case Mark.TO:
            return _corners(w, h, {(0, 0), (1, 0), (0, 1)})
        case Mark.FROM:
            return _corners(w, h, {(0, 0)})
        case Mark.NOTED:
            return frozenset((x, y) for x, y in sides if 0 < y < h - 1)
        case Mark.ARROW_TO | Mark.ARROW_FROM:
            return frozenset()


def _bar(w: int, indent: int, y: int) -> set[tuple[int, int]]:
    return {(x, y) for x in range(indent, w - indent)}


def _corners(w: int, h: int, corner: Iterable[tuple[int, int]]) -> SubPixels:
    """A shape at the top left, repeated in the other three corners."""
    return frozenset(
        place
        for x, y in corner
        for place in ((x, y), (w - 1 - x, y), (x, h - 1 - y), (w - 1 - x, h - 1 - y))
    )
