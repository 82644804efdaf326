"""How the reader likes the board: a value that one reactive of the widget takes.

It knows no settings file; the screens make it from theirs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.app.widgets.board.pieces import ORDER


@dataclass(frozen=True)
class Taste:
    """What may differ from reader to reader, apart from the theme."""

    motion: bool = True
    """Whether `play` takes two steps; the app's animation setting can forbid it too."""
    letters: bool = False
    """Whether pieces are letters even where there is room for silhouettes."""
    piece_letters: tuple[str, ...] = tuple(ORDER)
    """The reader's letters, of one or two signs, for king, queen, rook, bishop, knight, pawn."""
    tallest: int = 5
    """The most rows that a square may have, from 2 to 5."""
    show_targets: bool = True
    """Whether the legal goals of the piece in hand are marked."""

    def no_taller_than(self, rows: int) -> Taste:
        """The same for a board with squares of at most so many rows."""
        return replace(self, tallest=min(rows, self.tallest))
