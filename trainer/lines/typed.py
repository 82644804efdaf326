"""What a typed move means in a position: one legal move, or why it is none.

One rule stands above every tolerance: a text that could mean two legal moves is never
guessed. Text that is standard SAN or UCI to the letter means what the standard says
(`bxc3` is the pawn); only then are small piece letters and missing signs considered.
A wrong `+` or `#` is ignored, a capture sign with nothing to take is not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import chess

from trainer.lines.castling_reasons import castled_king, king_home, why_no_castling
from trainer.lines.in_words import pieces_on
from trainer.lines.legality import PROMOTION_WANTED, judge_move
from trainer.lines.letters import ENGLISH, PieceLetters
from trainer.lines.misfits import why_nothing_fits
from trainer.lines.notation import LONGEST, Castling, Shape, take_apart
from trainer.lines.reading import Illegal, LegalMove, Reading, Unclear, Unreadable

__all__ = ["Illegal", "LegalMove", "Reading", "Unclear", "Unreadable", "printable", "read_move"]


def read_move(board: chess.Board, text: str, letters: PieceLetters = ENGLISH) -> Reading:
    """Read one move of the side to move, in the reader's piece letters or the English."""
    written = take_apart(text, letters)
    if isinstance(written, Castling):
        return _castle(board, written.kingside)
    if not written:
        return Unreadable(_what_was_expected(text, letters))
    moves = _fitting(board, [shape for shape in written if shape.standard])
    if len(moves) != 1:
        moves = _fitting(board, written)
    if not moves:
        return Illegal(why_nothing_fits(board, written))
    if len(moves) > 1:
        return Unclear(_what_is_missing(board, moves))
    move = moves.pop()
    return LegalMove(move, board.san(move))


def printable(text: str) -> str:
    """The beginning of a text, fit to be shown: no control or direction signs."""
    shown = "".join(sign for sign in text.strip()[: 4 * LONGEST] if sign.isprintable())
    return shown if len(shown) <= LONGEST else f"{shown[: LONGEST - 1]}…"


def _castle(board: chess.Board, kingside: bool) -> LegalMove | Unclear | Illegal:
    home = king_home(board.turn)
    if board.king(board.turn) != home:
        return Illegal(why_no_castling(board, kingside))
    return judge_move(board, home, castled_king(board.turn, kingside))


def _fitting(board: chess.Board, shapes: Iterable[Shape]) -> set[chess.Move]:
    return {
        move for shape in shapes for move in _legal_moves(board, shape) if _fits(board, move, shape)
    }


def _legal_moves(board: chess.Board, shape: Shape) -> Iterator[chess.Move]:
    """Legal moves between the squares of a shape; castling only from a square named whole."""
    target = chess.BB_SQUARES[shape.to_square] & ~board.occupied_co[board.turn]
    yield from board.generate_legal_moves(shape.origins, target)
    if target and shape.whole_origin is not None:
        castling = chess.Move(shape.whole_origin, shape.to_square)
        if board.is_castling(castling) and board.is_legal(castling):
            yield castling


def _fits(board: chess.Board, move: chess.Move, shape: Shape) -> bool:
    return (
        board.piece_type_at(move.from_square) in shape.pieces
        and (not shape.promotions or move.promotion in shape.promotions)
        and (not shape.takes or board.is_capture(move))
        and (not shape.en_passant or board.is_en_passant(move))
    )


def _what_is_missing(board: chess.Board, moves: set[chess.Move]) -> str:
    origins = {move.from_square for move in moves}
    if len(origins) == 1:
        return PROMOTION_WANTED
    target = chess.square_name(next(iter(moves)).to_square)
    count = "both" if len(origins) == 2 else "all"
    return f"{pieces_on(board, origins)} can {count} go to {target}: add the square it starts from"


def _what_was_expected(text: str, letters: PieceLetters) -> str:
    shown = printable(text)
    given = f'"{shown}"' if shown else "this"
    return f"{given} is no move; a move looks like {letters.letter(chess.KNIGHT)}f3, exd5 or O-O"
