"""What a log of answers comes to: what counts, what is due, what owes a repeat."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.memory.card_state import FRESH, Answer, CardState, advance, replay
from trainer.memory.sm2 import NEVER_ASKED, Schedule, answered

MONDAY = date(2026, 11, 30)


def on(day: int, quality: int, *, repeat: bool = False, part_credit: bool = True) -> Answer:
    """An answer so many days after the Monday."""
    return Answer(MONDAY + timedelta(days=day), quality, repeat, part_credit)


def day(number: int) -> date:
    return MONDAY + timedelta(days=number)


def test_a_fresh_card() -> None:
    assert FRESH.fresh
    assert not FRESH.known
    assert not FRESH.held_once
    assert not FRESH.is_due(MONDAY)
    assert not FRESH.owes_repeat(MONDAY)
    assert FRESH.schedule == NEVER_ASKED


def test_answers_on_their_due_days_follow_sm2() -> None:
    # Worked by hand: 5555 gives the intervals 1, 6, 17, 50.
    state = replay([on(0, 5), on(1, 5), on(7, 5), on(24, 5)])
    assert state == CardState(
        schedule=Schedule(4, 50, 290),
        due=day(74),
        first_day=day(0),
        last_day=day(24),
        last_quality=5,
        counted_quality=5,
        best_quality=5,
    )


def test_a_late_answer_counts_from_its_own_day() -> None:
    # Source: Wozniak (1990), 3.2: the interval grows from itself, however late the answer.
    state = replay([on(0, 4), on(1, 4), on(30, 4)])
    assert state.schedule == Schedule(3, 15, 250)
    assert state.due == day(45)


# Worked by hand from I + (e - 100) t div 100: card of e 250, I 15, answered on day 7, due on 22.
@pytest.mark.parametrize(
    ("answer", "schedule", "due"),
    [
        (on(11, 5), Schedule(3, 21, 250), 32),
        (on(11, 3), Schedule(3, 21, 250), 32),
        (on(11, 5, part_credit=False), Schedule(3, 15, 250), 22),
        (on(11, 2), Schedule(1, 1, 250), 12),
        (on(11, 2, part_credit=False), Schedule(1, 1, 250), 12),
        (on(21, 4), Schedule(3, 36, 250), 57),
        (on(22, 4), Schedule(4, 38, 250), 60),
        (on(22, 3), Schedule(4, 36, 236), 58),
        (on(7, 4), Schedule(3, 15, 250), 22),
    ],
    ids=[
        "early right",
        "early right with a hint is right",
        "early right, part credit off",
        "early miss",
        "early miss, part credit off",
        "a day early",
        "on the due day",
        "on the due day with a hint",
        "twice on one day",
    ],
)
def test_early_answers(answer: Answer, schedule: Schedule, due: int) -> None:
    state = replay([on(0, 4), on(1, 4), on(7, 4), answer])
    assert (state.schedule, state.due) == (schedule, day(due))
    assert state.last_day == answer.day


def test_early_answers_in_a_row_earn_the_days_between_them() -> None:
    # Worked by hand: I 15 on day 7; day 11: 15 + 1.5 x 4 = 21; day 15: 21 + 1.5 x 4 = 27.
    state = replay([on(0, 4), on(1, 4), on(7, 4), on(11, 4), on(15, 4)])
    assert state.schedule == Schedule(3, 27, 250)
    assert state.due == day(42)


def test_an_early_right_answer_without_credit_still_moves_the_last_day() -> None:
    # Days are counted from the last answer of any kind: 3 of them, 15 + 1.5 x 3 = 19.5, down.
    state = replay([on(0, 4), on(1, 4), on(7, 4), on(11, 4, part_credit=False), on(14, 4)])
    assert state.schedule.interval == 19
    assert state.due == day(33)


@pytest.mark.parametrize("quality", range(6))
def test_repeats_change_nothing_in_the_schedule(quality: int) -> None:
    missed = replay([on(0, 4), on(1, 2)])
    repeated = advance(missed, on(1, quality, repeat=True))
    assert (repeated.schedule, repeated.due) == (missed.schedule, missed.due)
    assert repeated.counted_quality == 2
    assert repeated.last_quality == quality


def test_a_repeat_whose_first_answer_was_taken_back_counts() -> None:
    state = replay([on(0, 4, repeat=True)])
    assert state.schedule == Schedule(1, 1, 250)
    assert state.known


@pytest.mark.parametrize(
    ("qualities", "owes"),
    [
        ("5", False),
        ("4", False),
        ("3", True),
        ("2", True),
        ("0", True),
        ("23", True),
        ("233", True),
        ("24", False),
        ("34", False),
    ],
)
def test_below_four_a_card_comes_again_until_it_scores_four(qualities: str, owes: bool) -> None:
    # Source: Wozniak (1990), 3.2, last step.
    first, *repeats = (int(digit) for digit in qualities)
    state = replay([on(0, first), *(on(0, quality, repeat=True) for quality in repeats)])
    assert state.owes_repeat(day(0)) is owes


def test_repeats_end_with_the_day() -> None:
    missed = replay([on(0, 2)])
    assert missed.owes_repeat(day(0))
    assert not missed.owes_repeat(day(1))
    assert missed.is_due(day(1))


@pytest.mark.parametrize(
    ("answers", "known", "held_once"),
    [
        ([on(0, 3)], True, True),
        ([on(0, 2)], False, False),
        ([on(0, 2), on(0, 4, repeat=True)], False, True),
        ([on(0, 5), on(1, 1)], False, True),
        ([on(0, 2), on(0, 2, repeat=True), on(1, 4)], True, True),
        ([on(0, 0)], False, False),
    ],
    ids=["hint", "miss", "miss then right", "right then miss", "right the day after", "shown"],
)
def test_known_and_held_once(answers: list[Answer], known: bool, held_once: bool) -> None:
    state = replay(answers)
    assert (state.known, state.held_once) == (known, held_once)
    assert not state.fresh


def test_due_from_its_due_day_on() -> None:
    state = replay([on(0, 4), on(1, 4)])
    assert [state.is_due(day(number)) for number in (1, 6, 7, 8)] == [False, False, True, True]


# Flying west, the local day may come before that of the last answer.
def test_west_of_the_last_answer_nothing_is_due_again() -> None:
    state = replay([on(0, 2)])
    assert not state.is_due(day(-1))
    assert not state.owes_repeat(day(-1))


def test_west_of_the_last_answer_no_day_has_passed() -> None:
    state = replay([on(0, 4), on(1, 4), on(0, 5)])
    assert state.schedule == Schedule(2, 6, 250)
    assert state.due == day(6)


def test_west_of_the_last_answer_a_miss_is_a_miss() -> None:
    state = replay([on(0, 4), on(1, 4), on(0, 1)])
    assert state.schedule == Schedule(1, 1, 250)
    assert state.due == day(1)


ANSWERS = st.lists(
    st.builds(
        on,
        st.integers(-2, 60),
        st.integers(0, 5),
        repeat=st.booleans(),
        part_credit=st.booleans(),
    ),
    max_size=25,
)


@given(ANSWERS, st.integers(0, 25))
def test_replay_can_be_cut_anywhere(answers: list[Answer], cut: int) -> None:
    state = replay(answers[:cut])
    for answer in answers[cut:]:
        state = advance(state, answer)
    assert state == replay(answers)


@given(ANSWERS)
def test_what_holds_after_any_answers(answers: list[Answer]) -> None:
    state = FRESH
    for answer in answers:
        before, state = state, advance(state, answer)
        assert state.last_day == answer.day
        assert state.last_quality == answer.quality
        assert state.first_day == answers[0].day
        assert state.schedule.interval >= 1
        assert state.due is not None
        assert not state.is_due(answer.day) or state.due == before.due
        if answer.repeat and not before.fresh:
            assert (state.schedule, state.due) == (before.schedule, before.due)
        elif answer.quality < 3:
            assert state.due == answer.day + timedelta(days=1)
    assert state.held_once is any(answer.quality >= 3 for answer in answers)


@given(st.lists(st.integers(0, 5), max_size=12))
def test_on_due_days_the_schedule_is_sm2_alone(qualities: list[int]) -> None:
    state, schedule, today = FRESH, NEVER_ASKED, MONDAY
    for quality in qualities:
        state = advance(state, Answer(today, quality, repeat=False, part_credit=True))
        schedule = answered(schedule, quality)
        assert state.due is not None
        today = state.due
    assert state.schedule == schedule


def test_an_early_right_answer_without_credit_makes_nothing_known() -> None:
    missed = replay([on(0, 2)])
    assert not advance(missed, on(0, 5, part_credit=False)).known
    assert advance(missed, on(0, 5)).known


def test_the_calendar_ends_before_the_intervals_do() -> None:
    state, today = replay([on(0, 5)]), day(0)
    for _ in range(30):
        today = state.due or today
        state = advance(state, Answer(today, 5, repeat=False, part_credit=True))
    assert state.due == date.max
    assert state.schedule.interval > 3_650_000
