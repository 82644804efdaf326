"""The records of a sitting: what it asks, what happened so far, where it stands.

All are immutable values; `step` alone makes the next from the last.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, auto
from functools import cached_property

import chess

from trainer.lines.graph import BookMove, BookPosition, LineGraph
from trainer.lines.letters import ENGLISH, PieceLetters
from trainer.lines.movetext import read_movetext
from trainer.lines.position import full_fen
from trainer.memory.quality import HESITATION_SECONDS
from trainer.memory.sm2 import PASSED
from trainer.sitting.verdict import MISSES, Verdict


@dataclass(frozen=True, slots=True)
class Rules:
    """What the student's settings change in a sitting."""

    hesitation: float = HESITATION_SECONDS
    """Seconds within which an answer earns a 5."""
    first_look: bool = True
    """Show a fresh card before it is asked for the first time."""
    letters: PieceLetters = ENGLISH
    """The piece letters that typed moves are read with, before the English ones."""


@dataclass(frozen=True)
class Card:
    """A card in the name of one deck and chapter, ready to be asked."""

    key: str
    """Position key and the deck's move in UCI."""
    deck: str
    deck_title: str
    edition: int
    chapter: str
    chapter_title: str
    side: str
    """`white` or `black`: the student's."""
    line: str
    """Movetext that leads to the position."""
    start: str
    """Six FEN fields of the position in which the line starts."""
    introduction: str
    """What the game that brings this card says before its first move; mostly empty."""
    position: BookPosition
    other_decks: Mapping[str, str]
    """Moves (UCI) that other added decks play here, with the decks' titles."""

    @property
    def move(self) -> BookMove:
        """The deck's move."""
        move = self.position.deck_move
        if move is None:
            raise ValueError(f"no card asks for a move in {self.position.key}")
        return move

    @cached_property
    def path(self) -> tuple[chess.Move, ...]:
        """The moves of the line."""
        return tuple(read_movetext(self.line, chess.Board(self.start)))

    @cached_property
    def fen(self) -> str:
        """Six FEN fields of the position asked."""
        board = chess.Board(self.start)
        for move in self.path:
            board.push(move)
        return full_fen(board)

    @property
    def board(self) -> chess.Board:
        """A new board with the position asked."""
        return chess.Board(self.fen)

    @property
    def last_move(self) -> tuple[chess.Board, chess.Move] | None:
        """The opponent's last move, with the board it was made on; None where the line begins."""
        if not self.path:
            return None
        board = chess.Board(self.start)
        for move in self.path[:-1]:
            board.push(move)
        return board, self.path[-1]


@dataclass(frozen=True, slots=True)
class Try:
    """One try that the deck judged."""

    san: str
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Prompt:
    """One asking of one card, as far as it has come."""

    card: Card
    fresh: bool
    """The card was never answered before."""
    repeat: bool
    """Asked again because an answer of today scored below 4."""
    tries: tuple[Try, ...] = ()
    hint: bool = False
    shown: bool = False
    seconds: float = 0.0
    """Time spent on it so far, since it was asked."""
    looked: float = 0.0
    """Seconds of the first look that went before."""
    hesitated: float | None = None
    """Seconds to the first try that counted; None before it."""

    @property
    def misses(self) -> int:
        """How many tries were wrong."""
        return sum(1 for attempt in self.tries if attempt.verdict in MISSES)

    def has_tried(self, verdict: Verdict) -> bool:
        """Whether some try had this verdict."""
        return any(attempt.verdict is verdict for attempt in self.tries)


@dataclass(frozen=True, slots=True)
class Waiting:
    """A card whose answer was shown, kept back until other prompts lie between."""

    prompt: Prompt
    shown_after: int
    """How many prompts the sitting had counted when the answer was shown."""


@dataclass(frozen=True, slots=True)
class Answered:
    """A graded prompt of this sitting."""

    id: str
    """The answer's id in the log."""
    prompt: Prompt
    quality: int


DEFAULT_RULES = Rules()


class Phase(Enum):
    """What the sitting waits for."""

    BEGINNING = auto()
    LOOKING = auto()
    """The student looks at a fresh card; `GoOn` continues."""
    ASKING = auto()
    """A move, a request for help, undo or stop."""
    RECORDING = auto()
    """The service is writing the answer."""
    WITHDRAWING = auto()
    """The service is taking the last answer back."""
    ANSWERED = auto()
    """Graded; `GoOn` asks the next card."""
    ENDED = auto()


@dataclass(frozen=True)
class Sitting:
    """One sitting: a value, changed only by `step`."""

    books: Mapping[tuple[str, str], LineGraph]
    """The lines by deck id and side."""
    ahead: tuple[Prompt, ...]
    """What is still to be asked, in travel order; owed repeats first."""
    rules: Rules = DEFAULT_RULES
    waiting: tuple[Waiting, ...] = ()
    """Cards kept back, the longest waiting first."""
    interrupted: tuple[Prompt, ...] = ()
    """Prompts that an undo pushed aside; the last comes back first."""
    current: Prompt | None = None
    phase: Phase = Phase.BEGINNING
    prompts: int = 0
    """Prompts and looks so far."""
    answered: tuple[Answered, ...] = ()
    seconds: float = 0.0
    """Time spent so far, all phases together."""

    @property
    def left(self) -> int:
        """Prompts still to come, the current one not counted."""
        return len(self.ahead) + len(self.waiting) + len(self.interrupted)

    @property
    def looks(self) -> tuple[int, int]:
        """Which first look the present one is, and how many there are with those to come."""
        now = 1 + sum(1 for waiting in self.waiting if waiting.prompt.fresh)
        return now, now + sum(1 for prompt in self.ahead if prompt.fresh)

    @property
    def right(self) -> int:
        """Answers of quality 3 or more: in book at the first try."""
        return sum(1 for answer in self.answered if answer.quality >= PASSED)
