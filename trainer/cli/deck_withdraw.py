"""`trainer deck withdraw`: taking a deck off the shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from trainer.cli.consent import ask, may_ask, yes_option
from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.errors import TrainerError
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.service.decks.withdrawing import Withdrawal


@click.command()
@click.argument("deck", metavar="ID_OR_PATH")
@yes_option
@json_option
@home_option
def withdraw(deck: str, yes: bool, as_json: bool) -> None:
    """Take a deck off the shelf; its cards are asked no more.

    Every answer stays: add the deck again, and all that you remember of it is back.

    \b
    Example:
      trainer deck withdraw vienna
    """
    from trainer.service.decks.withdrawing import prepare_withdrawal, withdraw_deck

    with opened_study() as study:
        planned = prepare_withdrawal(study, deck)
        if not yes:
            _ask(planned, as_json)
        withdrawn = withdraw_deck(study, planned.deck)
    if as_json:
        write_json(
            {
                "deck": withdrawn.deck,
                "cards": withdrawn.cards,
                "remembered": withdrawn.remembered,
            }
        )
    else:
        say(f"{withdrawn.title} ({withdrawn.deck}) is withdrawn. {_what_leaves(withdrawn)}")


def _ask(planned: Withdrawal, as_json: bool) -> None:
    if not may_ask(as_json):
        raise TrainerError(
            f"{counted(planned.remembered, 'remembered card')} of {planned.deck!r} would leave "
            "practice; nothing was changed, withdraw it with --yes"
        )
    ask(
        f"{planned.title} ({planned.deck}): {_what_leaves(planned)} Withdraw it?",
        otherwise="nothing was changed",
    )


def _what_leaves(withdrawal: Withdrawal) -> str:
    if not withdrawal.remembered:
        return "No card that you remember leaves practice."
    leave = "leaves" if withdrawal.remembered == 1 else "leave"
    return (
        f"{counted(withdrawal.remembered, 'remembered card')} {leave} practice; what you "
        "remember stays, should the deck come back."
    )
