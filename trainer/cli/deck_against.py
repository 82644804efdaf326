"""`deck check --against`: what a deck would change for those who have another edition of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.edition_words import account_lines, changes_as_data
from trainer.cli.options import opened_study

if TYPE_CHECKING:
    from trainer.service.decks.editions import EditionAccount

against_option = click.option(
    "--against",
    metavar="OLD",
    help="Say what changes against this edition of it: a path, or the id of an added deck.",
)


def account_against(path: Path, side: str | None, old: str) -> EditionAccount:
    """The account; what has a path by that name is no deck of the home.

    :raises TrainerError: the two cannot be read, or are not editions of one deck.
    """
    from trainer.service.decks import against

    new = against.contents_at(path, side)
    if _is_there(old):
        return against.account_against(against.contents_at(Path(old), side), new)
    with opened_study() as study:
        return against.account_against(against.contents_here(study, old), new)


def _is_there(name: str) -> bool:
    try:
        return Path(name).exists()
    except (OSError, ValueError):
        return False


def told(account: EditionAccount) -> Iterator[str]:
    """A sentence with the counts, then what changes."""
    cards = account.cards
    yield (
        f"Against edition {account.before}: {cards.kept} cards kept, {cards.new} new, "
        f"{cards.changed} with another answer, {cards.withdrawn} withdrawn."
    )
    yield from account_lines(account)
    if account.edition <= (account.before or 0) and account.changes:
        yield "The edition is not above the old one: raise it in deck.toml before you hand it out."


def as_data(account: EditionAccount) -> dict[str, Any]:
    """The account for JSON."""
    return {
        "edition": account.before,
        "cards": asdict(account.cards),
        "changes": changes_as_data(account),
    }
