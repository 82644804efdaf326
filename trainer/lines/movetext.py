"""Moves as text: SAN with move numbers and single spaces, as the trainer shows lines."""

from __future__ import annotations

from collections.abc import Iterable

import chess


def number_before(board: chess.Board) -> str:
    """`4.` or `4...`: what stands before the next move of this board."""
    return f"{board.fullmove_number}{'.' if board.turn == chess.WHITE else '...'}"


def numbered(board: chess.Board, san: str) -> str:
    """One move with its number: `4. Nxe4`, `4... Bf5`."""
    return f"{number_before(board)} {san}"


def movetext(start: chess.Board, moves: Iterable[chess.Move]) -> str:
    """The moves from a starting board: `1. e4 e5 2. Nf3`; empty for no moves.

    :raises ValueError: a move is not legal where it stands.
    """
    board = start.copy(stack=False)
    words: list[str] = []
    for move in moves:
        if move not in board.legal_moves:
            raise ValueError(f"{move.uci()} is not legal after {' '.join(words) or 'no moves'}")
        if board.turn == chess.WHITE or not words:
            words.append(number_before(board))
        words.append(board.san(move))
        board.push(move)
    return " ".join(words)
