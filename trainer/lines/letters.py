"""The letters that stand for the pieces in eight languages.

Common usage; no source. A pawn has no letter. How a text is read with them is the
business of `notation.py`; nothing here translates words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import chess


@dataclass(frozen=True, eq=False)
class PieceLetters:
    """How one language abbreviates king, queen, rook, bishop and knight."""

    language: str
    """Its BCP 47 code, such as `de`."""
    letters: Mapping[str, chess.PieceType]
    """One or two letters, the first a capital, to the piece they stand for."""

    def letter(self, piece_type: chess.PieceType) -> str:
        """The letter of a piece; empty for the pawn."""
        return next((text for text, piece in self.letters.items() if piece == piece_type), "")


def _letters(language: str, spelled: str) -> PieceLetters:
    order = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)
    return PieceLetters(language, MappingProxyType(dict(zip(spelled.split(), order, strict=True))))


ENGLISH = _letters("en", "K Q R B N")

LANGUAGES: Mapping[str, PieceLetters] = MappingProxyType(
    {
        known.language: known
        for known in (
            ENGLISH,
            _letters("de", "K D T L S"),
            _letters("fr", "R D T F C"),
            _letters("es", "R D T A C"),
            _letters("it", "R D T A C"),
            _letters("nl", "K D T L P"),
            _letters("pl", "K H W G S"),
            _letters("ru", "Кр Ф Л С К"),
        )
    }
)
