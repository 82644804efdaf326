"""The reader's taste in boards, from the settings: the board itself knows none."""

from __future__ import annotations

import chess

from trainer.app.widgets.board import Taste
from trainer.lines.letters import LANGUAGES
from trainer.service.settings import Settings

ROWS = {"largest": 5, "large": 4, "medium": 3, "small": 2}
"""The most rows of a square, by the setting `board_size`."""

_PAWNS = {"de": "B", "nl": "I", "ru": "П"}
"""Letters for the pawn. Common practice; no source: the word's first letter, which in Dutch
the knight has already, so there its second. Elsewhere it is P."""

_PIECES = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)


def taste_of(settings: Settings) -> Taste:
    """How the student wants to see boards."""
    return Taste(
        motion=settings.motion,
        letters=settings.pieces == "letters",
        piece_letters=board_letters(settings.piece_letters),
        tallest=ROWS[settings.board_size],
        show_targets=settings.show_targets,
    )


def board_letters(language: str) -> tuple[str, ...]:
    """The letters of a language for king, queen, rook, bishop, knight and pawn."""
    letters = LANGUAGES[language]
    pieces = (letters.letter(piece) for piece in _PIECES)
    return (*pieces, _PAWNS.get(language, "P"))
