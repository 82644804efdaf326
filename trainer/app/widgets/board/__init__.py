"""The chess board: painter, colours and the widget. It knows no cards, decks or sittings."""

from trainer.app.widgets.board.board import Board
from trainer.app.widgets.board.colours import board_variables
from trainer.app.widgets.board.geometry import Face, Size, choose_size
from trainer.app.widgets.board.picture import BoardPicture
from trainer.app.widgets.board.taste import Taste
from trainer.app.widgets.board.view import BoardView

__all__ = [
    "Board",
    "BoardPicture",
    "BoardView",
    "Face",
    "Size",
    "Taste",
    "board_variables",
    "choose_size",
]
