"""Credit for an early right answer: the project's addition to SM-2's numbers.

SM-2 adds (EF - 1) I days to the interval for I days survived; here t days earn their
part. At t = I the two agree but for rounding.
"""

from __future__ import annotations

from dataclasses import replace

from trainer.memory.sm2 import Schedule


def early_right(schedule: Schedule, days_since: int) -> Schedule:
    """The schedule after a right answer before the due day; only the interval grows.

    :param days_since: days since the card's last answer of any kind, at least 0.
    """
    gain = (schedule.e_factor - 100) * days_since // 100
    return replace(schedule, interval=schedule.interval + gain)
