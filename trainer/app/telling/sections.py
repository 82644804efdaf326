"""What a roomy desk adds to an answer: the replies to come, and the history of the card."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import chess

from trainer.app.telling.blocks import BARS, Block, Gauges, Room, Rows
from trainer.lines.graph import BookMove, LineGraph
from trainer.lines.movetext import number_before
from trainer.service.card_history import CardHistory
from trainer.service.words import next_time, times
from trainer.sitting.cards import AskingMove, Card, IdeaCard

_MOST_REPLIES = 5
_MOST_SCORES = 22


def they_play(card: Card, move: BookMove, book: LineGraph) -> Block:
    """The replies that the deck answers after a move, with their shares where it gives them."""
    position = book.get(move.after)
    board = card.board
    board.push(chess.Move.from_uci(move.uci))
    return replies("Now they play", number_before(board), position.book_moves if position else ())


def replies(heading: str, number: str, moves: Sequence[BookMove]) -> Block:
    """Replies with their shares, the commonest first.

    :param number: the move number that stands before them.
    """
    if not moves:
        return Rows((("", "The line ends here."),), heading, Room.ROOMY)
    ranked = sorted(moves, key=lambda move: -(move.share or 0.0))
    rows = tuple((f"{number} {reply.san}", reply.share, share(reply)) for reply in ranked)
    more = (("", None, f"and {len(rows) - _MOST_REPLIES} more"),)
    return Gauges(heading, rows[:_MOST_REPLIES] + more * (len(rows) > _MOST_REPLIES))


def this_position(
    card: AskingMove, book: LineGraph, history: CardHistory, due: date | None, today: date
) -> Block:
    """How the card has gone so far, when it comes again, and how many lines go through it."""
    behind, all_ends = ends_behind(book, [card.position.key]), ends_behind(book, book.roots)
    lines = ("lines", f"{behind} of {all_ends} go through it")
    return Rows((*scores(history, due, today), lines), "This position", Room.ROOMY)


def this_exercise(card: Card, history: CardHistory, due: date | None, today: date) -> Block:
    """How a question or a tactic has gone so far, and when it comes again."""
    heading = "This question" if isinstance(card, IdeaCard) else "This tactic"
    return Rows(scores(history, due, today), heading, Room.ROOMY)


def scores(history: CardHistory, due: date | None, today: date) -> tuple[tuple[str, str], ...]:
    """Rows of the answers to a card so far, and of its next day."""
    bars = "".join(BARS[quality] for quality in history.qualities[-_MOST_SCORES:])
    went = ("scores", f"{bars}  {_asked(history)}")
    return (went, ("next", next_time(due, today))) if due is not None else (went,)


def ends_behind(book: LineGraph, keys: Sequence[str]) -> int:
    """How many ends of lines can be reached from these positions, each counted once."""
    waiting, seen, ends = list(keys), set(keys), 0
    while waiting:
        moves = book.positions[waiting.pop()].book_moves
        ends += not moves
        for move in moves:
            if move.after not in seen:
                seen.add(move.after)
                waiting.append(move.after)
    return ends


def _asked(history: CardHistory) -> str:
    missed = f", missed {times(history.missed)}" if history.missed else ""
    return f"asked {times(history.asked)}{missed}"


def share(reply: BookMove) -> str:
    """`45%`; empty where the deck does not say."""
    return "" if reply.share is None else f"{reply.share:.0%}"
