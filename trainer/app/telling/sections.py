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
from trainer.sitting.sitting import Card

_MOST_REPLIES = 5
_MOST_SCORES = 22


def they_play(card: Card, move: BookMove, book: LineGraph) -> Block:
    """The replies that the deck answers after a move, with their shares where it gives them."""
    position = book.get(move.after)
    replies = sorted(position.book_moves if position else (), key=lambda m: -(m.share or 0.0))
    if not replies:
        return Rows((("", "The line ends here."),), "Now they play", Room.ROOMY)
    board = card.board
    board.push(chess.Move.from_uci(move.uci))
    number = number_before(board)
    rows = tuple((f"{number} {reply.san}", reply.share, _share(reply)) for reply in replies)
    more = (("", None, f"and {len(rows) - _MOST_REPLIES} more"),)
    return Gauges("Now they play", rows[:_MOST_REPLIES] + more * (len(rows) > _MOST_REPLIES))


def this_position(
    card: Card, book: LineGraph, history: CardHistory, due: date | None, today: date
) -> Block:
    """How the card has gone so far, when it comes again, and how many lines go through it."""
    scores = "".join(BARS[quality] for quality in history.qualities[-_MOST_SCORES:])
    rows = [("scores", f"{scores}  {_asked(history)}")]
    if due is not None:
        rows.append(("next", next_time(due, today)))
    behind, all_ends = ends_behind(book, [card.position.key]), ends_behind(book, book.roots)
    rows.append(("lines", f"{behind} of {all_ends} go through it"))
    return Rows(tuple(rows), "This position", Room.ROOMY)


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


def _share(reply: BookMove) -> str:
    return "" if reply.share is None else f"{reply.share:.0%}"
