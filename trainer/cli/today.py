"""`trainer today`: what is due, as sentences or as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.cli.words import NO_DECK
from trainer.service.words import counted, day_name

if TYPE_CHECKING:
    from trainer.service.today import DayAhead, Today

LONGEST_BAR = 40
"""Signs in the longest bar of the chart."""


@click.command()
@home_option
@json_option
def today(as_json: bool) -> None:
    """Say what is due today and in the next two weeks.

    \b
    Example:
      trainer today
    """
    from trainer.service.today import report_today

    with opened_study() as study:
        report = report_today(study)
    if as_json:
        write_json(asdict(report))
    else:
        say(*_sentences(report))


def _sentences(report: Today) -> Iterator[str]:
    yield f"{day_name(report.date)} {report.date.year}."
    if not report.decks:
        yield NO_DECK
        return
    yield _to_practise(report)
    for deck in report.decks:
        yield f"{deck.sentence}."
        if later := report.to_come(deck.id):
            yield f"  To come: {later}."
    yield ""
    if busy := _up_to_the_last_due(report.days_ahead):
        yield f"The next {counted(len(busy), 'day')}:" if len(busy) > 1 else "Today:"
        yield from _chart(busy)
        yield ""
    yield _next_step(report)


def _to_practise(report: Today) -> str:
    if not report.to_practise:
        return "Nothing is left to practise today."
    parts = (
        (report.due, "due"),
        (report.fresh_today, "fresh"),
        (report.repeats, "to be asked again"),
    )
    told = ", ".join(f"{count} {what}" for count, what in parts if count)
    minutes = max(1, round(report.seconds / 60))
    return (
        f"{counted(report.to_practise, 'position')} to practise, "
        f"about {counted(minutes, 'minute')}: {told}."
    )


def _up_to_the_last_due(days: tuple[DayAhead, ...]) -> tuple[DayAhead, ...]:
    """Without the empty days at the end."""
    last = max((place for place, day in enumerate(days, 1) if day.due), default=0)
    return days[:last]


def _chart(days: tuple[DayAhead, ...]) -> Iterator[str]:
    most = max(day.due for day in days)
    for day in days:
        bar = "#" * -(-day.due * LONGEST_BAR // max(most, LONGEST_BAR))
        yield f"  {day.date:%a} {day.date.day:>2} {day.date:%b} {day.due:>4} {bar}".rstrip()


def _next_step(report: Today) -> str:
    if report.to_practise:
        return "Start with `trainer practice`."
    ahead = next((day for day in report.days_ahead if day.due), None)
    if ahead is None:
        fresh = any(deck.fresh for deck in report.decks)
        more = " `trainer practice --fresh 5` brings fresh ones." if fresh else ""
        return f"Nothing falls due in the next {len(report.days_ahead)} days.{more}"
    return f"Come back on {day_name(ahead.date)}: {counted(ahead.due, 'position')} will be due."
