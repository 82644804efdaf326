"""Which cards a sitting asks, and how long an answer just shown has to wait.

Cards come in travel order and keep it. What is left out here waits for another day.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.memory.card_state import CardState

GAP = 10
"""Other prompts between an answer that was shown and the prompt that asks for it."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The cards of one sitting, by key; each list in travel order."""

    repeats: tuple[str, ...]
    """Same-day repeats still owed, asked first."""
    cards: tuple[str, ...]
    """Due and fresh cards together."""


def plan_day(cards: Iterable[tuple[str, CardState]], today: date, fresh_limit: int) -> Plan:
    """What is due, then at most `fresh_limit` fresh cards.

    :param cards: card keys with their states, in travel order, each key once.
    """
    repeats, chosen = [], []
    fresh_left = fresh_limit
    for card, state in cards:
        if state.owes_repeat(today):
            repeats.append(card)
        elif state.is_due(today):
            chosen.append(card)
        elif state.fresh and fresh_left > 0:
            fresh_left -= 1
            chosen.append(card)
    return Plan(tuple(repeats), tuple(chosen))


def waited_long_enough(shown_after: int, prompts: int) -> bool:
    """Whether an answer shown after so many prompts may be asked after so many."""
    return prompts - shown_after >= GAP
