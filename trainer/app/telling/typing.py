"""What a text typed into the box is, before it is sent: a word, a question or a move."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

import chess

from trainer.lines.in_words import move_in_words
from trainer.lines.legality import PROMOTION_WANTED
from trainer.lines.letters import PieceLetters
from trainer.lines.reading import LegalMove, Unclear
from trainer.lines.typed import read_move
from trainer.sitting.events import Event, HintWanted, ShowWanted, Stop, UndoWanted


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
