"""Asking for a yes before something is done that one may not want."""

from __future__ import annotations

import click

from trainer.cli.options import sits_at_the_keyboard
from trainer.cli.output import cleaned
from trainer.errors import TrainerError

yes_option = click.option("--yes", is_flag=True, help="Do it without asking.")


def may_ask(as_json: bool) -> bool:
    """Whether a question can be put: to a person, and not in the middle of a document."""
    return sits_at_the_keyboard() and not as_json


def ask(question: str, otherwise: str) -> None:
    """Put a question; nothing but a yes lets it go on.

    :param otherwise: what is said where the answer is no.
    :raises TrainerError: it is.
    """
    if not click.confirm(cleaned(question), err=True):
        raise TrainerError(otherwise)
