"""A position read out: what a listener can set up again from it."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trees import after
from trainer.lines.read_out import PIECES, move_spoken, read_line, read_part, read_position

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
    by_piece = [
        line for kind in PIECES for line in read_part(board, f"{chess.piece_name(kind)}s?") or ()
    ]
    assert set_up([line for line in by_piece if ": no " not in line]).board_fen() == (
        board.board_fen()
    )
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


# Worked by hand.
BY_PIECE = [
    ("knight?", "1. Nf3 Nc6", ["White: knights b1 f3.", "Black: knights c6 g8."]),
    ("knights?", "1. Nf3 Nc6", ["White: knights b1 f3.", "Black: knights c6 g8."]),
    ("kings?", "1. e4 e5 2. Ke2", ["White: king e2.", "Black: king e8."]),
    ("queen?", "1. e4 e5 2. Qh5 g6 3. Qxh7 Qg5", ["White: queen h7.", "Black: queen g5."]),
    (
        "queens?",
        "1. e4 d5 2. exd5 Qxd5 3. Qf3 Qxf3",
        ["White: no queen.", "Black: queen f3."],
    ),
    ("pawns?", "4k3/8/8/8/8/8/4p3/K7 w - - 0 1", ["White: no pawn.", "Black: pawn e2."]),
]


@pytest.mark.parametrize(("question", "where", "told"), BY_PIECE)
def test_a_kind_of_piece_can_be_asked_for(question: str, where: str, told: list[str]) -> None:
    board = chess.Board(where) if "/" in where else after(where)
    assert read_part(board, question) == told


def test_a_line_is_read_out_move_by_move() -> None:
    board = after("1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7")
    assert read_line(board.root(), board.move_stack) == [
        "Move 1. White: pawn e2 to e4. Black: pawn e7 to e5.",
        "Move 2. White: bishop f1 to c4. Black: knight b8 to c6.",
        "Move 3. White: queen d1 to h5. Black: knight g8 to f6.",
        "Move 4. White: queen h5 takes on f7, checkmate.",
    ]
    assert read_line(chess.Board(), []) == []


def test_a_line_may_begin_with_black() -> None:
    board = chess.Board("4k3/8/8/8/8/8/4q3/4K3 b - - 0 7")
    moves = [chess.Move.from_uci("e2d3"), chess.Move.from_uci("e1f2")]
    assert read_line(board, moves) == [
        "Move 7. Black: queen e2 to d3.",
        "Move 8. White: king e1 to f2.",
    ]
    assert board.fullmove_number == 7, "the board given is not changed"


def test_a_check_is_said_with_the_move() -> None:
    assert move_spoken(after("1. f4 e5 2. Nc3"), chess.Move.from_uci("d8h4")) == (
        "queen d8 to h4, check"
    )


@pytest.mark.parametrize(
    "text", ["men?", "knights", "knight ?", "?", "e9?", "i4?", "e4", "4e?", "e4??", "Nf3?"]
)
def test_other_texts_are_no_questions(text: str) -> None:
    assert read_part(chess.Board(), text) is None
