"""The state of a card: what its answers, replayed in order, come to.

The answer log is the truth; a state is derived from it and can be made again at any time,
to the bit. This module owns which answers count, when a card is due and whether it still
owes a repeat.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from trainer.memory.part_credit import early_right
from trainer.memory.sm2 import NEVER_ASKED, PASSED, REPEATED_BELOW, Schedule, answered

RULE_VERSION = 1
"""Goes up when the same log would give other states; stored with every answer."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What an answer is to the schedule."""

    day: date
    """The local day."""
    quality: int
    """SM-2's scale, 0 to 5."""
    repeat: bool
    """Asked again in a sitting because an answer of the same day scored below 4."""
    part_credit: bool
    """Whether an early right answer earned part credit when this was answered."""


@dataclass(frozen=True, slots=True)
class CardState:
    """What is known of a card; the defaults are those of a fresh card."""

    schedule: Schedule = NEVER_ASKED
    due: date | None = None
    """The local day from which it is asked again; None while fresh."""
    first_day: date | None = None
    """The local day of the first answer."""
    last_day: date | None = None
    """The local day of the latest answer of any kind."""
    last_quality: int | None = None
    """The quality of the latest answer of any kind."""
    counted_quality: int | None = None
    """The quality of the latest answer that the schedule took account of."""
    best_quality: int | None = None
    """The greatest quality of any answer."""

    @property
    def fresh(self) -> bool:
        """Never asked."""
        return self.due is None

    @property
    def known(self) -> bool:
        """The latest answer that the schedule took account of had quality 3 or more."""
        return self.counted_quality is not None and self.counted_quality >= PASSED

    @property
    def held_once(self) -> bool:
        """Some answer, repeats included, had quality 3 or more."""
        return self.best_quality is not None and self.best_quality >= PASSED

    def is_due(self, today: date) -> bool:
        """The due day is reached."""
        return self.due is not None and self.due <= today

    def owes_repeat(self, today: date) -> bool:
        """Its latest answer is of today and scored below 4."""
        return (
            self.last_day == today
            and self.last_quality is not None
            and self.last_quality < REPEATED_BELOW
        )


FRESH = CardState()


def advance(state: CardState, answer: Answer) -> CardState:
    """The state after one more answer.

    Repeats change neither schedule nor due day. A miss before the due day is a miss; an
    early right answer earns part credit where that is on, and else changes nothing.
    """
    seen = replace(
        state,
        first_day=state.first_day or answer.day,
        last_day=answer.day,
        last_quality=answer.quality,
        best_quality=max(answer.quality, state.best_quality or 0),
    )
    if answer.repeat and not state.fresh:
        return seen
    early = state.due is not None and answer.day < state.due
    if early and answer.quality >= PASSED:
        if not answer.part_credit:
            return seen
        schedule = early_right(state.schedule, _days_between(state.last_day, answer.day))
    else:
        schedule = answered(state.schedule, answer.quality)
    return replace(
        seen,
        schedule=schedule,
        due=_days_after(answer.day, schedule.interval),
        counted_quality=answer.quality,
    )


def replay(answers: Iterable[Answer]) -> CardState:
    """The state that these answers, in their order, come to."""
    state = FRESH
    for answer in answers:
        state = advance(state, answer)
    return state


def _days_after(day: date, days: int) -> date:
    """The day so many days later; the calendar's last day where it has no more."""
    return day + timedelta(days=min(days, (date.max - day).days))


def _days_between(earlier: date | None, later: date) -> int:
    """Never below 0: one can fly west."""
    return max(0, (later - earlier).days) if earlier else 0
