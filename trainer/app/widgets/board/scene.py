"""What the parts of the board paint from: one view, and the size that the terminal allows.

The board puts a view in and hears which squares changed; its parts ask for looks while they
paint, so a new terminal size needs no message. It knows no widget.
"""

from __future__ import annotations

import chess

from trainer.app.widgets.board.geometry import Face, Size, choose_size, square_at
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.taste import Taste
from trainer.app.widgets.board.view import BoardView, looks


class Scene:
    """The shown view; its looks are worked out when first asked for, and then kept."""

    def __init__(self) -> None:
        self.view = BoardView()
        self.face = Face.DRAWN
        """How pieces are shown where there is room."""
        self.taste = Taste()
        """How the reader likes the board."""
        self._known: tuple[object, ...] = ()
        self._looks: dict[chess.Square, Look] = {}

    def fit(self, terminal: tuple[int, int]) -> Size | None:
        """The size of the board in a terminal of this width and height."""
        return choose_size(*terminal, face=self.face, tallest=self.taste.tallest)

    def show(self, view: BoardView, size: Size | None) -> set[chess.Square]:
        """Take a new view; gives the squares that look otherwise than before at this size."""
        if size is None:
            self.view = view
            return set()
        before = self._current(size)
        self.view = view
        after = self._current(size)
        return {square for square in chess.SQUARES if before[square] != after[square]}

    def square(self, column: int, row: int) -> chess.Square:
        """The square at a place of the board as it is turned now."""
        return square_at(column, row, self.view.flipped)

    def look(self, column: int, row: int, size: Size) -> Look:
        """What stands at a place of the board."""
        return self._current(size)[self.square(column, row)]

    def _current(self, size: Size) -> dict[chess.Square, Look]:
        letters = self.taste.piece_letters
        wanted = (self.view, size, letters)
        if self._known != wanted:
            self._looks, self._known = looks(self.view, size, letters), wanted
        return self._looks
