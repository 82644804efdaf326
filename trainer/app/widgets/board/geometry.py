"""How large the squares are in a given terminal, and where each of them lies.

It owns the table of sizes, the turning of the board, and the way from a cell of the
terminal to a square and back. It paints nothing and knows no widget.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

import chess


class Face(Enum):
    """How a piece is shown."""

    DRAWN = "drawn"
    """A silhouette from quadrant blocks; the squares have two colours."""
    CHIPS = "chips"
    """A letter on a chip in the piece's colour; the squares have two colours."""
    PLAIN = "plain"
    """A letter, in reverse for White; dark squares are hatched, no colour is needed."""


@dataclass(frozen=True)
class Size:
    """One way to lay the board out."""

    width: int
    """Cells from the left edge of a square to its right edge."""
    height: int
    """Rows of a square."""
    face: Face = Face.DRAWN
    """How its pieces are shown."""
    inside: bool = False
    """Whether the coordinates stand inside the squares at the edge, to save the room."""

    @property
    def halved(self) -> bool:
        """Whether the board lies half a row lower, so that an even height has a middle row."""
        return self.height % 2 == 0 and self.face is Face.CHIPS

    @property
    def rows(self) -> int:
        """Rows that belong to one square alone."""
        return self.height - self.halved

    @property
    def fine(self) -> bool:
        """Whether marks and arrows are drawn in sub-pixels; other boards write signs."""
        return self.face is not Face.PLAIN and self.height > 2

    @property
    def files_height(self) -> int:
        """Rows of the eight ranks alone."""
        return 8 * self.height + self.halved

    @property
    def margin(self) -> int:
        """Cells left of the squares, for the rank digits."""
        return 0 if self.inside else 3

    @property
    def board_width(self) -> int:
        """Cells of the whole board with its coordinates."""
        return 8 * self.width + self.margin

    @property
    def board_height(self) -> int:
        """Rows of the whole board with its coordinates."""
        return self.files_height + (not self.inside)


_DRAWN = (
    (124, 44, Size(10, 5)),
    (100, 36, Size(8, 4)),
    (84, 27, Size(6, 3)),
    (78, 24, Size(6, 3, inside=True)),
    (73, 20, Size(5, 2, Face.CHIPS)),
)
"""Width and height that the terminal must have, best first; the last is the least room."""

_LETTERS = (
    (124, 44, (11, 5), False),
    (108, 37, (9, 4), False),
    (92, 27, (7, 3), False),
    (84, 27, (5, 3), False),
    (78, 24, (5, 3), True),
    (73, 20, (5, 2), False),
)
"""The same for letters, which want a middle cell: the square, and coordinates inside."""

SMALLEST_TERMINAL = (73, 20)
"""Columns and rows below which no board is shown."""


@lru_cache(maxsize=256)
def choose_size(
    width: int, height: int, *, face: Face = Face.DRAWN, tallest: int = 5
) -> Size | None:
    """The largest size that a terminal of this width and height has room for, or None.

    :param face: `DRAWN` falls back to chips where there is no room for silhouettes.
    :param tallest: the most rows that a square may have.
    """
    for least_width, least_height, size in _table(face):
        if width >= least_width and height >= least_height and size.height <= tallest:
            return size
    return None


def _table(face: Face) -> Iterator[tuple[int, int, Size]]:
    if face is Face.DRAWN:
        yield from _DRAWN
    else:
        for width, height, square, inside in _LETTERS:
            yield width, height, Size(*square, face, inside)


def square_at(column: int, row: int, flipped: bool) -> chess.Square:
    """The square in a column and a row of the board, both from 0 at the top left."""
    return chess.square(7 - column, row) if flipped else chess.square(column, 7 - row)


def place_of(square: chess.Square, flipped: bool) -> tuple[int, int]:
    """Column and row of a square, both from 0 at the top left."""
    file, rank = chess.square_file(square), chess.square_rank(square)
    return (7 - file, rank) if flipped else (file, 7 - rank)


def is_light(square: chess.Square) -> bool:
    """Whether the square is a light one (h1 is)."""
    return bool(chess.BB_SQUARES[square] & chess.BB_LIGHT_SQUARES)


def rows_of(row: int, size: Size) -> range:
    """The lines of the terminal, from the top of the board, that only this row paints."""
    return range(row * size.height + size.halved, (row + 1) * size.height)


def square_under(x: int, y: int, size: Size, flipped: bool) -> chess.Square | None:
    """The square under a cell of the board, None on its coordinates or outside it."""
    if x < size.margin or not 0 <= y < size.files_height:
        return None
    column, row = (x - size.margin) // size.width, min(y // size.height, 7)
    return square_at(column, row, flipped) if column < 8 else None
