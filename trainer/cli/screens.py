"""The one door from the command line to the screens, which must not know each other."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from trainer.service.preparation import Wish


def on_a_terminal() -> bool:
    """Whether somebody sits at a screen: a terminal for typing and one for painting."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def open_screens(home: Path | None, wish: Wish | None = None) -> None:
    """Run the program on the terminal, and leave the command with its exit code."""
    from trainer.app.main import run_app

    click.get_current_context().exit(run_app(home, wish))
