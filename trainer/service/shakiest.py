"""Which of the due cards is the likeliest to be forgotten, to be shown on Today.

Recall falls with the share of its interval that a card has gone unasked, so the oldest by
that measure is the shakiest. What a card asks for is not told.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from trainer.memory.card_state import CardState
from trainer.service.card_history import CardHistory, card_history
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.sitting.cards import Card
from trainer.store.answers import read_states


@dataclass(frozen=True, slots=True)
class Shakiest:
    """A due card with what is known of it."""

    card: Card
    history: CardHistory


def shakiest_due(study: Study, practice: Practice) -> Shakiest | None:
    """The shakiest card among the due ones of a sitting; None where none is due."""
    due = [prompt.card for prompt in practice.sitting.ahead if not (prompt.fresh or prompt.repeat)]
    if not due:
        return None
    states = read_states(study.db)
    card = max(due, key=lambda card: _shakiness(states[card.key], study.today))
    return Shakiest(card, card_history(study, card.key))


def _shakiness(state: CardState, today: date) -> tuple[float, int]:
    waited = (today - state.last_day).days if state.last_day else 0
    return waited / max(1, state.schedule.interval), -state.schedule.e_factor
