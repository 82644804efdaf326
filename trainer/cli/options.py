"""What the commands share: `--home`, `--json`, and the opened study.

Use cases are imported inside the functions that need them, here and in the commands:
`trainer --help` must load neither the database nor the rules of chess.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from trainer.cli.output import complain

if TYPE_CHECKING:
    from trainer.service.study import Study

_HOME = "trainer.home"

_PROBLEMS = 8
"""So many things wrong with the settings are named."""


def _remember_home(context: click.Context, _parameter: click.Parameter, home: Path | None) -> None:
    """The last one named holds, before the command or after it."""
    if home is not None:
        context.meta[_HOME] = home


home_option = click.option(
    "--home",
    type=click.Path(file_okay=False, path_type=Path),
    metavar="PATH",
    help="Use the data in this folder instead of your own.",
    callback=_remember_home,
    expose_value=False,
)

json_option = click.option(
    "--json", "as_json", is_flag=True, help="Write one JSON document instead of text."
)


def chosen_home() -> Path | None:
    """The folder of `--home`, if one was named."""
    home: Path | None = click.get_current_context().meta.get(_HOME)
    return home


@contextmanager
def opened_study() -> Iterator[Study]:
    """The study in the chosen home; what is wrong with its settings goes to standard error.

    :raises DataFileError: it cannot be opened, or its data file turns out to be damaged.
    """
    from trainer.service.study import open_study

    with open_study(chosen_home()) as study:
        for problem in study.problems[:_PROBLEMS]:
            complain(problem)
        if (more := len(study.problems) - _PROBLEMS) > 0:
            complain(f"{study.home.settings_file}: {more} more of this kind")
        yield study


def sits_at_the_keyboard() -> bool:
    """Whether what is typed comes from a person."""
    return sys.stdin is not None and sys.stdin.isatty()
