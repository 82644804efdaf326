"""The shape of every mark on a square: shape first, colour second.

Each mark has a set of sub-pixels; the signs of boards that are written are elsewhere. Nothing
here knows colours, pieces or the order in which things are painted.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto
from functools import cache

SubPixels = frozenset[tuple[int, int]]
"""Places in a square, half a cell by half a row each, (0, 0) at the top left."""


class Mark(Enum):
    """What can be said of a square, the most urgent first."""

    HELD = auto()
    """The piece in hand, or the square it hovers over."""
    CURSOR = auto()
    """The square that the keyboard points at."""
    CHOSEN = auto()
    """A square that the reader has chosen as an answer."""
    WRONG = auto()
    """A square that was chosen and is no answer. It is written, not drawn."""
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
    """Where an arrow of a note ends. The arrow itself is its shape, where it is drawn."""
    ARROW_FROM = auto()
    """Where an arrow of a note begins, likewise."""
    NOTED = auto()
    """A square that a note points at."""


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
            # Open corners: with the cursor's sides it would be the frame of a piece in hand.
            return frozenset(_bar(w, 2, 0) | _bar(w, 2, h - 1))
        case Mark.GOAL:
            return frozenset(_bar(w, indent, h - 2))
        case Mark.CAPTURE:
            return frozenset(_bar(w, indent, h - 1) | _bar(w, max(4, width - 2), 0))
        case Mark.CHECK:
            return frozenset((x, y) for x, y in sides if y % 2 and y > 1)
        case Mark.TO:
            return _corners(w, h, {(0, 0), (1, 0), (0, 1)})
        case Mark.FROM:
            return _corners(w, h, {(0, 0), (1, 0)})
        case Mark.NOTED:
            return frozenset((x, y) for x, y in sides if 0 < y < h - 1)
        case Mark.WRONG | Mark.ARROW_TO | Mark.ARROW_FROM:
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
