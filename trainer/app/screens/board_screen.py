"""What screens with a board at the left edge have in common: sizes, and too little room.

The stylesheet of such a screen finds classes for the width and the height of the terminal.
Where there is no room for a board the screen is `cramped`: the board says so in one sentence.
"""

from __future__ import annotations

from textual import on
from textual.events import Resize, ScreenResume
from textual.reactive import var
from textual.screen import Screen

from trainer.app.widgets.board.geometry import SMALLEST_TERMINAL
from trainer.app.widgets.board_side import BoardSide

COLUMNS, ROWS = SMALLEST_TERMINAL
WIDTHS = [(0, "-thin"), (COLUMNS, "-wide-enough")]
HEIGHTS = [(0, "-flat"), (ROWS, "-low"), (24, "-short"), (27, "-tall"), (30, "-airy")]


class BoardScreen(Screen[None]):
    """A screen whose rows have their places by the size of the terminal."""

    HORIZONTAL_BREAKPOINTS = WIDTHS
    VERTICAL_BREAKPOINTS = HEIGHTS

    cramped: var[bool] = var(False, init=False)
    """Whether the window is too small for the board."""
    turned: var[bool] = var(False, init=False)
    """Whether the student has turned the board round."""

    @property
    def side(self) -> BoardSide:
        """The board with its caption."""
        return self.query_one(BoardSide)

    def watch_turned(self) -> None:
        """Turn the board."""
        self.side.black_below = not self.side.black_below

    def action_flip(self) -> None:
        """Turn the board round."""
        self.turned = not self.turned

    @on(Resize)
    @on(ScreenResume)
    def _measure(self) -> None:
        columns, rows = self.app.size
        self.cramped = columns < COLUMNS or rows < ROWS
