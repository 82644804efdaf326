"""Moves by their squares: legal, unclear or illegal, and why."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess
import pytest
from hypothesis import given, settings
from second_opinion import PERFT, cozy_checkers, cozy_moves, cozy_pinned, played_boards

from trainer.lines.legality import judge_move, why_illegal
from trainer.lines.reading import Illegal, LegalMove, Unclear

# Source: FIDE Laws of Chess (2023), the article at the end of each line. Worked by hand.
REASONS = {
    "own piece there (3.1)": (PERFT["1"], "a1a2", "White's own pawn is on a2"),
    "own rook is no castling (3.8)": (
        "4k3/8/8/8/8/8/8/4K2R w K - 0 1",
        "e1h1",
        "White's own rook is on h1",
    ),
    "not from its square (3.1)": (PERFT["1"], "g1g1", "the knight would stay on g1"),
    "no piece": (PERFT["1"], "e4e5", "there is no piece on e4"),
    "the opponent's piece": (PERFT["1"], "g8f6", "the knight on g8 is Black's"),
    "bishop (3.2)": (PERFT["2"], "d2d3", "a bishop does not move from d2 to d3"),
    "rook (3.3)": (
        "4k3/8/8/8/8/8/8/R3K3 w - - 0 1",
        "a1b2",
        "a rook does not move from a1 to b2",
    ),
    "queen (3.4)": (PERFT["2"], "f3d4", "a queen does not move from f3 to d4"),
    "over a piece (3.5)": (PERFT["1"], "f1b5", "the pawn on e2 is in the way of the bishop on f1"),
    "over the nearest of two (3.5)": (
        "4k3/n7/p7/8/8/8/8/R3K3 w - - 0 1",
        "a1a8",
        "the pawn on a6 is in the way of the rook on a1",
    ),
    "knight (3.6)": (PERFT["1"], "g1g3", "a knight does not move from g1 to g3"),
    "pawn backwards (3.7)": (
        "4k3/8/8/8/4P3/8/8/4K3 w - - 0 1",
        "e4e3",
        "a pawn does not move from e4 to e3",
    ),
    "pawn into a piece (3.7.1)": (
        "4k3/8/8/4n3/4P3/8/8/4K3 w - - 0 1",
        "e4e5",
        "the knight on e5 is in the way of the pawn on e4",
    ),
    "pawn over a piece (3.7.2)": (
        "4k3/8/8/8/8/4n3/4P3/4K3 w - - 0 1",
        "e2e4",
        "the knight on e3 is in the way of the pawn on e2",
    ),
    "pawn twice two (3.7.2)": (
        "4k3/8/8/8/8/4P3/8/4K3 w - - 0 1",
        "e3e5",
        "a pawn goes two squares only on its first move",
    ),
    "Black's pawn twice two (3.7.2)": (
        "4k3/8/4p3/8/8/8/8/4K3 b - - 0 1",
        "e6e4",
        "a pawn goes two squares only on its first move",
    ),
    "nothing to take (3.7.3)": (PERFT["1"], "e2d3", "there is nothing on d3 to take"),
    "en passant too late (3.7.3.2)": (
        "4k3/8/8/3pP3/8/8/8/4K3 w - - 0 9",
        "e5d6",
        "en passant is allowed only at once, in the move after the pawn's double step",
    ),
    "no en passant on other ranks (3.7.3.1)": (
        "4k3/8/3pP3/8/8/8/8/4K3 w - - 0 9",
        "e6d7",
        "there is nothing on d7 to take",
    ),
    "no en passant of a knight (3.7.3.1)": (
        "4k3/8/8/3nP3/8/8/8/4K3 w - - 0 9",
        "e5d6",
        "there is nothing on d6 to take",
    ),
    "promotion to a king (3.7.5)": (
        "8/P7/8/8/8/8/8/k3K3 w - - 0 1",
        "a7a8k",
        "a pawn becomes a bishop, a knight, a queen or a rook",
    ),
    "promotion too early (3.7.5)": (
        PERFT["1"],
        "e2e4q",
        "only a pawn that reaches the last rank becomes another piece",
    ),
    "promotion of a knight (3.7.5)": (
        PERFT["1"],
        "g1f3q",
        "only a pawn that reaches the last rank becomes another piece",
    ),
    "king two squares (3.8.1)": (
        "4k3/8/8/8/8/8/8/3K4 w - - 0 1",
        "d1f1",
        "a king moves one square",
    ),
    "castling after the king moved (3.8.2.1)": (
        "r3k2r/8/8/8/8/8/8/R3K2R w kq - 0 1",
        "e1g1",
        "White is no longer allowed to castle kingside: the king or the rook on h1 has moved",
    ),
    "castling with a rook that is gone (3.8.2.1)": (
        "r3k3/8/8/8/8/8/8/4K3 b q - 0 1",
        "e8g8",
        "Black is no longer allowed to castle kingside: Black has no rook on h8",
    ),
    "castling out of check (3.8.2.2)": (
        "4k3/8/8/8/1b6/8/8/R3K2R w KQ - 0 1",
        "e1g1",
        "castling out of check is not allowed: e1 is attacked by the bishop on b4",
    ),
    "castling through check (3.8.2.2)": (
        "4k3/8/b7/8/8/8/8/R3K2R w KQ - 0 1",
        "e1g1",
        "castling through check is not allowed: f1 is attacked by the bishop on a6",
    ),
    "castling into check (3.8.2.2)": (
        "2r1k3/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "e1c1",
        "castling into check is not allowed: c1 is attacked by the rook on c8",
    ),
    "castling over a piece (3.8.2.2)": (
        "rn2k2r/8/8/8/8/8/8/4K3 b kq - 0 1",
        "e8c8",
        "the knight on b8 stands between king and rook",
    ),
    "castling onto a piece (3.8.2.2)": (
        PERFT["1"],
        "e1c1",
        "the queen on d1 stands between king and rook",
    ),
    "no castling with a rook on the king's square (3.5)": (
        "4k3/8/8/8/8/8/8/K3RN2 w - - 0 1",
        "e1g1",
        "the knight on f1 is in the way of the rook on e1",
    ),
    "no promotion in castling": (
        "4k3/8/8/8/8/8/8/4K2R w K - 0 1",
        "e1g1q",
        "a king moves one square",
    ),
    "king into check (3.9)": (
        "4k3/8/8/8/8/8/r7/4K3 w - - 0 1",
        "e1e2",
        "the king would stand in check from the rook on a2",
    ),
    "king along the line of the check (3.9)": (
        "4k3/8/8/8/4r3/8/4K3/8 w - - 0 1",
        "e2e1",
        "the king would stand in check from the rook on e4",
    ),
    "king takes what is defended (3.9)": (
        "4k3/8/8/8/8/2b5/3r4/4K3 w - - 0 1",
        "e1d2",
        "the king would stand in check from the bishop on c3",
    ),
    "king beside a king (3.9)": (
        "8/8/8/8/8/4k3/8/4K3 w - - 0 1",
        "e1e2",
        "the king would stand in check from the king on e3",
    ),
    "check not answered (3.9)": (
        "4k3/8/8/8/1b6/8/8/R3K3 w - - 0 1",
        "a1a4",
        "the king is in check from the bishop on b4, and this move does not answer it",
    ),
    "pinned and check not answered (3.9)": (
        "4r1k1/8/8/8/8/8/3NB3/r3K3 w - - 0 1",
        "e2d3",
        "the king is in check from the rook on a1, and this move does not answer it",
    ),
    "double check (3.9)": (
        "4r1k1/8/8/8/8/5n2/7R/4K3 w - - 0 1",
        "h2e2",
        "the king is in check from the rook on e8 and the knight on f3, "
        "and this move does not answer both",
    ),
    "pinned (3.9)": (
        "4k3/8/8/8/1b6/2N5/8/4K3 w - - 0 1",
        "c3d5",
        "the knight on c3 is pinned to the king by the bishop on b4",
    ),
    "a pinned piece answers no check (3.9)": (
        "4r1k1/8/8/8/8/8/4B3/r3K3 w - - 0 1",
        "e2d1",
        "the bishop on e2 is pinned to the king by the rook on e8",
    ),
    "en passant opens the rank (3.9)": (
        "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 9",
        "e5d6",
        "taking en passant would leave the king in check from the rook on h5",
    ),
    "en passant opens the file (3.9)": (
        "4r1k1/8/8/3pP3/8/8/8/4K3 w - d6 0 9",
        "e5d6",
        "the pawn on e5 is pinned to the king by the rook on e8",
    ),
    "promoting while in check (3.9)": (
        "k7/4P3/8/b7/8/8/8/4K3 w - - 0 1",
        "e7e8",
        "the king is in check from the bishop on a5, and this move does not answer it",
    ),
}


@pytest.mark.parametrize(("fen", "uci", "reason"), REASONS.values(), ids=REASONS)
def test_each_reason(fen: str, uci: str, reason: str) -> None:
    move = chess.Move.from_uci(uci) if uci[:2] != uci[2:4] else None
    origin, target = chess.parse_square(uci[:2]), chess.parse_square(uci[2:4])
    judged = judge_move(chess.Board(fen), origin, target, move.promotion if move else None)
    assert judged == Illegal(reason)


KINDS = [
    r"there is no piece on \w\d",
    r"the \w+ on \w\d is (White|Black)'s",
    r"(White|Black)'s own \w+ is on \w\d",
    r"the \w+ would stay on \w\d",
    r"a king moves one square",
    r"an? \w+ does not move from \w\d to \w\d",
    r"a pawn goes two squares only on its first move",
    r"the \w+ on \w\d is in the way of the \w+ on \w\d",
    r"there is nothing on \w\d to take",
    r"en passant is allowed only at once, in the move after the pawn's double step",
    r"the king would stand in check from .+",
    r"the king is in check from .+, and this move does not answer (it|both)",
    r"the \w+ on \w\d is pinned to the king by the \w+ on \w\d",
    r"taking en passant would leave the king in check from .+",
    r"castling (out of|through|into) check is not allowed: \w\d is attacked by .+",
    r"(White|Black) is no longer allowed to castle (king|queen)side: .+",
    r"the \w+ on \w\d stands between king and rook",
]
ONE_KIND = re.compile("|".join(f"(?:{kind})" for kind in KINDS))


def assert_judged_as_the_other_library_does(board: chess.Board) -> None:
    """Every one of the 64 x 64 tries; every reason is a known one and true."""
    legal, unclear, tries = set(), set(), 0
    pinned, checkers = cozy_pinned(board), cozy_checkers(board)
    for origin in chess.SQUARES:
        for target in chess.SQUARES:
            tries += 1
            judged = judge_move(board, origin, target)
            uci = chess.square_name(origin) + chess.square_name(target)
            match judged:
                case LegalMove(move, san):
                    assert move.uci() == uci
                    assert san == board.san(move)
                    legal.add(uci)
                case Unclear():
                    unclear.update(uci + piece for piece in "bnqr")
                case Illegal(reason):
                    assert ONE_KIND.fullmatch(reason)
                    assert_true(board, uci, reason, pinned, checkers)
    assert tries == 4096
    assert legal | unclear == cozy_moves(board)


def assert_true(
    board: chess.Board, uci: str, reason: str, pinned: set[str], checkers: set[str]
) -> None:
    """Pins and checks as the other library sees them; no square that the try does not touch."""
    if "is pinned to" in reason:
        assert uci[:2] in pinned
    if "does not answer" in reason:
        assert set(re.findall(r"on (\w\d)", reason)) == checkers
    if not reason.startswith(("castling", "White is no", "Black is no")):
        for square in re.findall(r"\b[a-h][1-8]\b", reason):
            assert square in (uci[:2], uci[2:]) or board.piece_at(chess.parse_square(square))


# Agrees with cozy-chess-py 0.1.1, run live.
@pytest.mark.parametrize("fen", PERFT.values(), ids=PERFT)
def test_the_perft_positions_agree_with_the_other_library(fen: str) -> None:
    assert_judged_as_the_other_library_does(chess.Board(fen))


# Agrees with cozy-chess-py 0.1.1, run live.
@given(played_boards())
@settings(max_examples=60)
def test_random_positions_agree_with_the_other_library(board: chess.Board) -> None:
    assert_judged_as_the_other_library_does(board)


def judged_legal(board: chess.Board, origins: chess.SquareSet) -> Iterator[chess.Move]:
    """Every legal move from these squares, found by trying all 64 targets."""
    for origin in origins:
        for target in chess.SQUARES:
            judged = judge_move(board, origin, target)
            if isinstance(judged, LegalMove):
                yield judged.move
            elif isinstance(judged, Unclear):
                for piece in (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT):
                    promoted = judge_move(board, origin, target, piece)
                    assert isinstance(promoted, LegalMove)
                    yield promoted.move
            else:
                assert judged.reason


def count_by_judging(board: chess.Board, depth: int) -> int:
    """Nodes at a depth. Only squares of the mover are tried as origins, to save time."""
    own = chess.SquareSet(board.occupied_co[board.turn])
    total = 0
    for move in judged_legal(board, own):
        if depth == 1:
            total += 1
            continue
        board.push(move)
        total += count_by_judging(board, depth - 1)
        board.pop()
    return total


# Source: Chess Programming Wiki, "Perft Results".
@pytest.mark.parametrize(
    ("position", "depth", "nodes"),
    [("1", 2, 400), ("2", 3, 97862), ("3", 3, 2812), ("4", 2, 264), ("5", 2, 1486), ("6", 2, 2079)],
)
def test_walking_by_judgement_counts_every_node(position: str, depth: int, nodes: int) -> None:
    assert count_by_judging(chess.Board(PERFT[position]), depth) == nodes


def test_a_pawn_to_the_last_rank_lacks_its_piece() -> None:
    board = chess.Board("1n2k3/P7/8/8/8/8/8/4K3 w - - 0 1")
    wanted = Unclear("say what the pawn becomes: a bishop, a knight, a queen or a rook")
    assert judge_move(board, chess.A7, chess.A8) == wanted
    assert judge_move(board, chess.A7, chess.B8) == wanted
    assert judge_move(board, chess.A7, chess.B8, chess.ROOK) == LegalMove(
        chess.Move(chess.A7, chess.B8, chess.ROOK), "axb8=R+"
    )


def test_a_missing_promotion_is_the_last_thing_said() -> None:
    free = chess.Board("4k3/P7/8/8/8/8/8/4K3 w - - 0 1")
    blocked = chess.Board("n3k3/P7/8/8/8/8/8/4K3 w - - 0 1")
    assert "becomes" in why_illegal(free, chess.Move(chess.A7, chess.A8))
    assert "in the way" in why_illegal(blocked, chess.Move(chess.A7, chess.A8))


@pytest.mark.parametrize("uci", ["e2e4", "g1f3"])
def test_a_legal_move_has_no_reason(uci: str) -> None:
    with pytest.raises(ValueError, match="is legal"):
        why_illegal(chess.Board(), chess.Move.from_uci(uci))


def test_judging_leaves_the_board_alone() -> None:
    board = chess.Board(PERFT["2"])
    for target in chess.SQUARES:
        judge_move(board, chess.E1, target)
        judge_move(board, chess.D5, target)
    assert board.fen() == PERFT["2"]
    assert not board.move_stack
