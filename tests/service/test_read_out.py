"""A position in sentences, whole and in part. Worked by hand."""

import chess
import pytest

from trainer.service.read_out import read_part, read_position

ENDING = "4k3/8/8/3q4/8/8/8/R3K2R w KQ - 0 1"


def test_the_whole_position() -> None:
    board = chess.Board()
    move = board.parse_san("e4")
    after = chess.Board()
    after.push(move)
    assert read_position(after, (board, move)) == [
        "Black to move.",
        "Last move: White, pawn e2 to e4.",
        "White: king e1, queen d1, rooks a1 h1, bishops c1 f1, knights b1 g1, "
        "pawns a2 b2 c2 d2 e4 f2 g2 h2.",
        "Black: king e8, queen d8, rooks a8 h8, bishops c8 f8, knights b8 g8, "
        "pawns a7 b7 c7 d7 e7 f7 g7 h7.",
    ]


def test_a_check_is_said() -> None:
    board = chess.Board("4k3/8/8/4q3/8/8/8/4K3 w - - 0 1")
    assert "White is in check." in read_position(board)


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("d5?", ["d5: black queen."]),
        ("d4?", ["d4: empty."]),
        ("1?", ["a1: white rook.", "e1: white king.", "h1: white rook."]),
        ("d?", ["d5: black queen."]),
        ("b?", ["Nothing stands on the b-file."]),
        ("3?", ["Nothing stands on rank 3."]),
        ("?", None),
        ("d5", None),
        ("i9?", None),
    ],
)
def test_a_part(question: str, answer: list[str] | None) -> None:
    assert read_part(chess.Board(ENDING), question) == answer
