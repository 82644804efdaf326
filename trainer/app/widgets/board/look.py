"""What one square shows, as a value that a painter can be asked for again and again."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.app.widgets.board.marks import Mark, SubPixels


@dataclass(frozen=True)
class Look:
    """Everything that decides how a square is painted, apart from size and colours."""

    light: bool
    """Whether it is a light square."""
    piece: str = ""
    """The piece as a FEN writes it (`N`, `n`), empty for none."""
    letter: str = ""
    """The reader's own letter for that piece, one or two signs; letter boards show it."""
    marks: frozenset[Mark] = frozenset()
    """What is said of the square."""
    stones: SubPixels = frozenset()
    """The parts of arrows that lie in it."""
    note: str = ""
    """The letter of a note that points at the square, empty for none."""
    arrow: str = ""
    """The letters of the arrows that end here or, where signs are written, begin here."""
    rank: str = ""
    """The rank digit, if the coordinates stand inside and this square carries one."""
    file: str = ""
    """The file letter, likewise."""

    @property
    def white(self) -> bool:
        """Whether the piece is White's."""
        return self.piece.isupper()
