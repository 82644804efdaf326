"""Moves named in plain words."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from second_opinion import played_boards

from trainer.lines.in_words import move_in_words, pieces_on

# Worked by hand.
TOLD = {
    "a piece": ("4k3/8/8/8/8/8/8/2B1K3 w - - 0 1", "c1f4", "bishop c1 to f4"),
    "a capture": ("4k3/8/8/8/4p3/2N5/8/4K3 w - - 0 1", "c3e4", "knight c3 takes on e4"),
    "a pawn": (chess.STARTING_FEN, "e2e4", "pawn e2 to e4"),
    "kingside": ("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "e1g1", "castles kingside"),
    "queenside": ("r3k3/8/8/8/8/8/8/4K3 b q - 0 1", "e8c8", "castles queenside"),
    "a king's step": ("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "e1f1", "king e1 to f1"),
    "promotion": ("k7/4P3/8/8/8/8/8/4K3 w - - 0 1", "e7e8q", "pawn e7 to e8, promoting to a queen"),
    "promotion with capture": (
        "k2r4/4P3/8/8/8/8/8/4K3 w - - 0 1",
        "e7d8n",
        "pawn e7 takes on d8, promoting to a knight",
    ),
    "en passant": ("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 9", "e5d6", "pawn e5 takes on d6 en passant"),
}


@pytest.mark.parametrize(("fen", "uci", "words"), TOLD.values(), ids=TOLD)
def test_a_move_is_told(fen: str, uci: str, words: str) -> None:
    assert move_in_words(chess.Board(fen), chess.Move.from_uci(uci)) == words


@given(played_boards())
def test_no_two_legal_moves_sound_alike(board: chess.Board) -> None:
    told = [move_in_words(board, move) for move in board.legal_moves]
    assert len(set(told)) == len(told)


@pytest.mark.parametrize(
    ("squares", "words"),
    [
        ([chess.E1], "the king on e1"),
        ([chess.H1, chess.A1], "the rook on a1 and the rook on h1"),
        ([chess.H1, chess.B1, chess.A2], "the pawn on a2, the knight on b1 and the rook on h1"),
    ],
)
def test_pieces_are_listed_by_their_squares(squares: list[int], words: str) -> None:
    assert pieces_on(chess.Board(), squares) == words
