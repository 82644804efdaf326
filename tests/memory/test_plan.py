"""Which cards a sitting asks."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.memory.card_state import FRESH, Answer, CardState, replay
from trainer.memory.plan import GAP, Plan, choose_fresh, plan_day, waited_long_enough

TODAY = date(2026, 12, 3)


def answered(*pairs: tuple[int, int]) -> CardState:
    """A card answered so many days ago, with what quality; a second time on a day is a repeat."""
    days = [days_ago for days_ago, _ in pairs]
    return replay(
        Answer(
            TODAY - timedelta(days=days_ago),
            quality,
            repeat=days_ago in days[:number],
            part_credit=True,
        )
        for number, (days_ago, quality) in enumerate(pairs)
    )


CARDS = [
    ("fresh a", FRESH),
    ("due today", answered((1, 4))),
    ("missed today", answered((0, 2))),
    ("not due", answered((2, 4), (1, 4))),
    ("fresh b", FRESH),
    ("missed and repeated today", answered((0, 2), (0, 4))),
    ("overdue", answered((30, 4))),
    ("hint today", answered((1, 4), (0, 3))),
    ("right today", answered((0, 5))),
    ("missed yesterday", answered((1, 2))),
    ("fresh c", FRESH),
    ("answered tomorrow, west of it", answered((-1, 2))),
]


@pytest.mark.parametrize(
    ("fresh_limit", "cards"),
    [
        (0, ("due today", "overdue", "missed yesterday")),
        (1, ("fresh a", "due today", "overdue", "missed yesterday")),
        (2, ("fresh a", "due today", "fresh b", "overdue", "missed yesterday")),
        (9, ("fresh a", "due today", "fresh b", "overdue", "missed yesterday", "fresh c")),
    ],
)
def test_what_is_due_and_some_fresh_in_travel_order(
    fresh_limit: int, cards: tuple[str, ...]
) -> None:
    fresh = [card for card, state in CARDS if state.fresh]
    plan = plan_day(CARDS, TODAY, choose_fresh([fresh], fresh_limit))
    assert plan == Plan(repeats=("missed today", "hint today"), cards=cards)


def test_nothing_to_do() -> None:
    assert plan_day([], TODAY, ()) == Plan((), ())
    assert plan_day([("right today", answered((0, 5)))], TODAY, ()) == Plan((), ())


@pytest.mark.parametrize(
    ("shown_after", "prompts", "expected"),
    [(2, 11, False), (2, 12, True), (2, 13, True), (9, 14, False), (0, 10, True)],
)
def test_the_gap_of_ten(shown_after: int, prompts: int, expected: bool) -> None:
    # Worked by hand: shown at the 2nd prompt, ten others are the 3rd to the 12th.
    assert GAP == 10
    assert waited_long_enough(shown_after, prompts) is expected


@pytest.mark.parametrize(
    ("sizes", "limit", "seats"),
    [
        # Worked by hand: quotas 8.89, 0.63 and 0.48; the two last seats go to the two largest
        # fractions.
        ((224, 16, 12), 10, (9, 1, 0)),
        ((224, 16, 12), 3, (3, 0, 0)),
        ((100, 16, 12), 10, (8, 1, 1)),
        ((5, 5), 3, (2, 1)),
        ((0, 4), 3, (0, 3)),
        ((2, 1), 10, (2, 1)),
        ((2, 1), 0, (0, 0)),
        ((), 5, ()),
    ],
)
def test_each_kind_gets_its_part_of_the_fresh_cards(
    sizes: tuple[int, ...], limit: int, seats: tuple[int, ...]
) -> None:
    groups = [[f"{kind} {number}" for number in range(size)] for kind, size in enumerate(sizes)]
    wanted = {card for group, seat in zip(groups, seats, strict=True) for card in group[:seat]}
    assert choose_fresh(groups, limit) == wanted


@given(st.lists(st.integers(0, 300), max_size=5), st.integers(0, 400))
def test_the_limit_is_kept_and_no_kind_is_a_whole_card_away_from_its_quota(
    sizes: list[int], limit: int
) -> None:
    groups = [[f"{kind} {number}" for number in range(size)] for kind, size in enumerate(sizes)]
    chosen = choose_fresh(groups, limit)
    assert len(chosen) == min(limit, sum(sizes))
    for group in groups:
        quota = min(limit / max(1, sum(sizes)), 1) * len(group)
        assert abs(sum(card in chosen for card in group) - quota) < 1
