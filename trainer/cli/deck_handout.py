"""`trainer deck handout`: what a coach prints for the class."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from trainer.cli.deck_path import side_option, told
from trainer.cli.options import home_option, opened_study
from trainer.cli.output import say
from trainer.service.words import counted

STDOUT = "-"


@click.command()
@click.argument("deck", metavar="ID_OR_PATH")
@click.option(
    "--to", metavar="FILE", default=STDOUT, help="Where to write it; else to standard output."
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["html", "text"]),
    default="html",
    help="A page for the printer (html, the default), or plain text.",
)
@click.option("--chapter", metavar="ID", help="Print this chapter only.")
@click.option("--yes", is_flag=True, help="Replace whatever file has that name.")
@side_option
@home_option
def handout(
    deck: str, to: str, form: str, chapter: str | None, yes: bool, side: str | None
) -> None:
    """Write a deck out for the class: lines with their reasons, and diagrams.

    The page prints in black and white on A4 from any browser. Exercises come without
    their answers, which stand at the end.

    \b
    Example:
      trainer deck handout vienna --to vienna.html
    """
    from trainer.service.decks.handout import print_deck, write_handout
    from trainer.service.decks.named import DeckUnreadable

    if to == STDOUT and form == "html" and _is_terminal():
        raise click.UsageError(
            "The page is for a browser: add --to FILE, or --format text to read it here."
        )
    try:
        with opened_study() as study:
            printed = print_deck(study, deck, side=side, chapter=chapter, as_text=form == "text")
    except DeckUnreadable as refused:
        raise told(refused) from refused
    if to != STDOUT:
        write_handout(printed, Path(to), over_others=yes)
        say(
            f"{to}: {printed.title}, edition {printed.edition}: "
            f"{counted(printed.chapters, 'chapter')}, {counted(printed.diagrams, 'diagram')}."
        )
    elif form == "html":
        # Whatever the encoding of standard output: the page says that it is UTF-8.
        say(printed.text.encode("ascii", "xmlcharrefreplace").decode().rstrip("\n"))
    else:
        say(printed.text.rstrip("\n"))


def _is_terminal() -> bool:
    return sys.stdout is not None and sys.stdout.isatty()
