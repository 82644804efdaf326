"""What the log tells of one card: how often it was asked and how that went."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from trainer.memory.sm2 import PASSED
from trainer.service.study import Study
from trainer.store.answers import read_log


@dataclass(frozen=True, slots=True)
class CardHistory:
    """The answers to a card, same-day repeats and withdrawn ones left out."""

    qualities: tuple[int, ...]
    """In the order in which they were given."""
    last_day: date | None
    """None where it was never asked."""

    @property
    def asked(self) -> int:
        """How often it was asked."""
        return len(self.qualities)

    @property
    def missed(self) -> int:
        """How often the answer was no right first try."""
        return sum(1 for quality in self.qualities if quality < PASSED)


def card_history(study: Study, card: str) -> CardHistory:
    """The history of the card with this key."""
    counted = [
        entry.answer.schedule
        for entry in read_log(study.db, card)
        if not (entry.withdrawn or entry.answer.schedule.repeat)
    ]
    return CardHistory(
        tuple(answer.quality for answer in counted), counted[-1].day if counted else None
    )
