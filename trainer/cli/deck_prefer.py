"""`trainer deck prefer`: keeping one of several right moves, and taking that back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.service.decks.choices import Choice
    from trainer.service.decks.preferences import Preferred


@click.command()
@click.argument("deck")
@click.argument("line", metavar="[LINE|FEN]", required=False)
@click.argument("move", required=False)
@click.option("--take-back", is_flag=True, help="Keep no move there: the deck's is asked again.")
@json_option
@home_option
def prefer(deck: str, line: str | None, move: str | None, take_back: bool, as_json: bool) -> None:
    """Keep one of several right moves; the branches of the others leave practice.

    Without MOVE it says what is right after LINE and what you keep there; without LINE it
    lists all positions of DECK in which you can choose. Nothing that you remember is lost.

    \b
    Example:
      trainer deck prefer vienna "1. e4 e5 2. Nc3 Nf6" Bc4
      trainer deck prefer vienna "1. e4 e5 2. Nc3 Nf6" --take-back
    """
    from trainer.service.decks import preferences

    if take_back and (line is None or move is not None):
        raise click.UsageError("--take-back goes with a LINE or FEN, and without a MOVE.")
    with opened_study() as study:
        if line is None:
            _tell_all(deck, preferences.choices(study, deck), as_json)
        elif take_back:
            _tell_done(deck, preferences.take_back(study, deck, line), as_json)
        elif move is None:
            _tell_one(deck, preferences.choice_at(study, deck, line), as_json)
        else:
            _tell_done(deck, preferences.prefer(study, deck, line, move), as_json)


def _tell_all(deck: str, choices: list[Choice], as_json: bool) -> None:
    if as_json:
        write_json({"deck": deck, "choices": [_as_data(choice) for choice in choices]})
    elif choices:
        say(f"{deck}: you can choose in {counted(len(choices), 'position')}.")
        say(*(f"  {_sentence(choice)}" for choice in choices))
    else:
        say(f"{deck}: no position has several right moves.")


def _tell_one(deck: str, choice: Choice, as_json: bool) -> None:
    if as_json:
        write_json({"deck": deck, **_as_data(choice)})
    else:
        say(_sentence(choice))


def _tell_done(deck: str, done: Preferred, as_json: bool) -> None:
    if as_json:
        counts = {name: value for name, value in asdict(done).items() if name != "choice"}
        write_json({"deck": deck, **_as_data(done.choice), **counts})
    else:
        say(_sentence(done.choice), " ".join(_cards(done)))


def _as_data(choice: Choice) -> dict[str, Any]:
    return {**asdict(choice), "kept": choice.kept or None}


def _sentence(choice: Choice) -> str:
    """`1. e4 e5 2. Nc3 Nf6 (white): f4 or Bc4; you keep Bc4.`"""
    where = choice.line or ("Start" if choice.moves else choice.fen)
    right = " or ".join(choice.moves) or "nothing is asked any more"
    kept = f"; you keep {choice.kept}" if choice.kept else ""
    sleeps = ", which is not right now and sleeps" if choice.sleeps else ""
    return f"{where} ({choice.side}): {right}{kept}{sleeps}."


def _cards(done: Preferred) -> Iterator[str]:
    if done.gone:
        leave = "leaves" if done.gone == 1 else "leave"
        told = f", {done.remembered} of them answered and remembered" if done.remembered else ""
        yield f"{counted(done.gone, 'card')} {leave} practice{told}."
    if done.come:
        comes = "comes" if done.come == 1 else "come"
        told = f", {done.returned} of them with what you remember" if done.returned else ""
        yield f"{counted(done.come, 'card')} {comes} into practice{told}."
    if not (done.gone or done.come):
        yield "No card changes."
