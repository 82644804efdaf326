"""Phrases of days, counts and times."""

from datetime import date

import pytest

from trainer.service import words

TODAY = date(2026, 12, 3)


@pytest.mark.parametrize(
    ("due", "said"),
    [
        (date(2026, 12, 2), "today"),
        (date(2026, 12, 3), "today"),
        (date(2026, 12, 4), "tomorrow, Fri 4 Dec"),
        (date(2026, 12, 18), "in 15 days, Fri 18 Dec"),
        (date(2027, 1, 20), "in 48 days, Wed 20 Jan 2027"),
    ],
)
def test_next_time(due: date, said: str) -> None:
    """Days counted by hand."""
    assert words.next_time(due, TODAY) == said


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0, "about a minute"),
        (89, "about a minute"),
        (91, "about 2 minutes"),
        (660, "about 11 minutes"),
    ],
)
def test_about_minutes(seconds: float, said: str) -> None:
    assert words.about_minutes(seconds) == said


@pytest.mark.parametrize(
    ("seconds", "said"), [(0, "0:00"), (7.4, "0:07"), (648, "10:48"), (3723, "1:02:03")]
)
def test_stopwatch(seconds: float, said: str) -> None:
    assert words.stopwatch(seconds) == said


def test_counts() -> None:
    assert [words.counted(count, "card") for count in (0, 1, 2)] == ["0 cards", "1 card", "2 cards"]
    assert [words.times(count) for count in (1, 2, 3)] == ["once", "twice", "3 times"]
    assert words.day_name(TODAY) == "Thursday 3 December"
