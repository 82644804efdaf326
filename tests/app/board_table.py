"""An app with a board and nothing else, and a pointer that finds its squares."""

from typing import ClassVar

import chess
from textual import on
from textual.app import App
from textual.events import Key

from trainer.app.widgets.board import Board, board_variables
from trainer.app.widgets.board.geometry import place_of


class Table(App[None]):
    """A board, and a note of all that comes out of it."""

    AUTO_FOCUS = None
    BINDINGS: ClassVar = [(key, f"key('{key}')", key) for key in ("enter", "space", "escape", "up")]

    def __init__(self, view=None, taste=None):
        super().__init__()
        self.board, self.heard, self.keys = Board(view, taste=taste), [], []

    def get_theme_variable_defaults(self):
        return board_variables(self.current_theme)

    def compose(self):
        yield self.board

    def on_key(self, event: Key):
        if event.is_printable and event.character != " ":
            self.keys.append(event.key)

    def action_key(self, key):
        self.keys.append(key)

    @on(Board.MoveTried)
    def tried(self, event):
        self.heard.append(
            (chess.square_name(event.from_square), chess.square_name(event.to_square))
        )
        assert event.control is self.board

    @on(Board.SquareChosen)
    def chosen(self, event):
        self.heard.append(chess.square_name(event.square))

    @on(Board.Stood)
    def stood(self):
        self.heard.append("stood")


def at(board, name):
    """Where to point for the middle of a square, at the size that the board has now."""
    size = board.square_size
    column, row = place_of(chess.parse_square(name), board.view.flipped)
    return {
        "offset": (
            size.margin + column * size.width + size.width // 2,
            row * size.height + size.height // 2,
        )
    }


def marks(board, name):
    """The marks that the board shows on a square."""
    square = chess.parse_square(name)
    size = board.square_size
    look = board.children[1].scene.look(
        chess.square_file(square), 7 - chess.square_rank(square), size
    )
    return look.marks
