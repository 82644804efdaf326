"""A board of 64 letters that knows how pieces attack and nothing else of chess.

Written without any chess library, so that it can tell `trainer.lines.facts` that it is
wrong. Squares are (file, rank) from 0; White's pieces are capitals, as in a FEN.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

Square = tuple[int, int]

STRAIGHT = [(0, 1), (1, 0), (0, -1), (-1, 0)]
DIAGONAL = [(1, 1), (1, -1), (-1, -1), (-1, 1)]
JUMPS = [(f, r) for f in (-2, -1, 1, 2) for r in (-2, -1, 1, 2) if abs(f) != abs(r)]
STEPS = {"n": JUMPS, "k": STRAIGHT + DIAGONAL}
RAYS = {"b": DIAGONAL, "r": STRAIGHT, "q": STRAIGHT + DIAGONAL}


class Mailbox:
    """The pieces of a FEN."""

    def __init__(self, fen: str) -> None:
        self.at: dict[Square, str] = {}
        for down, row in enumerate(fen.split()[0].split("/")):
            file = 0
            for sign in row:
                if sign.isdigit():
                    file += int(sign)
                else:
                    self.at[file, 7 - down] = sign
                    file += 1

    def men(self, white: bool) -> list[Square]:
        """Where a side's pieces and pawns stand."""
        return [square for square, sign in self.at.items() if sign.isupper() == white]

    def pawns(self, white: bool) -> list[Square]:
        """Where a side's pawns stand."""
        return [square for square in self.men(white) if self.at[square] in "Pp"]

    def hits(self, white: bool) -> Counter[Square]:
        """How many of a side's pieces and pawns attack each square."""
        return Counter(hit for square in self.men(white) for hit in self._from(square))

    def _from(self, square: Square) -> Iterable[Square]:
        (file, rank), sign = square, self.at[square]
        kind = sign.lower()
        ahead = 1 if sign.isupper() else -1
        for f, r in STEPS.get(kind, [(-1, ahead), (1, ahead)] if kind == "p" else []):
            if 0 <= file + f < 8 and 0 <= rank + r < 8:
                yield file + f, rank + r
        for f, r in RAYS.get(kind, []):
            to = file + f, rank + r
            while 0 <= to[0] < 8 and 0 <= to[1] < 8:
                yield to
                if to in self.at:
                    break
                to = to[0] + f, to[1] + r


def names(squares: Iterable[Square]) -> tuple[str, ...]:
    """`("c3", "e4")`, sorted."""
    return tuple(sorted(f"{'abcdefgh'[file]}{rank + 1}" for file, rank in squares))
