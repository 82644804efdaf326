"""Which cards a sitting asks."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from trainer.memory.card_state import FRESH, Answer, CardState, replay
from trainer.memory.plan import GAP, Plan, plan_day, waited_long_enough

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
    plan = plan_day(CARDS, TODAY, fresh_limit)
    assert plan == Plan(repeats=("missed today", "hint today"), cards=cards)


def test_nothing_to_do() -> None:
    assert plan_day([], TODAY, 10) == Plan((), ())
    assert plan_day([("right today", answered((0, 5)))], TODAY, 10) == Plan((), ())


@pytest.mark.parametrize(
    ("shown_after", "prompts", "expected"),
    [(2, 11, False), (2, 12, True), (2, 13, True), (9, 14, False), (0, 10, True)],
)
def test_the_gap_of_ten(shown_after: int, prompts: int, expected: bool) -> None:
    # Worked by hand: shown at the 2nd prompt, ten others are the 3rd to the 12th.
    assert GAP == 10
    assert waited_long_enough(shown_after, prompts) is expected
