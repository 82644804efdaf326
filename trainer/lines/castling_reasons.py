"""Why a side may not castle, in the words of FIDE's Laws of Chess (2023), article 3.8."""

from __future__ import annotations

import chess

from trainer.lines.in_words import castling_side, colour_name, piece_on, pieces_on


def king_home(colour: chess.Color) -> chess.Square:
    """The square on which the king begins the game."""
    return chess.E1 if colour == chess.WHITE else chess.E8


def castled_king(colour: chess.Color, kingside: bool) -> chess.Square:
    """The square on which the king stands after castling."""
    return king_home(colour) + (2 if kingside else -2)


def tries_castling(board: chess.Board, move: chess.Move) -> bool:
    """Whether the move takes the king from its first square two squares to a side."""
    home = king_home(board.turn)
    return (
        move.from_square == home == board.king(board.turn)
        and move.promotion is None
        and abs(move.to_square - home) == 2
    )


def why_no_castling(board: chess.Board, kingside: bool) -> str:
    """Why the side to move may not castle; empty where it may."""
    return _right_is_lost(board, kingside) or _is_prevented(board, kingside)


def _right_is_lost(board: chess.Board, kingside: bool) -> str:
    """Article 3.8.2.1: the king or that rook has moved."""
    mover, home = board.turn, king_home(board.turn)
    corner = home + (3 if kingside else -4)
    lost = f"{colour_name(mover)} is no longer allowed to castle {castling_side(kingside)}"
    if board.king(mover) != home:
        return f"{lost}: the king has left {chess.square_name(home)}"
    if board.piece_at(corner) != chess.Piece(chess.ROOK, mover):
        return f"{lost}: {colour_name(mover)} has no rook on {chess.square_name(corner)}"
    if not board.clean_castling_rights() & chess.BB_SQUARES[corner]:
        return f"{lost}: the king or the rook on {chess.square_name(corner)} has moved"
    return ""


def _is_prevented(board: chess.Board, kingside: bool) -> str:
    """Article 3.8.2.2: a piece between, or an attacked square on the king's way."""
    home = king_home(board.turn)
    corner = home + (3 if kingside else -4)
    between = chess.SquareSet(chess.between(home, corner) & board.occupied)
    if between:
        nearest = min(between, key=lambda square: abs(square - home))
        return f"{piece_on(board, nearest)} stands between king and rook"
    target = castled_king(board.turn, kingside)
    for square, how in ((home, "out of"), ((home + target) // 2, "through"), (target, "into")):
        attackers = board.attackers(not board.turn, square)
        if attackers:
            return (
                f"castling {how} check is not allowed: {chess.square_name(square)} is "
                f"attacked by {pieces_on(board, attackers)}"
            )
    return ""
