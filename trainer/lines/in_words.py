"""Moves and pieces named in plain words, as a player reads a board out."""

from __future__ import annotations

from collections.abc import Iterable

import chess


def move_in_words(board: chess.Board, move: chess.Move) -> str:
    """A legal move named before it is made: `bishop c8 to f5`, `castles kingside`."""
    if board.is_castling(move):
        return f"castles {castling_side(board.is_kingside_castling(move))}"
    words = [piece_name(board, move.from_square), chess.square_name(move.from_square)]
    words.append("takes on" if board.is_capture(move) else "to")
    words.append(chess.square_name(move.to_square))
    if board.is_en_passant(move):
        words.append("en passant")
    told = " ".join(words)
    if move.promotion is None:
        return told
    return f"{told}, promoting to a {chess.piece_name(move.promotion)}"


def castling_side(kingside: bool) -> str:
    """`kingside` or `queenside`."""
    return "kingside" if kingside else "queenside"


def colour_name(colour: chess.Color) -> str:
    """`White` or `Black`."""
    return "White" if colour == chess.WHITE else "Black"


def piece_name(board: chess.Board, square: chess.Square) -> str:
    """`knight`, or `piece` for an empty square."""
    piece_type = board.piece_type_at(square)
    return "piece" if piece_type is None else chess.piece_name(piece_type)


def piece_on(board: chess.Board, square: chess.Square) -> str:
    """`the knight on c3`."""
    return f"the {piece_name(board, square)} on {chess.square_name(square)}"


def pieces_on(board: chess.Board, squares: Iterable[chess.Square]) -> str:
    """`the rook on a1 and the knight on c3`, in the order of the squares' names."""
    named = sorted(squares, key=chess.square_name)
    return listed([piece_on(board, square) for square in named], "and")


def listed(items: list[str], joint: str) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {joint} {items[-1]}"
