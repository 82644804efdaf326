"""`trainer deck new`: a folder with examples for a coach to write in."""

from __future__ import annotations

import shlex
from pathlib import Path

import click

from trainer.cli.options import home_option, json_option
from trainer.cli.output import say, write_json


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@json_option
@home_option
def new(folder: Path, as_json: bool) -> None:
    """Make a folder for a new deck, with an example of every kind of chapter.

    The examples are a small deck that can be practised; comments in the files say what may
    stand where. The deck's id is made of the folder's name.

    \b
    Example:
      trainer deck new decks/my-sicilian
    """
    from trainer.service.decks.new import new_deck

    made = new_deck(folder)
    if as_json:
        write_json({"folder": str(made.folder), "deck": made.deck, "files": made.files})
    else:
        typed = shlex.quote(str(made.folder))
        say(
            f"Made {made.folder} with the deck {made.deck}: {', '.join(made.files)}.",
            "Read deck.toml first. Then:",
            f"  trainer deck check {typed}",
            f"  trainer deck add {typed}",
        )
