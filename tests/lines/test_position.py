"""Which positions are the same, and which FENs are positions."""

from __future__ import annotations

import chess
import cozy_chess
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from second_opinion import played_boards

from trainer.lines.position import (
    START_KEY,
    BadPosition,
    Position,
    PositionPool,
    board_from_fen,
    full_fen,
    identity,
    position_key,
)

AFTER_E4 = "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq"

# Source: FIDE Laws of Chess (2023), article 9.2. Worked by hand.
PAIRS = {
    "no pawn can take": (f"{AFTER_E4} e3 0 1", f"{AFTER_E4} - 0 1", True),
    "a pawn can take": (
        "rnbqkbnr/ppp1pppp/8/8/3pP3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1",
        "rnbqkbnr/ppp1pppp/8/8/3pP3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1",
        False,
    ),
    "taking opens the rank": (
        "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 9",
        "8/8/8/K2pP2r/8/8/8/4k3 w - - 0 9",
        True,
    ),
    "taking opens the file": (
        "4k3/4r3/8/3pP3/8/8/8/4K3 w - d6 0 9",
        "4k3/4r3/8/3pP3/8/8/8/4K3 w - - 0 9",
        True,
    ),
    "a bishop takes nothing en passant": (
        "4k3/8/8/8/6bP/8/8/4K3 b - h3 0 9",
        "4k3/8/8/8/6bP/8/8/4K3 b - - 0 9",
        True,
    ),
    "nothing forbids taking": (
        "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 9",
        "4k3/8/8/3pP3/8/8/8/4K3 w - - 0 9",
        False,
    ),
    "move counters": (
        "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1",
        "4k3/8/8/8/8/8/4P3/4K3 w - - 12 40",
        True,
    ),
    "counters left out": ("4k3/8/8/8/8/8/4P3/4K3 w - -", "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", True),
    "the other side to move": (
        "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1",
        "4k3/8/8/8/8/8/4P3/4K3 b - - 0 1",
        False,
    ),
    "one castling right less": (
        "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1",
        "r3k2r/8/8/8/8/8/8/R3K2R w KQk - 0 1",
        False,
    ),
    "castling rights without rooks": (
        "4k3/8/8/8/8/8/8/4K3 w KQkq - 0 1",
        "4k3/8/8/8/8/8/8/4K3 w - - 0 1",
        True,
    ),
    "castling rights of a king that moved": (
        "r3k2r/8/8/8/8/8/8/R4K1R w KQkq - 0 1",
        "r3k2r/8/8/8/8/8/8/R4K1R w kq - 0 1",
        True,
    ),
    "another piece": (
        "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1",
        "4k3/8/8/8/8/8/4N3/4K3 w - - 0 1",
        False,
    ),
    "a piece of the other colour": (
        "4k3/8/8/8/8/4N3/8/4K3 w - - 0 1",
        "4k3/8/8/8/8/4n3/8/4K3 w - - 0 1",
        False,
    ),
}


@pytest.mark.parametrize(("one", "other", "same"), PAIRS.values(), ids=PAIRS)
def test_the_same_position(one: str, other: str, same: bool) -> None:
    first, second = board_from_fen(one), board_from_fen(other)
    assert (position_key(first) == position_key(second)) is same
    assert (identity(first) == identity(second)) is same
    pool = PositionPool()
    assert (pool.at(first) is pool.at(second)) is same
    assert len(pool) == (1 if same else 2)


def played(*sans: str) -> chess.Board:
    board = chess.Board()
    for san in sans:
        board.push_san(san)
    return board


# Worked by hand: the last double step differs, the position does not.
def test_two_move_orders_meet() -> None:
    one, other = played("e4", "c5", "Nf3", "e6"), played("e4", "e6", "Nf3", "c5")
    assert one.fen(en_passant="fen") != other.fen(en_passant="fen")
    assert position_key(one) == position_key(other)
    assert identity(one) == identity(other)


def varied(board: chess.Board, change: str) -> chess.Board:
    """The same squares and mover with one other fact changed."""
    other = board.copy(stack=False)
    if change == "en passant":
        other.ep_square = None
    elif change == "castling":
        other.castling_rights &= other.castling_rights - 1
    elif change == "counters":
        other.halfmove_clock, other.fullmove_number = 7, 31
    elif change == "two moves later":
        for _ in range(2):
            moves = list(other.legal_moves)
            if moves:
                other.push(moves[0])
    return other


def a_piece_stands_beside_the_passed_pawn(board: chess.Board) -> bool:
    """Where cozy-chess-py is wrong: it takes any piece there for one that takes en passant."""
    if board.ep_square is None:
        return False
    rank = chess.BB_RANKS[4 if board.turn == chess.WHITE else 3]
    beside = chess.BB_KING_ATTACKS[board.ep_square] & rank
    return bool(beside & board.occupied_co[board.turn] & ~board.pawns)


# Agrees with cozy-chess-py 0.1.1 `Board.same_position`, run live.
@given(
    played_boards(),
    st.sampled_from(["en passant", "castling", "counters", "two moves later"]),
)
@settings(max_examples=300)
def test_sameness_agrees_with_the_other_library(board: chess.Board, change: str) -> None:
    other = varied(board, change)
    assume(not any(map(a_piece_stands_beside_the_passed_pawn, (board, other))))
    same = cozy_chess.Board.from_fen(board.fen(en_passant="fen")).same_position(
        cozy_chess.Board.from_fen(other.fen(en_passant="fen"))
    )
    assert (position_key(board) == position_key(other)) is same
    assert (identity(board) == identity(other)) is same


