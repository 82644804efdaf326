"""A position read out in words: whole, by piece, or one square, rank or file of it; and
the line that led there, move by move.

For people who do not see a board, on any face. It knows positions and no cards, and reads
out what stands or was played, never what could be played.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from trainer.lines.in_words import colour_name, move_in_words

PIECES = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)
"""The order in which a side's pieces are read out."""

_QUESTION = re.compile(r"([a-h])?([1-8])?\?")
_BY_PIECE = {f"{chess.piece_name(kind)}{ending}": kind for kind in PIECES for ending in ("?", "s?")}


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
    """The answer to `e4?`, `4?`, `e?`, `knights?` or `queen?`.

    None where the text is no such question.
    """
    if kind := _BY_PIECE.get(question):
        return [_side(board, colour, (kind,)) for colour in (chess.WHITE, chess.BLACK)]
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


def read_line(start: chess.Board, moves: Iterable[chess.Move]) -> list[str]:
    """The moves in words, a move number a sentence line; none for no moves.

    `Move 2. White: knight b1 to c3. Black: knight g8 to f6.`
    """
    board = start.copy(stack=False)
    lines: list[str] = []
    for move in moves:
        told = f"{colour_name(board.turn)}: {move_spoken(board, move)}."
        if board.turn == chess.WHITE or not lines:
            lines.append(f"Move {board.fullmove_number}. {told}")
        else:
            lines[-1] += f" {told}"
        board.push(move)
    return lines


def move_spoken(board: chess.Board, move: chess.Move) -> str:
    """A legal move in words that say what SAN's last sign shows: `queen d1 to h5, check`."""
    told = move_in_words(board, move)
    after = board.copy(stack=False)
    after.push(move)
    if after.is_checkmate():
        return f"{told}, checkmate"
    return f"{told}, check" if after.is_check() else told


def _side(
    board: chess.Board, colour: chess.Color, kinds: tuple[chess.PieceType, ...] = PIECES
) -> str:
    """`White: king e1, rooks a1 h1.`"""
    standing = ", ".join(_kinds(board, colour, kinds))
    return f"{colour_name(colour)}: {standing or f'no {chess.piece_name(kinds[0])}'}."


def _kinds(
    board: chess.Board, colour: chess.Color, kinds: tuple[chess.PieceType, ...]
) -> Iterator[str]:
    for kind in kinds:
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
