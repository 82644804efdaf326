"""`trainer deck`: adding decks and looking at those that are here."""

from __future__ import annotations

import click

from trainer.cli.deck_add import add
from trainer.cli.deck_check import check
from trainer.cli.deck_handout import handout
from trainer.cli.deck_new import new
from trainer.cli.deck_pack import pack
from trainer.cli.deck_prefer import prefer
from trainer.cli.deck_show import show
from trainer.cli.deck_withdraw import withdraw
from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.cli.words import NO_DECK


@click.group()
@home_option
def deck() -> None:
    """Add decks, and look at those that are here.

    \b
    Example:
      trainer deck add decks/vienna
    """


@deck.command("list")
@json_option
@home_option
def list_decks(as_json: bool) -> None:
    """List the decks in the order in which they were added.

    \b
    Example:
      trainer deck list
    """
    from trainer.service.decks.report import list_decks

    with opened_study() as study:
        decks = list_decks(study)
    if as_json:
        fields = ("id", "title", "edition", "author", "language", "licence", "about")
        write_json({"decks": [{name: getattr(entry, name) for name in fields} for entry in decks]})
    elif decks:
        say(*(f"{entry.id}: {entry.title}, edition {entry.edition}." for entry in decks))
    else:
        say(NO_DECK)


deck.add_command(add)
deck.add_command(check)
deck.add_command(handout)
deck.add_command(show)
deck.add_command(new)
deck.add_command(pack)
deck.add_command(prefer)
deck.add_command(withdraw)
