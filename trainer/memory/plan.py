"""Which cards a sitting asks, and how long an answer just shown has to wait.

Cards come in travel order and keep it. What is left out here waits for another day.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
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


def choose_fresh(groups: Sequence[Sequence[str]], limit: int) -> frozenset[str]:
    """The fresh cards of a day: of every group its part, so that all groups end together.

    Seats by largest remainders (Hamilton's method, common practice): each group gets the whole
    part of its quota, and what is left goes to the largest fractions.

    :param groups: fresh cards of one kind each, in the order in which they come.
    """
    total = sum(map(len, groups))
    if limit >= total:
        return frozenset(card for group in groups for card in group)
    parts = [divmod(limit * len(group), total) for group in groups]
    seats = [whole for whole, _ in parts]
    by_remainder = sorted(range(len(groups)), key=lambda number: -parts[number][1])
    for number in by_remainder[: limit - sum(seats)]:
        seats[number] += 1
    return frozenset(
        card for group, seat in zip(groups, seats, strict=True) for card in group[:seat]
    )


def plan_day(cards: Iterable[tuple[str, CardState]], today: date, fresh: Collection[str]) -> Plan:
    """What is due, and the fresh cards that were chosen.

    :param cards: card keys with their states, in the order of asking, each key once.
    """
    repeats, chosen = [], []
    for card, state in cards:
        if state.owes_repeat(today):
            repeats.append(card)
        elif state.is_due(today) or (state.fresh and card in fresh):
            chosen.append(card)
    return Plan(tuple(repeats), tuple(chosen))


def waited_long_enough(shown_after: int, prompts: int) -> bool:
    """Whether an answer shown after so many prompts may be asked after so many."""
    return prompts - shown_after >= GAP
