"""Asking what a pawn becomes, where a move was made on the board."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from trainer.app.telling.blocks import Choices, Paragraph
from trainer.app.telling.moment import Moment, Tone

PROMOTIONS = {
    "Q": chess.QUEEN,
    "R": chess.ROOK,
    "B": chess.BISHOP,
    "N": chess.KNIGHT,
}
"""By the letter that chooses the piece; 1 to 4 choose in the same order."""


@dataclass(frozen=True, slots=True)
class Promoting:
    """A pawn's move that waits for its piece."""

    from_square: chess.Square
    to_square: chess.Square


def asks_promotion(board: chess.Board, from_square: int, to_square: int) -> bool:
    """Whether a legal move between these squares promotes a pawn."""
    return board.is_legal(chess.Move(from_square, to_square, chess.QUEEN))


def promotion_of(letter: str) -> int | None:
    """The piece that a typed letter or digit chooses."""
    numbered = dict(zip("1234", PROMOTIONS.values(), strict=True))
    return PROMOTIONS.get(letter.upper()) or numbered.get(letter)


def asking_promotion(before: Moment) -> Moment:
    """The desk asks which piece."""
    choices = tuple((letter, chess.piece_name(piece)) for letter, piece in PROMOTIONS.items())
    return Moment(
        before.stage,
        before.card,
        "?",
        Tone.HELP,
        "Which piece does it become?",
        page=(Choices(choices), Paragraph("A letter, 1 to 4, or a click.", quiet=True)),
        missed=before.missed,
    )
