"""What a text typed into the box is, before it is sent: a word, a question or a move."""

from __future__ import annotations

import re
from collections.abc import Callable
from enum import Enum
from functools import partial

import chess

from trainer.app.telling.moment import Wants
from trainer.lines.in_words import move_in_words
from trainer.lines.legality import PROMOTION_WANTED
from trainer.lines.letters import PieceLetters
from trainer.lines.reading import LegalMove, Unclear
from trainer.lines.typed import read_move
from trainer.service.words import counted
from trainer.sitting.events import (
    AnswerChosen,
    Event,
    HintWanted,
    MoveTyped,
    ShowWanted,
    SquaresChosen,
    Stop,
    UndoWanted,
)


class Word(Enum):
    """Words that work in the box as they do in the plain face."""

    HINT = "hint"
    SHOW = "show"
    UNDO = "undo"
    BOARD = "board"
    FACTS = "facts"
    STOP = "stop"
    QUIT = "quit"
    HELP = "help"


WISHES: dict[Word, Callable[[float], Event]] = {
    Word.HINT: HintWanted,
    Word.SHOW: ShowWanted,
    Word.UNDO: UndoWanted,
    Word.STOP: Stop,
    Word.QUIT: Stop,
}
"""The words that the sitting itself answers; the screen answers the others."""


def read_word(text: str) -> Word | None:
    """The word that a text is, if it is one."""
    try:
        return Word(text.strip().lower())
    except ValueError:
        return None


def read_back(board: chess.Board, text: str, letters: PieceLetters) -> str:
    """`bishop c8 to f5` once the text means exactly one legal move, else what is unclear.

    Nothing is said of a text that means no legal move: it may not be finished.
    """
    if not text.strip():
        return ""
    read = read_move(board, text, letters)
    if isinstance(read, LegalMove):
        return move_in_words(board, read.move)
    if not isinstance(read, Unclear):
        return ""
    return "what does it become?" if read.reason == PROMOTION_WANTED else "more than one move fits"


# --- Answers that are no moves

_SQUARES = re.compile(r"(?:[a-h][1-8][\s,]*)+", re.IGNORECASE)
_SQUARE = re.compile(r"[a-h][1-8]", re.IGNORECASE)


def typed_answer(wants: Wants, text: str) -> Callable[[float], Event]:
    """What a text is sent as; the sitting says what it missed in one of another form."""
    if wants is Wants.SQUARES and _SQUARES.fullmatch(text):
        return partial(SquaresChosen, squares_in(text))
    if wants is Wants.NUMBER and text.isascii() and text.isdigit() and len(text) <= 3:
        return partial(AnswerChosen, int(text))
    return partial(MoveTyped, text)


def squares_in(text: str) -> tuple[str, ...]:
    """The squares of a text, each once, as they come; none where it is something else."""
    if _SQUARES.match(text) is None:
        return ()
    return tuple(dict.fromkeys(name.lower() for name in _SQUARE.findall(text)))


def toggled(text: str, square: str) -> str:
    """The squares of a text with one more, or without it."""
    squares = squares_in(text)
    left = tuple(name for name in squares if name != square)
    return " ".join(left if square in squares else (*squares, square))


def squares_read_back(text: str) -> str:
    """`2 squares`."""
    squares = squares_in(text)
    return counted(len(squares), "square") if squares else ""
