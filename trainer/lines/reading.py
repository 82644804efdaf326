"""What the rules of chess make of one try, before any deck is asked.

Every `reason` is a clause without capital and full stop, good after a colon or, with
both, as a sentence. It never holds control characters.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess


@dataclass(frozen=True, slots=True)
class LegalMove:
    """The try is this legal move and no other."""

    move: chess.Move
    san: str
    """Standard notation as the PGN standard writes it on export, English letters."""


@dataclass(frozen=True, slots=True)
class Unclear:
    """The try fits more than one legal move."""

    reason: str
    """What is missing; pieces in the order of their squares, never of their merit."""


@dataclass(frozen=True, slots=True)
class Illegal:
    """The try names a move that the rules forbid."""

    reason: str
    """Why, in the words of the rules; no other move is suggested."""


@dataclass(frozen=True, slots=True)
class Unreadable:
    """The text is no move."""

    reason: str
    """What was expected."""


Reading = LegalMove | Unclear | Illegal | Unreadable
