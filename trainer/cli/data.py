"""`trainer data`: where the data are, whether they are sound, and taking them out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from trainer.cli.options import chosen_home, home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.service.upkeep import Verification


@click.group()
@home_option
def data() -> None:
    """Look after the data: where they are, whether they are sound.

    \b
    Example:
      trainer data verify
    """


@data.command()
@json_option
@home_option
def where(as_json: bool) -> None:
    """Say where the home, the data file and the settings are. Makes nothing.

    \b
    Example:
      trainer data where
    """
    from trainer.service.home import find_home

    home = find_home(chosen_home())
    if as_json:
        write_json(
            {
                "home": str(home.folder),
                "data_file": str(home.data_file),
                "settings_file": str(home.settings_file),
            }
        )
    else:
        say(
            f"Home: {home.folder}",
            f"Data file: {home.data_file}",
            f"Settings: {home.settings_file}",
        )


@data.command()
@json_option
@home_option
@click.pass_context
def verify(context: click.Context, as_json: bool) -> None:
    """Check the data file, and every card against its answers.

    \b
    Example:
      trainer data verify
    """
    found = _verified()
    if as_json:
        write_json(
            {
                "ok": found.ok,
                "problems": found.problems,
                "answers": found.answers,
                "cards": found.cards,
            }
        )
    elif found.ok:
        answers = counted(found.answers, "answer")
        say(f"Sound: {answers}, {counted(found.cards, 'card')}, and each is as its answers say.")
    else:
        say(*found.problems)
    context.exit(0 if found.ok else 1)


def _verified() -> Verification:
    """What is wrong with the data; a file that cannot even be opened is an answer too."""
    from trainer.service.upkeep import Verification, verify
    from trainer.store.database import DataFileError

    try:
        with opened_study() as study:
            return verify(study)
    except DataFileError as error:
        return Verification(0, 0, (str(error),))


@data.command()
@json_option
@home_option
def rebuild(as_json: bool) -> None:
    """Make the state of every card anew from the answers.

    \b
    Example:
      trainer data rebuild
    """
    from trainer.service.upkeep import rebuild

    with opened_study() as study:
        mended = rebuild(study)
    if as_json:
        write_json({"mended": mended})
    else:
        say(f"{counted(mended, 'card')} mended." if mended else "Every card was as it should be.")


@data.command()
@json_option
@home_option
def export(as_json: bool) -> None:
    """Write all answers and cards as JSON, with and without --json.

    \b
    Example:
      trainer data export > answers.json
    """
    from trainer.service.upkeep import export

    del as_json  # there is no other form
    with opened_study() as study:
        write_json(export(study))
