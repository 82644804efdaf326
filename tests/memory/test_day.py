"""The day of an instant. Source: IANA time zone database, through `zoneinfo`; days by hand."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.memory.card_state import Answer, replay
from trainer.memory.day import local_day

OFFSETS = [0, 60, 330, 765, -210, -480, 840]


@pytest.mark.parametrize("minutes", OFFSETS)
@pytest.mark.parametrize(
    ("clock", "expected"),
    [
        ("2026-12-03T03:59:59", date(2026, 12, 2)),
        ("2026-12-03T04:00:00", date(2026, 12, 3)),
        ("2026-12-03T23:59:59", date(2026, 12, 3)),
        ("2026-12-04T00:00:00", date(2026, 12, 3)),
        ("2027-01-01T03:59:00", date(2026, 12, 31)),
        ("2028-03-01T03:59:59", date(2028, 2, 29)),
    ],
)
def test_the_day_begins_at_four_in_every_zone(minutes: int, clock: str, expected: date) -> None:
    zone = timezone(timedelta(minutes=minutes))
    assert local_day(datetime.fromisoformat(clock).replace(tzinfo=zone)) == expected


# A day is not 24 hours where the clocks change: the instants lie 24 hours apart, or as said.
@pytest.mark.parametrize(
    ("zone", "clock", "offset_hours", "later", "then", "first", "second"),
    [
        ("America/New_York", "2027-11-06T04:30", -4, 24 * 60, "11-07T03:30", "11-06", "11-06"),
        ("Europe/London", "2027-10-30T04:59", 1, 24 * 60, "10-31T03:59", "10-30", "10-30"),
        ("America/Santiago", "2027-04-03T04:10", -3, 24 * 60, "04-04T03:10", "04-03", "04-03"),
        ("Australia/Adelaide", "2027-04-03T04:20", 10.5, 24 * 60, "04-04T03:20", "04-03", "04-03"),
        ("Africa/Cairo", "2027-04-29T23:59", 2, 1, "04-30T01:00", "04-29", "04-29"),
    ],
)
def test_days_where_the_clocks_change(
    zone: str,
    clock: str,
    offset_hours: float,
    later: int,
    then: str,
    first: str,
    second: str,
) -> None:
    start = datetime.fromisoformat(clock).replace(tzinfo=ZoneInfo(zone))
    assert start.utcoffset() == timedelta(hours=offset_hours)
    end = (start.astimezone(UTC) + timedelta(minutes=later)).astimezone(ZoneInfo(zone))
    assert f"{end:%m-%dT%H:%M}" == then
    assert (local_day(start), local_day(end)) == (
        date.fromisoformat(f"2027-{first}"),
        date.fromisoformat(f"2027-{second}"),
    )


@pytest.mark.parametrize(
    ("starts", "expected"),
    [
        (time(0, 0), date(2026, 12, 3)),
        (time(3, 30), date(2026, 12, 3)),
        (time(3, 31), date(2026, 12, 2)),
    ],
)
def test_the_hour_is_a_setting(starts: time, expected: date) -> None:
    assert local_day(datetime(2026, 12, 3, 3, 30, tzinfo=UTC), starts) == expected


def test_flying_east_the_next_day_may_begin_minutes_later() -> None:
    instant = datetime(2026, 12, 3, 18, 30, tzinfo=UTC)
    london, auckland = ZoneInfo("Europe/London"), ZoneInfo("Pacific/Auckland")
    assert local_day(instant.astimezone(london)) == date(2026, 12, 3)
    assert local_day(instant.astimezone(auckland)) == date(2026, 12, 4)


# Worked by hand from the calendar: days are added to dates, never hours to instants.
@pytest.mark.parametrize(
    ("answered", "interval", "due"),
    [
        (date(2028, 2, 28), 1, date(2028, 2, 29)),
        (date(2027, 2, 28), 1, date(2027, 3, 1)),
        (date(2028, 2, 23), 6, date(2028, 2, 29)),
        (date(2028, 2, 29), 6, date(2028, 3, 6)),
    ],
)
def test_due_days_over_leap_days(answered: date, interval: int, due: date) -> None:
    days = [answered] if interval == 1 else [answered - timedelta(days=1), answered]
    state = replay(Answer(day, 4, repeat=False, part_credit=False) for day in days)
    assert (state.schedule.interval, state.due) == (interval, due)


@given(
    st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1)),
    st.integers(-14 * 60, 14 * 60),
)
def test_the_day_is_the_wall_clock_of_four_hours_before(clock: datetime, minutes: int) -> None:
    instant = clock.replace(tzinfo=timezone(timedelta(minutes=minutes)))
    expected = clock.date() if clock.time() >= time(4) else clock.date() - timedelta(days=1)
    assert local_day(instant) == expected
