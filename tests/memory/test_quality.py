"""SM-2's quality from what happened."""

from __future__ import annotations

import pytest

from trainer.memory.quality import HESITATION_SECONDS, quality

# Source: Wozniak (1990), 3.2, the scale of 0 to 5, put into this trade's events.
CASES = {
    "at once": (5, 0, False, False, 2.0),
    "on the stroke of the hesitation time": (5, 0, False, False, 8.0),
    "after it": (4, 0, False, False, 8.001),
    "a hint": (3, 0, True, False, 2.0),
    "a hint, slowly": (3, 0, True, False, 60.0),
    "a miss": (2, 1, False, False, 2.0),
    "many misses": (2, 7, False, False, 2.0),
    "a miss and a hint": (1, 1, True, False, 2.0),
    "shown": (0, 0, False, True, 2.0),
    "shown after a hint": (0, 0, True, True, 2.0),
    "shown after a miss": (0, 2, False, True, 2.0),
    "shown after everything": (0, 2, True, True, 2.0),
}


@pytest.mark.parametrize("case", CASES)
def test_quality(case: str) -> None:
    expected, misses, hint, shown, seconds = CASES[case]
    assert (
        quality(
            misses=misses, hint=hint, shown=shown, seconds=seconds, hesitation=HESITATION_SECONDS
        )
        == expected
    )


def test_the_hesitation_time_is_a_setting() -> None:
    assert quality(misses=0, hint=False, shown=False, seconds=9, hesitation=10) == 5
    assert quality(misses=0, hint=False, shown=False, seconds=9, hesitation=8.5) == 4
