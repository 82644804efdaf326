"""Small phrases that both faces say alike: counts, days, lengths of time. Pure wording."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date


def counted(count: int, noun: str) -> str:
    """`1 position`, `2 positions`."""
    return f"{count} {noun}{'' if count == 1 else 's'}"


def times(count: int) -> str:
    """`once`, `twice`, `3 times`."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def short_day(day: date) -> str:
    """`Fri 18 Dec`."""
    return f"{day:%a} {day.day} {day:%b}"


def day_name(day: date) -> str:
    """`Friday 18 December`."""
    return f"{day:%A} {day.day} {day:%B}"


def next_time(due: date, today: date) -> str:
    """`tomorrow, Fri 4 Dec`, `in 15 days, Fri 18 Dec`; the year where it is another one."""
    return _when(due, today, short_day, ", ")


def next_time_spoken(due: date, today: date) -> str:
    """`tomorrow, on Friday 4 December`, `in 6 days, on Wednesday 9 December`."""
    return _when(due, today, day_name, ", on ")


def _when(due: date, today: date, named: Callable[[date], str], joint: str) -> str:
    days = (due - today).days
    if days <= 0:
        return "today"
    soon = "tomorrow" if days == 1 else f"in {days} days"
    year = f" {due.year}" if due.year != today.year else ""
    return f"{soon}{joint}{named(due)}{year}"


def about_minutes(seconds: float) -> str:
    """`about 11 minutes`; what takes less than half a minute is still `about a minute`."""
    minutes = round(seconds / 60)
    return f"about {minutes} minutes" if minutes > 1 else "about a minute"


def stopwatch(seconds: float) -> str:
    """`0:07`, `10:48`, `1:02:03`."""
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
