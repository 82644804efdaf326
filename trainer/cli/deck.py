"""`trainer deck`: adding decks and looking at those that are here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.cli.words import NO_DECK
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.deck.findings import Finding
    from trainer.service.shelf_report import DeckReport
    from trainer.service.shelving import AddedDeck


@click.group()
@home_option
def deck() -> None:
    """Add decks, and look at those that are here.

    \b
    Example:
      trainer deck add decks/vienna
    """


@deck.command()
@click.argument("path", type=click.Path(path_type=Path))
@click.option(
    "--side",
    type=click.Choice(["white", "black"]),
    help="Whose moves are asked; for a PGN file, and needed for one.",
)
@json_option
@home_option
def add(path: Path, side: str | None, as_json: bool) -> None:
    """Add the deck in a folder, or a PGN file, or a new edition of either.

    What is remembered of a position stays, as long as its move is the same.

    \b
    Example:
      trainer deck add my-openings.pgn --side white
    """
    from trainer.service.shelving import DeckRefused, add_deck

    try:
        with opened_study() as study:
            added = add_deck(study, path, side)
    except DeckRefused as refused:
        if any(finding.code == "missing-side" for finding in refused.findings):
            raise click.UsageError(
                "A PGN file does not say whose moves are asked: add --side white or --side black."
            ) from refused
        if as_json:
            write_json(_outcome(None, refused.findings))
        elif len(refused.findings) > 1:
            say(*_findings(refused.findings))
        raise
    if as_json:
        write_json(_outcome(added, added.findings))
    else:
        say(_what_changed(added), *_findings(added.findings))


@deck.command("list")
@json_option
@home_option
def list_decks(as_json: bool) -> None:
    """List the decks in the order in which they were added.

    \b
    Example:
      trainer deck list
    """
    from trainer.service.shelf_report import list_decks

    with opened_study() as study:
        decks = list_decks(study)
    if as_json:
        fields = ("id", "title", "edition", "author", "language", "licence", "about")
        write_json({"decks": [{name: getattr(entry, name) for name in fields} for entry in decks]})
    elif decks:
        say(*(f"{entry.id}: {entry.title}, edition {entry.edition}." for entry in decks))
    else:
        say(NO_DECK)


@deck.command()
@click.argument("deck_id", metavar="ID")
@json_option
@home_option
def show(deck_id: str, as_json: bool) -> None:
    """Show what a deck holds: lines, positions, cards and chapters.

    \b
    Example:
      trainer deck show vienna
    """
    from trainer.service.shelf_report import report_deck

    with opened_study() as study:
        report = report_deck(study, deck_id)
    if as_json:
        write_json(asdict(report))
    else:
        say(*_description(report))


def _outcome(added: AddedDeck | None, findings: Iterable[Finding]) -> dict[str, Any]:
    return {
        "deck": added and added.deck,
        "edition": added and added.edition,
        "cards": added and asdict(added.cards),
        "findings": [asdict(finding) for finding in findings],
    }


def _what_changed(added: AddedDeck) -> str:
    cards = added.cards
    told = [f"{cards.new} new", f"{cards.kept} kept"]
    if cards.changed:
        told.append(f"{cards.changed} with another move")
    if cards.withdrawn:
        told.append(f"{cards.withdrawn} withdrawn (remembered, should they come back)")
    return f"{added.title} ({added.deck}), edition {added.edition}: cards: {', '.join(told)}."


def _findings(findings: Iterable[Finding]) -> Iterator[str]:
    for finding in findings:
        place = finding.file if finding.line is None else f"{finding.file}:{finding.line}"
        yield f"{place}: {finding.severity.value}: {finding.message} ({finding.code})"


def _description(report: DeckReport) -> Iterator[str]:
    yield f"{report.title} ({report.id}), edition {report.edition}."
    if report.author or report.licence:
        yield ", ".join(part for part in (report.author, report.licence) if part)
    if report.about:
        yield report.about
    yield (
        f"{counted(report.lines, 'line')}, {counted(report.positions, 'position')}, "
        f"{counted(report.cards, 'card')}, {counted(report.transpositions, 'transposition')}."
    )
    yield ""
    yield "Chapters:"
    for chapter in report.chapters:
        state = "" if chapter.open else ", not open yet"
        yield (
            f"  {chapter.id}: {chapter.title} ({chapter.kind}, {chapter.side}), "
            f"{counted(chapter.cards, 'card')}{state}."
        )
