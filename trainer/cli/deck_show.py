"""`trainer deck show`: what a deck holds, as an outline that fits 80 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from trainer.cli.deck_path import side_option, told
from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.service.decks.outline import Row
    from trainer.service.decks.report import ChapterReport, DeckReport, ShownDeck

WIDTH = 79
"""One column less than the terminal: some break the line in the last one."""

DEPTH = 3
"""So many branches show what a chapter is about and still fit a screen or two."""

_INDENT = "  "


@click.command()
@click.argument("deck", metavar="ID_OR_PATH")
@click.option(
    "--depth",
    type=click.IntRange(min=0),
    default=DEPTH,
    show_default=True,
    metavar="N",
    help="Follow the lines for so many branches; with 0 name the chapters only.",
)
@side_option
@json_option
@home_option
def show(deck: str, depth: int, side: str | None, as_json: bool) -> None:
    """Show what a deck holds: its chapters, and their lines as a tree.

    A deck at a path need not have been added.

    \b
    Example:
      trainer deck show vienna --depth 2
    """
    from trainer.service.decks.named import DeckUnreadable
    from trainer.service.decks.report import show_deck

    try:
        with opened_study() as study:
            shown = show_deck(study, deck, side)
    except DeckUnreadable as refused:
        raise told(refused) from refused
    if as_json:
        write_json(asdict(shown.report))
    else:
        say(*_described(shown, depth))


def _described(shown: ShownDeck, depth: int) -> Iterator[str]:
    from trainer.service.decks.outline import outline

    report = shown.report
    yield from _facts(report)
    yield ""
    yield "Chapters:"
    for chapter in report.chapters:
        yield from _wrapped(_chapter(chapter), _INDENT)
        for row in outline(shown, chapter, depth):
            yield from _row(row)


def _facts(report: DeckReport) -> Iterator[str]:
    yield from _wrapped(f"{report.title} ({report.id}), edition {report.edition}.")
    if report.author or report.licence:
        yield from _wrapped(", ".join(part for part in (report.author, report.licence) if part))
    for paragraph in report.about.split("\n"):
        yield from _wrapped(paragraph, hanging="")
    yield (
        f"{counted(report.lines, 'line')}, {counted(report.positions, 'position')}, "
        f"{counted(report.cards, 'card')}, {counted(report.transpositions, 'transposition')}."
    )


def _chapter(chapter: ChapterReport) -> str:
    kind = ", ".join(part for part in (chapter.kind, chapter.side) if part)
    state = "" if chapter.open else f", not open yet. It {chapter.when}."
    cards = counted(chapter.cards, "card")
    return f"{chapter.id}: {chapter.title} ({kind}), {cards}{state or '.'}"


def _row(row: Row) -> Iterator[str]:
    """A row of the outline; what it holds stands at the right edge, under its end."""
    indent = _INDENT * (2 + row.level)
    lines = _wrapped(row.text, indent, indent + _INDENT * 2, WIDTH)
    if not row.holds:
        yield from lines
        return
    *lines_before, last = lines
    yield from lines_before
    if len(last) + 2 + len(row.holds) > WIDTH:
        yield last
        last = ""
    yield f"{last}{row.holds.rjust(WIDTH - len(last))}"


def _wrapped(
    text: str, indent: str = "", hanging: str | None = None, width: int = WIDTH
) -> list[str]:
    return textwrap.wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=indent + _INDENT if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )
