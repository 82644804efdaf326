"""What Today says: the sentence of its band, why there is something to do, the decks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.app.telling.blocks import Block, Gauges, Paragraph, Room
from trainer.service.today import Today
from trainer.service.words import about_minutes, counted, short_day

MORE_FRESH = 5
"""Fresh cards that are offered beyond the day's."""


@dataclass(frozen=True, slots=True)
class Offer:
    """The one step that the day offers."""

    sentence: str
    step: str = ""
    """What the key does; empty where nothing is left to do."""
    fresh: int | None = None
    """How many fresh cards it brings; None for what the day still allows."""


def offer(report: Today) -> Offer:
    """The day's sitting; after it some more fresh cards; after those a rest."""
    if report.to_practise:
        length = about_minutes(report.seconds)
        return Offer(f"{counted(report.to_practise, 'position')}, {length}", "start")
    fresh = min(MORE_FRESH, sum(deck.fresh for deck in report.decks))
    if fresh:
        more = f"learn {fresh} more" if fresh > 1 else "learn one more"
        return Offer("Done for today", more, fresh)
    return Offer(f"Done for today. Next: {_next_due(report)}")


def _next_due(report: Today) -> str:
    ahead = next((day for day in report.days_ahead[1:] if day.due), None)
    if ahead is None:
        return "nothing in these two weeks"
    return f"{counted(ahead.due, 'position')} on {short_day(ahead.date)}"


Reason = tuple[int, str, str]
"""One row of what the day is made of: how many, what, and where."""


def reasons(report: Today) -> tuple[Reason, ...]:
    """What is due, what is fresh, what is owed; always the same three rows."""
    unmet = sum(deck.fresh for deck in report.decks)
    return (
        (report.due, "due", _where_due(report)),
        (report.fresh_today, "fresh", f"of {unmet} not met yet" if unmet else "all were met"),
        (
            report.repeats,
            "once more",
            "not known at first today" if report.repeats else "nothing is owed",
        ),
    )


def _where_due(report: Today) -> str:
    due = [deck for deck in report.decks if deck.due]
    if not due:
        return f"next: {_next_due(report)}" if any(d.due for d in report.days_ahead) else ""
    if len(report.decks) == 1:
        return f"in {due[0].title}"
    return ", ".join(f"{deck.title} {deck.due}" for deck in due)


def decks(report: Today) -> tuple[Block, ...]:
    """A sentence a deck, with a gauge of what holds; then what is closed still, and until when."""
    rows = tuple(
        ("", deck.known / deck.cards if deck.cards else 0.0, deck.sentence) for deck in report.decks
    )
    return (Gauges("Decks", rows, Room.ANY, length=12), *_to_come(report))


def _to_come(report: Today) -> Iterator[Block]:
    """A sentence a deck; it names the deck where there are several."""
    for deck in report.decks:
        if later := report.to_come(deck.id):
            whose = f"{deck.title}, to come" if len(report.decks) > 1 else "To come"
            yield Paragraph(f"{whose}: {later}.", quiet=True)
