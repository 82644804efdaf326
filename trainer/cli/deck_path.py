"""What the commands that take a deck by its path say where the path is a PGN file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from trainer.service.decks.named import DeckUnreadable

side_option = click.option(
    "--side",
    type=click.Choice(["white", "black"]),
    help="Whose moves are asked; for the path of a PGN file, and needed for one.",
)


def told(refused: DeckUnreadable) -> Exception:
    """Wrong usage where only the side is missing, else the error as it is."""
    if any(finding.code == "missing-side" for finding in refused.findings):
        return click.UsageError(
            "A PGN file does not say whose moves are asked: add --side white or --side black."
        )
    return refused
