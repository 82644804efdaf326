"""Moves of decks, held to python-chess's own writer of SAN."""

from __future__ import annotations

from random import Random

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.san import BadMove, SanReader
from trainer.lines.position import PositionPool

# Source: Chess Programming Wiki, "Perft Results", positions 1, 2, 4 and 5.
STARTS = (
    chess.STARTING_FEN,
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1",
    "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
)


@given(st.randoms(use_true_random=False), st.sampled_from(STARTS), st.integers(0, 40))
def test_every_legal_move_is_read_and_written_back(random: Random, fen: str, plies: int) -> None:
    board = chess.Board(fen)
    for _ in range(plies):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(random.choice(moves))
    pool = PositionPool()
    reader, here = SanReader(pool), pool.at(board)
    for move in board.legal_moves:
        # Agrees with python-chess 1.11.2, run live.
        san = board.san(move)
        assert reader.read(here, san)[:2] == (move, san)
        assert reader.read(here, san.rstrip("+#"))[:2] == (move, san)
        for other in {san[0] + san[2:], san.replace("x", ""), f"P{san}"}:
            check_against_parser(reader, pool, board, other)


def check_against_parser(
    reader: SanReader, pool: PositionPool, board: chess.Board, text: str
) -> None:
    """Nothing that is read here means another move to python-chess."""
    try:
        read = reader.read(pool.at(board), text)
    except BadMove:
        return
    assert board.parse_san(text.removeprefix("P")) == read.move


def test_a_pair_is_read_once() -> None:
    pool = PositionPool()
    reader, here = SanReader(pool), pool.at(chess.Board())
    assert reader.read(here, "Nf3") is reader.read(here, "Nf3")
    assert reader.read(here, "Nf3+").after is reader.read(here, "Nf3").after


# Worked by hand: what python-chess takes and a deck must not.
@pytest.mark.parametrize(
    "text", ["--", "Z0", "0000", "@@@@", "e1h1", "Kh1", "Ke1h1", "Ra1", "Nxf3", "e2e4", "Ng1-f3"]
)
def test_refused_though_python_chess_takes_most_of_them(text: str) -> None:
    pool = PositionPool()
    board = chess.Board("4k3/8/8/8/8/8/4P3/4K1NR w K - 0 1")
    if text in ("e1h1", "Kh1", "Ke1h1"):
        board = chess.Board("4k3/8/8/8/8/8/4P3/4K2R w K - 0 1")
    with pytest.raises(BadMove):
        SanReader(pool).read(pool.at(board), text)
