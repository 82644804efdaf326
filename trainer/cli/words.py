"""Small phrases that several commands say: days, counts, and what to do without a deck."""

from __future__ import annotations

from datetime import date

from trainer.service.words import day_name

NO_DECK = (
    "There is no deck here yet. Add one with `trainer deck add PATH`, "
    "or look around with `trainer demo`."
)


def next_day(due: date, today: date) -> str:
    """`tomorrow, on Friday 4 December`, `in 6 days, on Wednesday 9 December`."""
    days = (due - today).days
    if days <= 0:
        return "today"
    when = "tomorrow" if days == 1 else f"in {days} days"
    year = f" {due.year}" if due.year != today.year else ""
    return f"{when}, on {day_name(due)}{year}"
