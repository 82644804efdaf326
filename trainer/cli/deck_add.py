"""`trainer deck add`: a deck or a new edition of one, with an account of what it changes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.consent import ask, may_ask, yes_option
from trainer.cli.deck_check import tell_findings
from trainer.cli.edition_words import account_lines, changes_as_data, summary
from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.cli.wrapped import say_wrapped
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.deck.findings import Finding
    from trainer.service.decks.editions import EditionAccount
    from trainer.service.decks.shelving import AddedDeck, Proposal
    from trainer.service.study import Study


@click.command()
@click.argument("path", type=click.Path(path_type=Path))
@click.option(
    "--side",
    type=click.Choice(["white", "black"]),
    help="Whose moves are asked; for a PGN file, and needed for one.",
)
@yes_option
@json_option
@home_option
def add(path: Path, side: str | None, yes: bool, as_json: bool) -> None:
    """Add the deck in a folder, packed or not, or a PGN file, or a new edition of either.

    What is remembered of a position stays, as long as its move is the same. Where a new
    edition changes or withdraws what you have answered, it says so and asks first.

    \b
    Example:
      trainer deck add my-openings.pgn --side white
    """
    from trainer.service.decks.shelving import DeckRefused

    try:
        with opened_study() as study:
            _add(study, path, side, yes, as_json)
    except DeckRefused as refused:
        if any(finding.code == "missing-side" for finding in refused.findings):
            raise click.UsageError(
                "A PGN file does not say whose moves are asked: add --side white or --side black."
            ) from refused
        if as_json:
            write_json(_outcome(None, refused.account, refused.findings))
        elif len(refused.findings) > 1:
            say(*tell_findings(refused.findings))
        raise


def _add(study: Study, path: Path, side: str | None, yes: bool, as_json: bool) -> None:
    from trainer.service.decks.shelving import accept, prepare_deck

    proposal = prepare_deck(study, path, side)
    asks = bool(proposal.account.at_stake) and not yes
    if asks:
        _ask(proposal, as_json)
    added = accept(study, proposal)
    if as_json:
        write_json(_outcome(added, added.account, added.findings))
        return
    say(summary(added.account))
    if not asks:
        say_wrapped(*account_lines(added.account))
    say(*tell_findings(added.findings))


def _ask(proposal: Proposal, as_json: bool) -> None:
    """Show the account and ask; where nobody can be asked, refuse."""
    from trainer.service.decks.shelving import DeckRefused

    account = proposal.account
    count = counted(len(account.at_stake), "card")
    if not may_ask(as_json):
        raise DeckRefused(
            f"edition {account.edition} of {account.deck!r} changes or withdraws {count} that "
            "you have answered; nothing was changed, add it with --yes",
            account=account,
        )
    say_wrapped(*account_lines(account))
    ask(
        f"{account.title}, edition {account.edition}, changes or withdraws {count} that you have "
        "answered. Add it?",
        otherwise="nothing was changed",
    )


def _outcome(
    added: AddedDeck | None, account: EditionAccount | None, findings: Iterable[Finding]
) -> dict[str, Any]:
    return {
        "deck": added and added.deck,
        "edition": added and added.edition,
        "cards": added and asdict(added.cards),
        "findings": [asdict(finding) for finding in findings],
        "changes": changes_as_data(account) if account else [],
    }
