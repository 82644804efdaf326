"""The entry point: the group of all commands, and what errors come to.

Domain errors become one line on standard error and exit code 1, wrong usage exits with 2,
a closed pipe and Ctrl+C end quietly. Anything else is a bug and keeps its traceback.
"""

from __future__ import annotations

import sys
from typing import Any

import click

from trainer.cli.data import data
from trainer.cli.deck import deck
from trainer.cli.demo import demo
from trainer.cli.options import chosen_home, home_option
from trainer.cli.output import complain, complain_of_usage, say, tolerate_narrow_encodings
from trainer.cli.position import position
from trainer.cli.practice import practice
from trainer.cli.screens import on_a_terminal, open_screens
from trainer.cli.today import today
from trainer.errors import TrainerError

INTERRUPTED = 130
"""The usual exit code after Ctrl+C."""


class TrainerGroup(click.Group):
    """A group that turns errors which a user can mend into one line and exit code 1."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command."""
        try:
            return super().invoke(ctx)
        except TrainerError as error:
            complain(str(error))
            ctx.exit(1)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands in the order of a day's use."""
        del ctx
        return list(self.commands)


def _show_version(context: click.Context, _parameter: click.Parameter, wanted: bool) -> None:
    if not wanted:
        return
    from importlib.metadata import PackageNotFoundError, version

    try:
        say(f"trainer {version('opening-line-trainer')}")
    except PackageNotFoundError:
        say("trainer, run from its source without being installed")
    context.exit()


@click.group(
    cls=TrainerGroup,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@home_option
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_version,
    help="Show the version and exit.",
)
@click.pass_context
def trainer(context: click.Context) -> None:
    """Learn, keep and mend chess opening lines.

    Without a command the program opens on the terminal, at Today. With a screen
    reader, or on a terminal of any size, use `trainer practice --plain`.

    \b
    Example:
      trainer deck add my-openings.pgn --side white
      trainer
    """
    if context.invoked_subcommand is None:
        _open_the_program()


def _open_the_program() -> None:
    if not on_a_terminal():
        raise TrainerError(
            "the program needs a terminal; without one use `trainer practice --plain`, "
            "or see `trainer --help`"
        )
    open_screens(chosen_home())


for _command in (today, practice, deck, position, data, demo):
    trainer.add_command(_command)


def main() -> None:
    """Run the command line and exit with its code."""
    tolerate_narrow_encodings()
    sys.exit(_run())


def _run() -> int:
    try:
        code = trainer.main(prog_name="trainer", standalone_mode=False)
    except click.Abort:
        return INTERRUPTED
    except click.ClickException as error:
        complain_of_usage(error)
        return error.exit_code
    except OSError as error:
        complain(f"{error}; check the disk and where the output goes")
        return 1
    return code if isinstance(code, int) else 0
