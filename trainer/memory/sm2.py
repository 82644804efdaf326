"""SM-2 as published: E-factor, repetitions and intervals, and nothing the project added.

Source: Wozniak, *Optimization of Learning* (1990), section 3.2. The E-factor is held in
whole hundredths: its steps are whole hundredths too, while floats give a wrong interval
from the fifth perfect answer on.
"""

from __future__ import annotations

from dataclasses import dataclass

FIRST_E_FACTOR = 250
LEAST_E_FACTOR = 130
PASSED = 3
"""The least quality that goes on with the repetitions."""
REPEATED_BELOW = 4
"""An item scoring less comes again in the same sitting."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """SM-2's numbers for one item; the defaults are those of an item never asked."""

    repetition: int = 0
    """The n of the interval I(n) last set; 0 before the first answer."""
    interval: int = 0
    """Whole days."""
    e_factor: int = FIRST_E_FACTOR
    """Hundredths: 250 is an E-factor of 2.5."""


NEVER_ASKED = Schedule()


def next_e_factor(e_factor: int, quality: int) -> int:
    """EF' = EF + (0.1 - (5 - q)(0.08 + (5 - q) 0.02)), at least 1.3; in hundredths."""
    off = 5 - quality
    return max(LEAST_E_FACTOR, e_factor + 10 - off * (8 + 2 * off))


def answered(schedule: Schedule, quality: int) -> Schedule:
    """The schedule after an answer of quality 0 to 5 that counts.

    I(1) = 1, I(2) = 6, I(n) = I(n-1) EF with the new E-factor, a fraction rounded up. A
    quality below 3 starts the repetitions again and leaves the E-factor.

    :raises ValueError: the quality is not on the scale.
    """
    if not 0 <= quality <= 5:
        raise ValueError(f"quality {quality} is not on SM-2's scale of 0 to 5")
    if quality < PASSED:
        return Schedule(1, 1, schedule.e_factor)
    e_factor = next_e_factor(schedule.e_factor, quality)
    repetition = schedule.repetition + 1
    if repetition == 1:
        interval = 1
    elif repetition == 2:
        interval = 6
    else:
        interval = (schedule.interval * e_factor + 99) // 100
    return Schedule(repetition, interval, e_factor)
