"""A position read out in words: whole, or one square, rank or file of it.

For people who do not see a board, on any face. It knows positions and no cards.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from trainer.lines.in_words import colour_name, move_in_words

PIECES = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)
"""The order in which a side's pieces are read out."""

_QUESTION = re.compile(r"([a-h])?([1-8])?\?")


def read_position(
    board: chess.Board, last: tuple[chess.Board, chess.Move] | None = None
) -> list[str]:
    """Who is to move, the last move, check, then both sides by piece.

    :param last: the move that led here, with the board it was made on.
    """
    lines = [f"{colour_name(board.turn)} to move."]
    if last is not None:
        before, move = last
        lines.append(f"Last move: {colour_name(before.turn)}, {move_in_words(before, move)}.")
    if board.is_check():
        lines.append(f"{colour_name(board.turn)} is in check.")
    return [*lines, _side(board, chess.WHITE), _side(board, chess.BLACK)]


def read_part(board: chess.Board, question: str) -> list[str] | None:
    """The answer to `e4?`, `4?` or `e?`; None where the text is no such question."""
    found = _QUESTION.fullmatch(question)
    if found is None or not any(found.groups()):
        return None
    file, rank = found.groups()
    if file and rank:
        return [_square(board, chess.parse_square(file + rank))]
    files, ranks = file or "abcdefgh", rank or "12345678"
    squares = [chess.parse_square(f + r) for f in files for r in ranks]
    name = f"the {file}-file" if file else f"rank {rank}"
    standing = [_square(board, square) for square in squares if board.piece_at(square)]
    return standing or [f"Nothing stands on {name}."]


def _side(board: chess.Board, colour: chess.Color) -> str:
    return f"{colour_name(colour)}: {', '.join(_kinds(board, colour))}."


def _kinds(board: chess.Board, colour: chess.Color) -> Iterator[str]:
    for kind in PIECES:
        squares = sorted(chess.square_name(square) for square in board.pieces(kind, colour))
        if squares:
            name = chess.piece_name(kind)
            yield f"{name}{'s' if len(squares) > 1 else ''} {' '.join(squares)}"


def _square(board: chess.Board, square: chess.Square) -> str:
    piece = board.piece_at(square)
    if piece is None:
        return f"{chess.square_name(square)}: empty."
    colour = colour_name(piece.color).lower()
    return f"{chess.square_name(square)}: {colour} {chess.piece_name(piece.piece_type)}."
