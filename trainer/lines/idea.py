"""A question about a position whose answer is squares, a move, or one of some sentences.

Plain records. The deck reader makes them; how an answer is graded belongs to the sitting.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import Any

import chess

from trainer.lines.movetext import read_movetext
from trainer.lines.position import full_fen

IDEA = "idea "
"""What the key of an idea's card begins with; no position key does."""


class Form(StrEnum):
    """How an idea is answered."""

    SQUARES = "squares"
    """A set of squares, all of them."""
    MOVE = "move"
    CHOOSE = "choose"
    """One of some answers, shown in a new order each time."""


@dataclass(frozen=True, slots=True)
class Idea:
    """One idea of a deck."""

    key: str
    """The key of its card."""
    start: str
    """Six FEN fields of the position in which the line starts."""
    line: str
    """Movetext that leads to the position; empty at the start."""
    side: str
    """`white` or `black`: who sees the board from below."""
    ask: str
    form: Form
    squares: tuple[str, ...]
    """The answer in form `squares`, sorted; else empty."""
    move: str
    """The answer in form `move`, as UCI; else empty."""
    choices: tuple[str, ...]
    """In form `choose` the answers as written, the right one first; else empty."""
    why: str
    """The reason, told with the right answer."""
    place: int
    """The number of the idea in its file, from 1."""
    file_line: int | None
    """The line on which it starts; None where that cannot be told."""

    @property
    def board(self) -> chess.Board:
        """A new board with the position asked."""
        board = chess.Board(self.start)
        for move in read_movetext(self.line, board):
            board.push(move)
        return board

    @property
    def fen(self) -> str:
        """Six FEN fields of the position asked."""
        return full_fen(self.board)

    @property
    def answer(self) -> str:
        """What is right in a few words: squares, the move as SAN, or the right sentence."""
        if self.form is Form.MOVE:
            return self.board.san(chess.Move.from_uci(self.move))
        return " ".join(self.squares) if self.form is Form.SQUARES else self.choices[0]


def idea_key(deck: str, given: str, position: str, answer: str) -> str:
    """The identity of an idea's card: its id in its deck, else its position and answer.

    :param given: the id; empty where the coach gave none.
    :param position: a position key.
    :param answer: squares, the move as UCI, or the right sentence.
    """
    return f"{IDEA}{deck} {given}" if given else f"{IDEA}{position} {answer}"


def idea_to_data(idea: Idea) -> dict[str, Any]:
    """The idea as plain values for JSON."""
    return asdict(idea)


def idea_from_data(data: Mapping[str, Any]) -> Idea:
    """The idea that `idea_to_data` wrote."""
    facts = dict(data)
    facts["form"] = Form(facts["form"])
    facts["squares"], facts["choices"] = tuple(facts["squares"]), tuple(facts["choices"])
    return Idea(**facts)
