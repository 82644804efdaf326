"""Positions for the tests of moves, and what `cozy-chess-py` (Rust) says of them."""

from __future__ import annotations

import chess
import cozy_chess
from hypothesis import strategies as st

# Source: Chess Programming Wiki, "Perft Results", positions 1 to 6.
PERFT = {
    "1": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
    "2": "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "3": "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
    "4": "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1",
    "5": "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
    "6": "r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10",
}


@st.composite
def played_boards(draw: st.DrawFn, longest: int = 40) -> chess.Board:
    """A position reached by random play from one of the perft positions."""
    board = chess.Board(draw(st.sampled_from(list(PERFT.values()))))
    for pick in draw(st.lists(st.integers(0, 255), max_size=longest)):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(moves[pick % len(moves)])
    return board


def cozy_board(board: chess.Board) -> cozy_chess.Board:
    """The same position in the other library."""
    return cozy_chess.Board.from_fen(board.fen(en_passant="legal"))


def cozy_moves(board: chess.Board) -> set[str]:
    """The legal moves in UCI; castling, there king takes rook, as the king's two steps."""
    castling = {"e1h1": "e1g1", "e1a1": "e1c1", "e8h8": "e8g8", "e8a8": "e8c8"}
    other = cozy_board(board)
    kings = {str(other.king(colour)) for colour in (cozy_chess.Color.White, cozy_chess.Color.Black)}
    own = other.colors(other.side_to_move())
    return {
        castling.get(str(move), str(move))
        if str(move.from_square) in kings and move.to_square in own
        else str(move)
        for move in other.generate_moves()
    }


def cozy_pinned(board: chess.Board) -> set[str]:
    """The squares of the mover's pieces that are pinned to the king."""
    other = cozy_board(board)
    return {str(square) for square in other.pinned() & other.colors(other.side_to_move())}


def cozy_checkers(board: chess.Board) -> set[str]:
    """The squares of the pieces that give check."""
    return {str(square) for square in cozy_board(board).checkers()}
