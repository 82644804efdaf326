"""Why no legal move fits a typed text that can be read as a move.

Looks for the piece that comes closest to what was typed and lets `legality` say what
stops it. Only what the text itself names is spoken of; nothing is suggested.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from trainer.lines.castling_reasons import tries_castling
from trainer.lines.in_words import colour_name, listed
from trainer.lines.legality import moves_so, nothing_to_take, why_illegal, why_not_onto
from trainer.lines.notation import Shape


@dataclass(frozen=True, slots=True)
class _Attempt:
    """One piece that the text can mean, sent to the square it names."""

    shape: Shape
    move: chess.Move
    distance: int
    """0: only the king's safety forbids it; 1: something stands there; 2: no such move."""

    @property
    def order(self) -> tuple[int, bool, str]:
        """Sorts the closest attempt first, then standard spelling, then by square."""
        return self.distance, not self.shape.standard, self.move.uci()


def why_nothing_fits(board: chess.Board, shapes: Sequence[Shape]) -> str:
    """The reason, for the reading of the text that comes closest to a legal move."""
    attempts = [attempt for shape in shapes for attempt in _attempts(board, shape)]
    if not attempts:
        shape = min(shapes, key=lambda shape: not shape.standard)
        return _no_such_piece(board, shape)
    best = min(attempts, key=lambda attempt: attempt.order)
    shape, move = best.shape, best.move
    if shape.whole_origin is None:
        if reason := why_not_onto(board, move):
            return reason
        if tries_castling(board, move):
            return "a king moves one square; castling is written O-O or O-O-O"
        if best.distance == 2 and sum(attempt.shape is shape for attempt in attempts) > 1:
            return _none_can_reach(board, shape)
    return _wrong_capture(board, shape, move) or why_illegal(board, move)


def _attempts(board: chess.Board, shape: Shape) -> Iterator[_Attempt]:
    for origin in chess.scan_forward(shape.origins & board.occupied_co[board.turn]):
        piece = board.piece_at(origin)
        if piece is not None and piece.piece_type in shape.pieces:
            move = chess.Move(origin, shape.to_square, min(shape.promotions, default=None))
            yield _Attempt(shape, move, _distance(board, piece, move))


def _distance(board: chess.Board, piece: chess.Piece, move: chess.Move) -> int:
    if not moves_so(piece, move.from_square, move.to_square):
        return 2
    promotes = piece.piece_type == chess.PAWN and chess.square_rank(move.to_square) in (0, 7)
    promotion = chess.QUEEN if promotes else None
    completed = chess.Move(move.from_square, move.to_square, promotion)
    return 0 if board.is_pseudo_legal(completed) else 1


def _wrong_capture(board: chess.Board, shape: Shape, move: chess.Move) -> str:
    """What is wrong with a capture sign or an `e.p.` that the board gives no ground for."""
    to_empty = board.piece_type_at(move.to_square) is None
    by_pawn = board.piece_type_at(move.from_square) == chess.PAWN
    aside = chess.square_file(move.from_square) != chess.square_file(move.to_square)
    if by_pawn and aside and to_empty:
        return ""
    if shape.en_passant:
        return "this is no capture en passant"
    return nothing_to_take(move.to_square) if shape.takes and to_empty else ""


def _no_such_piece(board: chess.Board, shape: Shape) -> str:
    origin = shape.whole_origin
    if origin is not None and len(shape.pieces) == len(chess.PIECE_TYPES):
        return why_illegal(board, chess.Move(origin, shape.to_square))
    return f"{colour_name(board.turn)} has no {_names(shape)}{_place(shape)}"


def _none_can_reach(board: chess.Board, shape: Shape) -> str:
    target = chess.square_name(shape.to_square)
    colour = colour_name(board.turn)
    return f"{colour} has no {_names(shape)}{_place(shape)} that can reach {target}"


def _names(shape: Shape) -> str:
    return listed(sorted(chess.piece_name(piece) for piece in shape.pieces), "or")


def _place(shape: Shape) -> str:
    """Where the text says that the piece stands."""
    if shape.whole_origin is not None:
        return f" on {chess.square_name(shape.whole_origin)}"
    if shape.origins in chess.BB_FILES:
        return f" on the {chess.FILE_NAMES[chess.BB_FILES.index(shape.origins)]}-file"
    if shape.origins in chess.BB_RANKS:
        return f" on rank {chess.RANK_NAMES[chess.BB_RANKS.index(shape.origins)]}"
    return ""
