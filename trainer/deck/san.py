"""Moves of deck files: standard notation to the letter, each read once in each position.

Stricter than typed moves on purpose: what a coach mistypes here, a class would learn. Of
the import format (PGN standard, 8.2.3) it takes the leniencies that change no meaning:
missing or wrong check signs, a missing capture sign, more origin than needed, the pawn's
P, a promotion without `=`, castling with zeros.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import chess

from trainer.deck.limits import POSITIONS
from trainer.lines.position import Position, PositionPool
from trainer.lines.reading import Illegal, LegalMove, Unclear
from trainer.lines.typed import printable, read_move

_SAN = re.compile(
    r"""(?:
      P?(?:(?P<pawn_file>[a-h])x?)?(?P<pawn_to>[a-h][1-8])(?:=?(?P<promotion>[NBRQ]))?
    | (?P<piece>[NBRQK])(?P<file>[a-h])?(?P<rank>[1-8])?(?P<takes>x)?(?P<to>[a-h][1-8])
    | (?P<castling>O-O(?:-O)?|0-0(?:-0)?)
    )[+\#]?""",
    re.VERBOSE,
)

_PIECES = {"N": chess.KNIGHT, "B": chess.BISHOP, "R": chess.ROOK, "Q": chess.QUEEN, "K": chess.KING}
_SQUARES = dict(zip(chess.SQUARE_NAMES, chess.BB_SQUARES, strict=True))
_FILES = dict(zip(chess.FILE_NAMES, chess.BB_FILES, strict=True))
_RANKS = dict(zip(chess.RANK_NAMES, chess.BB_RANKS, strict=True))

_NULL_MOVES = frozenset({"--", "Z0", "0000", "@@@@"})


class ReadMove(NamedTuple):
    """A move read in a position."""

    move: chess.Move
    san: str
    """As the PGN standard writes it on export."""
    after: Position


class TooManyPositions(Exception):
    """The deck has more positions than `limits.POSITIONS`."""


class BadMove(Exception):
    """The text is no move that a deck may have here."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message


class SanReader:
    """Reads moves; the board works only for pairs of position and text not met before."""

    def __init__(self, pool: PositionPool) -> None:
        self._pool = pool
        self._known: dict[tuple[Position, str], ReadMove] = {}

    def read(self, here: Position, text: str) -> ReadMove:
        """The move that the text means in this position.

        :raises BadMove: it means none, or not for sure.
        """
        known = self._known.get((here, text))
        if known is None:
            known = self._known[here, text] = self._read_new(here, text)
        return known

    def _read_new(self, here: Position, text: str) -> ReadMove:
        board = here.board
        written = _SAN.fullmatch(text)
        if not written:
            raise _bad_move(board, text, is_san=False)
        if written["castling"]:
            move, stem = _castling(board, kingside=len(written["castling"]) == 3), ""
        elif written["piece"]:
            move, stem = _piece_move(board, *written.group("piece", "file", "rank", "takes", "to"))
        else:
            move, stem = _pawn_move(board, *written.group("pawn_file", "pawn_to", "promotion"))
        if move is None:
            raise _bad_move(board, text, is_san=True)
        if len(self._pool) >= POSITIONS:
            raise TooManyPositions
        after = self._pool.after(here, move)
        san = stem + _check_sign(after.board) if stem else board.san(move)
        return ReadMove(move, san, after)


def _castling(board: chess.Board, kingside: bool) -> chess.Move | None:
    moves = board.generate_castling_moves()
    return next((move for move in moves if board.is_kingside_castling(move) == kingside), None)


def _piece_move(
    board: chess.Board, piece: str, file: str | None, rank: str | None, takes: str | None, to: str
) -> tuple[chess.Move | None, str]:
    """The move, and how it is written without check sign (empty: only a search can tell)."""
    origins = board.pieces_mask(_PIECES[piece], board.turn)
    if file:
        origins &= _FILES[file]
    if rank:
        origins &= _RANKS[rank]
    move = _only_move(board, origins, to, None)
    captures = move is not None and board.is_capture(move)
    if takes and not captures:
        return None, ""
    return move, "" if file or rank else f"{piece}x{to}" if captures else piece + to


def _pawn_move(
    board: chess.Board, file: str | None, to: str, promotion: str | None
) -> tuple[chess.Move | None, str]:
    if file == to[0]:
        return None, ""
    origins = board.pieces_mask(chess.PAWN, board.turn) & _FILES[file or to[0]]
    move = _only_move(board, origins, to, _PIECES[promotion] if promotion else None)
    stem = f"{file}x{to}" if file else to
    return move, f"{stem}={promotion}" if promotion else stem


def _only_move(
    board: chess.Board, origins: chess.Bitboard, to: str, promotion: chess.PieceType | None
) -> chess.Move | None:
    """The one legal move there is; None where there is none or more than one."""
    # Not onto own pieces: `chess` takes a king's move onto its rook for castling.
    target = _SQUARES[to] & ~board.occupied_co[board.turn]
    moves = [
        move for move in board.generate_legal_moves(origins, target) if move.promotion == promotion
    ]
    return moves[0] if len(moves) == 1 else None


def _check_sign(board: chess.Board) -> str:
    if not board.is_check():
        return ""
    return "+" if any(board.generate_legal_moves()) else "#"


def _bad_move(board: chess.Board, text: str, is_san: bool) -> BadMove:
    shown = printable(text)
    if text in _NULL_MOVES:
        return BadMove(
            "null-move", f"{shown} is a null move; a deck has only moves that are played"
        )
    reading = read_move(board, text)
    if isinstance(reading, LegalMove):
        return BadMove("unreadable-move", f"{shown} is not how PGN writes it; write {reading.san}")
    if isinstance(reading, Unclear):
        return BadMove("ambiguous-move", f"{shown} is not clear: {reading.reason}")
    if isinstance(reading, Illegal) and is_san:
        return BadMove("illegal-move", f"{shown} is not legal here: {reading.reason}")
    message = (
        f"{shown} is no move in standard notation; write it like Nf3, exd5, e8=Q or O-O,"
        " with the piece letters K, Q, R, B and N"
    )
    return BadMove("unreadable-move", message)
