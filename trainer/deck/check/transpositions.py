"""Opponent's replies that a deck does not list in a position, but answers by transposition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import chess

from trainer.deck.check.spots import after
from trainer.deck.check.written import Written
from trainer.deck.findings import Finding
from trainer.lines.graph import BookPosition
from trainer.lines.movetext import numbered
from trainer.lines.position import position_key

_Occupied = tuple[int, int]
"""The squares of the mover's and of the other side's pieces."""


def answered_elsewhere(written: Written) -> Iterator[Finding]:
    """Each reply that is not listed here but leads to where another line has the answer."""
    answered = {position.key: position for position in written.graph.cards}
    occupied = {_occupied(written.positions[key].board, not written.student) for key in answered}
    for position in written.to_move(not written.student):
        board = written.positions[position.key].board
        listed = {move.uci for move in position.moves}
        for move in _candidates(board, occupied):
            if move.uci() not in listed and (there := _where_to(board, move, answered)):
                yield _finding(written, position, board, move, there)


def _occupied(board: chess.Board, mover: chess.Color) -> _Occupied:
    return board.occupied_co[mover], board.occupied_co[not mover]


def _candidates(board: chess.Board, wanted: set[_Occupied]) -> Iterator[chess.Move]:
    """Moves after which pieces stand on such squares.

    Two operations a move tell most apart; making every move of every position would take
    longer than reading the deck.
    """
    own, theirs = _occupied(board, board.turn)
    for move in board.generate_pseudo_legal_moves():
        begin, end = chess.BB_SQUARES[move.from_square], chess.BB_SQUARES[move.to_square]
        moves_two = move.to_square == board.ep_square or board.is_castling(move)
        if moves_two or (own ^ begin | end, theirs & ~end) in wanted:
            yield move


def _where_to(
    board: chess.Board, move: chess.Move, answered: Mapping[str, BookPosition]
) -> BookPosition | None:
    if not board.is_legal(move):
        return None
    ahead = board.copy(stack=False)
    ahead.push(move)
    return answered.get(position_key(ahead))


def _finding(
    written: Written,
    here: BookPosition,
    board: chess.Board,
    move: chess.Move,
    there: BookPosition,
) -> Finding:
    reply = numbered(board, board.san(move))
    answer = there.deck_move.san if there.deck_move else ""
    message = (
        f"{reply} is not given {after(here)}, but leads to the position {after(there)}, which "
        f"{answer} answers; add the reply here if students should meet it in this line too"
    )
    return written.arrivals[here.key].note("answered-by-transposition", message)
