"""`trainer position`: one position's facts, what the decks have there, the verdict on a try."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.options import home_option, json_option, opened_study
from trainer.cli.output import say, write_json

if TYPE_CHECKING:
    from trainer.service.position_report import DeckHere, PositionReport
    from trainer.sitting.verdict import Judgement


@click.command()
@click.argument("where", metavar="LINE_OR_FEN")
@click.option(
    "--try", "tried", metavar="MOVE", help="Say what the rules and the decks think of it."
)
@json_option
@home_option
def position(where: str, tried: str | None, as_json: bool) -> None:
    """Say what the decks have in a position.

    It is named by the moves that lead there, or as FEN. What can be counted there, such
    as material, space and pawns, is told too.

    \b
    Example:
      trainer position "1. e4 e5 2. Nc3" --try Nf6
    """
    from trainer.service.position_report import report_position

    with opened_study() as study:
        report = report_position(study, where, tried)
    if as_json:
        write_json(_document(report))
    else:
        say(*_sentences(report))


def _document(report: PositionReport) -> dict[str, Any]:
    document: dict[str, Any] = {
        "fen": report.fen,
        "epd": report.epd,
        "line": report.line,
        "facts": asdict(report.facts),
        "decks": [_deck(here) for here in report.decks],
    }
    if report.tried is not None:
        document["try"] = _try(report.tried)
    return document


def _deck(here: DeckHere) -> dict[str, Any]:
    return {
        "deck": here.deck,
        "chapter": here.chapter,
        "side": here.side,
        "move": here.move,
        "accepted": here.accepted,
        "mistakes": here.mistakes,
        "replies": here.replies,
    }


def _try(judgement: Judgement) -> dict[str, str]:
    return {
        "verdict": judgement.verdict.value,
        "san": judgement.san,
        "reason": judgement.reason,
        "note": judgement.book_move.note if judgement.book_move else "",
    }


def _sentences(report: PositionReport) -> Iterator[str]:
    from trainer.lines.facts_in_words import tell_facts

    yield f"After {report.line}." if report.line else "The position:"
    yield report.fen
    if not report.decks:
        yield "No deck here has this position."
    for here in report.decks:
        yield f"{here.deck}, chapter {here.chapter} ({here.side}): {_what_stands(here)}."
    if report.tried is not None:
        yield from _verdict(report.tried)
    yield from ("", "What can be counted:", *tell_facts(report.facts))


def _what_stands(here: DeckHere) -> str:
    parts = (
        ("the move is", (here.move,) if here.move else ()),
        ("right too:", here.accepted),
        ("known mistakes:", here.mistakes),
        ("replies:", here.replies),
    )
    told = [f"{what} {', '.join(moves)}" for what, moves in parts if moves]
    return "; ".join(told) or "a line ends"


def _verdict(judgement: Judgement) -> Iterator[str]:
    move = f"{judgement.san}: " if judgement.san else ""
    yield f"{move}{judgement.verdict.value}."
    if judgement.reason:
        yield judgement.reason
    if judgement.book_move and judgement.book_move.note:
        yield judgement.book_move.note
