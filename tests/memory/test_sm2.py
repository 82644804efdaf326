"""SM-2 against the published rule: worked tables, and exact fractions on every sequence."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.memory.part_credit import early_right
from trainer.memory.sm2 import (
    FIRST_E_FACTOR,
    LEAST_E_FACTOR,
    NEVER_ASKED,
    Schedule,
    answered,
    next_e_factor,
)

QUALITIES = range(6)

# Source: Wozniak, Optimization of Learning (1990), 3.2; every row worked by hand and by
# exact fractions. After each answer: repetition/E-factor/interval.
WORKED = {
    "5555": "1/2.60/1 2/2.70/6 3/2.80/17 4/2.90/50",
    "55555555": (
        "1/2.60/1 2/2.70/6 3/2.80/17 4/2.90/50 5/3.00/150 6/3.10/465 7/3.20/1488 8/3.30/4911"
    ),
    "4444": "1/2.50/1 2/2.50/6 3/2.50/15 4/2.50/38",
    "444444": "1/2.50/1 2/2.50/6 3/2.50/15 4/2.50/38 5/2.50/95 6/2.50/238",
    "055": "1/2.50/1 2/2.60/6 3/2.70/17",
    "22444": "1/2.50/1 1/2.50/1 2/2.50/6 3/2.50/15 4/2.50/38",
    "33333333344": (
        "1/2.36/1 2/2.22/6 3/2.08/13 4/1.94/26 5/1.80/47 6/1.66/79 7/1.52/121 8/1.38/167 "
        "9/1.30/218 10/1.30/284 11/1.30/370"
    ),
    "5552555": "1/2.60/1 2/2.70/6 3/2.80/17 1/2.80/1 2/2.90/6 3/3.00/18 4/3.10/56",
    "345435": "1/2.36/1 2/2.36/6 3/2.46/15 4/2.46/37 5/2.32/86 6/2.42/209",
    "4440444": "1/2.50/1 2/2.50/6 3/2.50/15 1/2.50/1 2/2.50/6 3/2.50/15 4/2.50/38",
    "535353": "1/2.60/1 2/2.46/6 3/2.56/16 4/2.42/39 5/2.52/99 6/2.38/236",
    "55551345": "1/2.60/1 2/2.70/6 3/2.80/17 4/2.90/50 1/2.90/1 2/2.76/6 3/2.76/17 4/2.86/49",
    "433444": "1/2.50/1 2/2.36/6 3/2.22/14 4/2.22/32 5/2.22/72 6/2.22/160",
    "45422555": "1/2.50/1 2/2.60/6 3/2.60/16 1/2.60/1 1/2.60/1 2/2.70/6 3/2.80/17 4/2.90/50",
    "5443335": "1/2.60/1 2/2.60/6 3/2.60/16 4/2.46/40 5/2.32/93 6/2.18/203 7/2.28/463",
}


def written(schedule: Schedule) -> str:
    whole, hundredths = divmod(schedule.e_factor, 100)
    return f"{schedule.repetition}/{whole}.{hundredths:02}/{schedule.interval}"


@pytest.mark.parametrize("qualities", WORKED)
def test_worked_sequences(qualities: str) -> None:
    schedule, rows = NEVER_ASKED, []
    for digit in qualities:
        schedule = answered(schedule, int(digit))
        rows.append(written(schedule))
    assert " ".join(rows) == WORKED[qualities]


# Source: Wozniak (1990), 3.2: the E-factor's change by quality, here in hundredths.
@pytest.mark.parametrize(
    ("quality", "change"), [(5, 10), (4, 0), (3, -14), (2, -32), (1, -54), (0, -80)]
)
def test_e_factor_steps(quality: int, change: int) -> None:
    assert next_e_factor(300, quality) == 300 + change


@pytest.mark.parametrize("e_factor", [130, 132, 142])
def test_e_factor_floor(e_factor: int) -> None:
    assert next_e_factor(e_factor, 3) == LEAST_E_FACTOR == 130


def test_first_e_factor() -> None:
    assert Schedule(repetition=0, interval=0, e_factor=250) == NEVER_ASKED
    assert FIRST_E_FACTOR == 250


@pytest.mark.parametrize("quality", [-1, 6])
def test_qualities_off_the_scale_are_refused(quality: int) -> None:
    with pytest.raises(ValueError, match="scale"):
        answered(NEVER_ASKED, quality)


Exact = tuple[int, int, Fraction]


def published(exact: Exact, quality: int) -> Exact:
    """The published rule in exact fractions, with its E-factor formula multiplied out."""
    repetition, interval, e_factor = exact
    if quality < 3:
        return 1, 1, e_factor
    q = Fraction(quality)
    changed = e_factor - Fraction(8, 10) + Fraction(28, 100) * q - Fraction(2, 100) * q * q
    e_factor = max(Fraction(13, 10), changed)
    if repetition < 2:
        return repetition + 1, (1, 6)[repetition], e_factor
    return repetition + 1, ceil(interval * e_factor), e_factor


def test_every_sequence_of_six_answers_agrees_with_exact_fractions() -> None:
    # Source: Wozniak (1990), 3.2, in exact fractions; all 46,656 sequences and what begins them.
    waiting: list[tuple[int, Schedule, Exact]] = [(0, NEVER_ASKED, (0, 0, Fraction(5, 2)))]
    ends = 0
    while waiting:
        length, ours, exact = waiting.pop()
        assert (ours.repetition, ours.interval, Fraction(ours.e_factor, 100)) == exact
        if length == 6:
            ends += 1
            continue
        for quality in QUALITIES:
            waiting.append((length + 1, answered(ours, quality), published(exact, quality)))
    assert ends == 6**6


@given(st.lists(st.sampled_from(QUALITIES), max_size=40))
def test_long_sequences_agree_with_exact_fractions(qualities: list[int]) -> None:
    schedule, exact = NEVER_ASKED, (0, 0, Fraction(5, 2))
    for quality in qualities:
        schedule, exact = answered(schedule, quality), published(exact, quality)
    assert (schedule.repetition, schedule.interval, Fraction(schedule.e_factor, 100)) == exact
    assert schedule.e_factor % 2 == 0
    assert schedule.e_factor >= LEAST_E_FACTOR


# Worked by hand: I + (e - 100) t div 100.
@pytest.mark.parametrize(
    ("e_factor", "interval", "days", "expected"),
    [
        (260, 6, 1, 7),
        (260, 6, 5, 14),
        (250, 15, 4, 21),
        (130, 26, 3, 26),
        (280, 17, 0, 17),
    ],
)
def test_part_credit(e_factor: int, interval: int, days: int, expected: int) -> None:
    before = Schedule(3, interval, e_factor)
    assert early_right(before, days) == Schedule(3, expected, e_factor)


def test_on_time_part_credit_would_be_the_full_step() -> None:
    # Worked by hand: 260, 6 on time: 6 x 2.6 = 15.6, rounded up by SM-2, down by part credit.
    assert answered(Schedule(2, 6, 260), 4).interval == 16
    assert early_right(Schedule(2, 6, 260), 6).interval == 15


def test_an_early_miss_is_a_miss() -> None:
    # Worked by hand: a miss at 250, 15, 4.
    assert answered(Schedule(3, 15, 250), 2) == Schedule(1, 1, 250)


@given(
    st.integers(65, 200).map(lambda half: 2 * half),
    st.integers(1, 5000),
    st.data(),
)
def test_part_credit_never_beats_an_answer_on_time(
    e_factor: int, interval: int, data: st.DataObject
) -> None:
    days = data.draw(st.integers(0, interval))
    before = Schedule(3, interval, e_factor)
    earned = early_right(before, days)
    assert interval <= earned.interval <= answered(before, 4).interval
    assert (earned.repetition, earned.e_factor) == (3, e_factor)
