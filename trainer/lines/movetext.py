"""Moves as text: SAN with move numbers and single spaces, as the trainer shows lines.

Writing is exact. Reading is tolerant of spacing and of missing or glued numbers, never
of a wrong move; comments and variations are PGN and belong to its own reader.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

import chess

from trainer.lines.letters import ENGLISH, PieceLetters
from trainer.lines.reading import Illegal, LegalMove, Unclear
from trainer.lines.typed import printable, read_move


class BadLine(ValueError):
    """A text that is no line of moves; one sentence names the move and where it stands."""


def number_before(board: chess.Board) -> str:
    """`4.` or `4...`: what stands before the next move of this board."""
    return f"{board.fullmove_number}{'.' if board.turn == chess.WHITE else '...'}"


def numbered(board: chess.Board, san: str) -> str:
    """One move with its number: `4. Nxe4`, `4... Bf5`."""
    return f"{number_before(board)} {san}"


def movetext(start: chess.Board, moves: Iterable[chess.Move]) -> str:
    """The moves from a starting board: `1. e4 e5 2. Nf3`; empty for no moves.

    :raises ValueError: a move is not legal where it stands.
    """
    board = start.copy(stack=False)
    words: list[str] = []
    for move in moves:
        if move not in board.legal_moves:
            raise ValueError(f"{move.uci()} is not legal after {' '.join(words) or 'no moves'}")
        if board.turn == chess.WHITE or not words:
            words.append(number_before(board))
        words.append(board.san(move))
        board.push(move)
    return " ".join(words)


def read_movetext(
    text: str, start: chess.Board | None = None, letters: PieceLetters = ENGLISH
) -> list[chess.Move]:
    """The moves of a line: `1. e4 e5 2. Nf3`, also `1.e4 e5 2.Nf3` and `e4 e5 Nf3`.

    :param letters: the reader's piece letters; the English ones are read as well.
    :raises BadLine: a move is not legal, not clear or not readable where it stands, a
        number is wrong, or the text has a comment or a variation.
    """
    start = chess.Board() if start is None else start.copy(stack=False)
    board = start.copy(stack=False)
    moves: list[chess.Move] = []
    for word in text.split():
        if bracket := _BRACKETS.search(word):
            raise BadLine(
                f'a line has moves only, no comments or variations; this one has "{bracket[0]}"'
                f"{_where(start, moves)}"
            )
        san = _without_number(word, board, start, moves)
        if san:
            moves.append(_move(san, board, start, moves, letters))
            board.push(moves[-1])
    return moves


_BRACKETS = re.compile(r"[{}();]")
_NUMBER = re.compile(r"(?:(?P<number>[0-9]{1,5})(?=[.…]|$))?(?P<dots>[.…]*)")

_SHOWN = 8
"""A message repeats no more plies than this."""


def _without_number(
    word: str, board: chess.Board, start: chess.Board, moves: list[chess.Move]
) -> str:
    """What follows a move number, which must be the right one; perhaps nothing."""
    found = _NUMBER.match(word)
    if found is None or not found[0]:
        return word
    says_black = found["dots"] in ("...", "…")
    number = found["number"]
    if (number and int(number) != board.fullmove_number) or (says_black and board.turn):
        raise BadLine(
            f"{found[0]} stands where {number_before(board)} belongs{_where(start, moves)}"
        )
    return word[found.end() :]


def _move(
    word: str,
    board: chess.Board,
    start: chess.Board,
    moves: list[chess.Move],
    letters: PieceLetters,
) -> chess.Move:
    read = read_move(board, word, letters)
    if isinstance(read, LegalMove):
        return read.move
    where = _where(start, moves)
    if isinstance(read, Illegal):
        raise BadLine(f"{numbered(board, printable(word))} is not legal{where}: {read.reason}")
    if isinstance(read, Unclear):
        raise BadLine(f"{numbered(board, printable(word))} is not clear{where}: {read.reason}")
    raise BadLine(f"{number_before(board)} cannot be read{where}: {read.reason}")


def _where(start: chess.Board, moves: list[chess.Move]) -> str:
    """` after 1. e4 e5`, of a long line only its end."""
    if not moves:
        return " at the start of the line"
    board = start.copy(stack=False)
    for move in moves[:-_SHOWN]:
        board.push(move)
    shortened = "... " if len(moves) > _SHOWN else ""
    return f" after {shortened}{movetext(board, moves[-_SHOWN:])}"
