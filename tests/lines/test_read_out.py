"""A position read out: what a listener can set up again from it."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trees import after
from trainer.lines.read_out import read_part, read_position

NAMES = {name: kind for kind, name in enumerate(chess.PIECE_NAMES) if name}


def set_up(lines: list[str]) -> chess.BaseBoard:
    """The pieces on the board, as a listener would put them there."""
    board = chess.BaseBoard.empty()
    for line in lines:
        side, _, rest = line.rstrip(".").partition(": ")
        if side in ("White", "Black"):
            for kind in rest.split(", "):
                name, *squares = kind.split()
                piece = chess.Piece(NAMES[name.removesuffix("s")], side == "White")
                for square in squares:
                    board.set_piece_at(chess.parse_square(square), piece)
    return board


@given(st.lists(st.integers(min_value=0), max_size=60))
def test_a_listener_can_set_the_position_up(choices: list[int]) -> None:
    board = before = chess.Board()
    last = None
    for choice in choices:
        moves = sorted(board.legal_moves, key=chess.Move.uci)
        if not moves:
            break
        before, last = board.copy(), moves[choice % len(moves)]
        board = board.copy()
        board.push(last)
    told = read_position(board, (before, last) if last else None)
    assert set_up(told).board_fen() == board.board_fen()
    assert told[0] == f"{'White' if board.turn else 'Black'} to move."
    assert any("is in check" in line for line in told) == board.is_check()
    squares = [line for rank in "12345678" for line in read_part(board, f"{rank}?") or ()]
    assert sum("Nothing" not in line for line in squares) == len(board.piece_map())


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("1. e4 e5 2. Bc4 Nc6 3. Nf3 Nf6 4. O-O", "Last move: White, castles kingside."),
        ("1. e4 a6 2. e5 d5 3. exd6", "Last move: White, pawn e5 takes on d6 en passant."),
    ],
)
def test_the_last_move_is_named(line: str, told: str) -> None:
    board = after(line)
    last = board.pop()
    before = board.copy()
    board.push(last)
    assert told in read_position(board, (before, last))


@pytest.mark.parametrize("text", ["?", "e9?", "i4?", "e4", "4e?", "e4??", "Nf3?"])
def test_other_texts_are_no_questions(text: str) -> None:
    assert read_part(chess.Board(), text) is None
