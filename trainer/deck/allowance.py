"""What a deck may still hold while its files are read one after the other."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.deck.limits import IDEAS, MOVES


@dataclass(slots=True)
class Allowance:
    """One for all files of a deck; what is read is taken off."""

    moves: int = MOVES
    ideas: int = IDEAS