@given(played_boards())
def test_a_key_is_the_beginning_of_its_fen_and_reads_back(board: chess.Board) -> None:
    key, fen = position_key(board), full_fen(board)
    assert fen.split() == [*key.split(), str(board.halfmove_clock), str(board.fullmove_number)]
    assert position_key(board_from_fen(fen)) == key
    assert identity(board_from_fen(key)) == identity(board)


def test_the_start_has_its_key() -> None:
    assert position_key(chess.Board()) == START_KEY


BAD_FENS = {
    "nothing": ("", "four to six fields, this one has 0"),
    "three fields": ("4k3/8/8/8/8/8/8/4K3 w -", "four to six fields, this one has 3"),
    "seven fields": ("4k3/8/8/8/8/8/8/4K3 w - - 0 1 x", "four to six fields, this one has 7"),
    "seven ranks": ("4k3/8/8/8/8/8/4K3 w - - 0 1", "rows"),
    "nine files": ("4k4/8/8/8/8/8/8/4K3 w - - 0 1", "column"),
    "no such mover": ("4k3/8/8/8/8/8/8/4K3 x - - 0 1", "turn"),
    "castling in disorder": ("r3k2r/8/8/8/8/8/8/R3K2R w qkQK - 0 1", "castling"),
    "full-width digits": ("4k3/8/8/8/8/8/8/4K3 w - - 0 １", "plain ASCII"),
    "no kings": ("8/8/8/8/8/8/8/8 w - - 0 1", "White has no king"),
    "no black king": ("8/8/8/8/8/8/8/4K3 w - - 0 1", "Black has no king"),
    "two kings": ("4k3/8/8/8/8/8/8/K3K3 w - - 0 1", "more than one king"),
    "nine pawns": ("4k3/8/8/8/8/P7/PPPPPPPP/4K3 w - - 0 1", "White has more than eight pawns"),
    "a pawn on the first rank": ("4k3/8/8/8/8/8/8/P3K3 w - - 0 1", "first or the last rank"),
    "the wrong side in check": ("4k3/8/8/8/8/8/8/K3R3 w - - 0 1", "not to move stands in check"),
    "three checks": ("4k3/4R3/3N1N2/8/8/8/8/K7 b - - 0 1", "checks at once"),
}


@pytest.mark.parametrize(("fen", "reason"), BAD_FENS.values(), ids=BAD_FENS)
def test_a_bad_fen_is_refused_with_its_reason(fen: str, reason: str) -> None:
    with pytest.raises(BadPosition, match=reason):
        board_from_fen(fen)


def test_castling_rights_are_cleaned() -> None:
    board = board_from_fen("r3k2r/8/8/8/8/8/8/R4K1R w KQkq - 0 1")
    assert full_fen(board).split()[2] == "kq"
    assert not board.chess960


# Source: FEN in the PGN standard, 16.1.3.4: the square behind a pawn that has just come.
@pytest.mark.parametrize(
    "fen",
    [
        "8/8/8/4P3/8/8/8/K6k w - d6 0 1",
        "8/3p4/8/3pP3/8/8/8/K6k w - d6 0 1",
    ],
)
def test_an_en_passant_square_without_its_pawn_is_dropped(fen: str) -> None:
    board = board_from_fen(fen)
    assert position_key(board).split()[3] == "-"
    assert chess.Move.from_uci("e5d6") not in board.legal_moves


# Worked by hand: with d7-d5 just played no bishop on a5 can have given check before.
def test_an_en_passant_square_that_the_check_contradicts_is_dropped() -> None:
    board = board_from_fen("4k3/8/8/b2pP3/8/8/8/4K3 w - d6 0 9")
    assert position_key(board) == "4k3/8/8/b2pP3/8/8/8/4K3 w - -"


@given(st.lists(st.integers(0, 255), max_size=30))
def test_a_pool_follows_moves_as_the_board_does(picks: list[int]) -> None:
    pool, board = PositionPool(), chess.Board()
    position = pool.at(board)
    seen = {position.key: position}
    for pick in picks:
        moves = list(board.legal_moves)
        if not moves:
            break
        move = moves[pick % len(moves)]
        board.push(move)
        position = pool.after(position, move)
        assert position.key == position_key(board)
        assert position.turn == board.turn
        assert seen.setdefault(position.key, position) is position
        assert pool.at(board) is position
    assert len(pool) == len(seen)
    assert {held.key for held in pool} == set(seen)


def test_a_pool_keeps_no_board_that_is_changed_later() -> None:
    pool, board = PositionPool(), chess.Board()
    start = pool.at(board)
    board.push_san("e4")
    assert start.board.fen() == chess.STARTING_FEN
    assert pool.at(board) is not start


def test_positions_are_compared_by_identity() -> None:
    assert Position(chess.Board()) != Position(chess.Board())


@pytest.mark.parametrize(("number", "sound"), [(1, True), (9000, True), (9001, False)])
def test_a_move_number_is_one_that_a_game_can_reach(number: int, sound: bool) -> None:
    fen = f"4k3/8/8/8/8/8/8/4K2R w K - 0 {number}"
    if sound:
        assert board_from_fen(fen).fullmove_number == number
    else:
        with pytest.raises(BadPosition, match="from 1 to 9000"):
            board_from_fen(fen)
