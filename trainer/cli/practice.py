"""`trainer practice`: one sitting, on the screen, in words, or as JSON for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from trainer.cli.options import (
    chosen_home,
    home_option,
    opened_study,
    sits_at_the_keyboard,
)
from trainer.cli.output import complain, say
from trainer.cli.screens import on_a_terminal, open_screens
from trainer.cli.words import NO_DECK
from trainer.service.words import counted, day_name

if TYPE_CHECKING:
    from trainer.service.preparation import Wish
    from trainer.service.study import Study


@click.command()
@click.argument("deck", required=False)
@click.option("--chapter", metavar="ID", help="Ask only this chapter of DECK.")
@click.option(
    "--branch",
    metavar="LINE",
    help="Ask, due or not, what stands at and after this line, such as '1. e4 e5 2. Nc3'.",
)
@click.option(
    "--fresh",
    type=click.IntRange(min=0),
    metavar="N",
    help="Bring at most N fresh positions, instead of what is left of the day's.",
)
@click.option("--plain", is_flag=True, help="Practise in words: no screen, moves are typed.")
@click.option("--json", "as_json", is_flag=True, help="Hold the sitting as JSON Lines.")
@home_option
def practice(
    deck: str | None,
    chapter: str | None,
    branch: str | None,
    fresh: int | None,
    plain: bool,
    as_json: bool,
) -> None:
    """Practise what is due: one sitting.

    Without DECK all decks are asked, in the order in which they were added. On a
    terminal the Sitting screen opens; with --plain, or without a terminal, the same
    sitting is held in words. With --json it is JSON Lines, for programs.

    \b
    Example:
      trainer practice vienna --branch "1. e4 e5 2. Nc3 Nf6"
    """
    from trainer.service.preparation import Wish

    if plain and as_json:
        raise click.UsageError("--plain and --json are two faces of a sitting; name one.")
    if branch is not None and fresh is not None:
        raise click.UsageError("--branch asks its whole branch; it does not go with --fresh.")
    wish = Wish(deck, chapter, branch, fresh)
    if as_json:
        _for_programs(wish)
    elif plain or not on_a_terminal():
        with opened_study() as study:
            practise_in_words(study, wish)
    else:
        open_screens(chosen_home(), wish)


def _for_programs(wish: Wish) -> None:
    from trainer.cli import sitting_json
    from trainer.cli.lines_in import standard_input
    from trainer.lines.letters import ENGLISH
    from trainer.service.preparation import prepare_practice

    with opened_study() as study:
        practice = prepare_practice(study, wish, ENGLISH)
        if not practice.sitting.left:
            complain(" ".join(_nothing_to_practise(study)))
        sitting_json.sit(practice, standard_input())


def practise_in_words(study: Study, wish: Wish) -> None:
    """One sitting in the plain face, or why there is nothing to practise."""
    from trainer.cli.lines_in import typed_input
    from trainer.cli.sitting_plain import PlainSitting
    from trainer.service.preparation import prepare_practice

    practice = prepare_practice(study, wish)
    if practice.sitting.left:
        PlainSitting(study, practice, typed_input(), sits_at_the_keyboard()).run()
    else:
        say(*_nothing_to_practise(study))


def _nothing_to_practise(study: Study) -> Iterator[str]:
    from trainer.service.today import report_today

    report = report_today(study)
    if not report.decks:
        yield NO_DECK
        return
    yield "There is nothing to practise here now."
    if report.to_practise:
        yield (
            f"In all decks {counted(report.to_practise, 'position')} can be practised today: "
            "`trainer practice`."
        )
    elif ahead := next((day for day in report.days_ahead if day.due), None):
        yield f"{counted(ahead.due, 'position')} will be due on {day_name(ahead.date)}."
    yield from (
        f"{deck.title}: {then}." for deck in report.decks if (then := report.to_come(deck.id))
    )
    if any(deck.fresh for deck in report.decks):
        yield "`trainer practice --fresh 5` brings fresh positions."
    yield "`trainer practice --branch LINE` asks a branch at any time."
