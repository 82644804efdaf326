"""The records of a sitting: what it asks, what happened so far, where it stands.

All are immutable values; `step` alone makes the next from the last.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, auto

from trainer.lines.graph import LineGraph
from trainer.lines.letters import ENGLISH, PieceLetters
from trainer.memory.quality import HESITATION_SECONDS
from trainer.memory.sm2 import PASSED
from trainer.sitting.cards import AskingMove, Card, GuessCard, IdeaCard
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


@dataclass(frozen=True, slots=True)
class Try:
    """One try that the deck judged."""

    san: str
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Done:
    """A turn of a tactic or a game that lies behind, as far as it came."""

    tries: tuple[Try, ...]
    hint: bool
    shown: bool
    quality: int


@dataclass(frozen=True, slots=True)
class Prompt:
    """One asking of one card, as far as it has come.

    Of a tactic and a game, tries, help and hesitation are those of the present turn.
    """

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
    done: tuple[Done, ...] = ()
    """The turns that lie behind."""
    turn_began: float = 0.0
    """What `seconds` was when the present turn was asked."""
    order: tuple[int, ...] = ()
    """Of an idea's answers: which is shown first, second and so on, from 0."""

    @property
    def misses(self) -> int:
        """How many tries were wrong."""
        return sum(1 for attempt in self.tries if attempt.verdict in MISSES)

    def has_tried(self, verdict: Verdict) -> bool:
        """Whether some try had this verdict."""
        return any(attempt.verdict is verdict for attempt in self.tries)

    @property
    def all_tries(self) -> tuple[Try, ...]:
        """The tries of all turns so far."""
        if not self.done:
            return self.tries
        return tuple(attempt for turn in self.done for attempt in turn.tries)

    @property
    def hint_ever(self) -> bool:
        """Whether a hint was given at any turn."""
        return self.hint or any(turn.hint for turn in self.done)

    @property
    def shown_ever(self) -> bool:
        """Whether an answer was shown at any turn."""
        return self.shown or any(turn.shown for turn in self.done)

    @property
    def choices(self) -> tuple[str, ...]:
        """The answers of an idea in the order shown; empty where none are chosen from."""
        if not isinstance(self.card, IdeaCard):
            return ()
        return tuple(self.card.idea.choices[place] for place in self.order)

    @property
    def answer(self) -> str:
        """What is right, in a few words: the move, the squares, or the sentence to choose."""
        card = self.card
        if isinstance(card, AskingMove):
            return card.move.san
        return card.idea.answer if isinstance(card, IdeaCard) else ""

    @property
    def score(self) -> tuple[int, int]:
        """Of a game: the moves found in this round, and the guesses made."""
        earlier = self.card.guessed if isinstance(self.card, GuessCard) else ()
        found = sum(earlier) + sum(1 for turn in self.done if turn.quality >= PASSED)
        return found, len(earlier) + len(self.done)


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
    """An answer, a request for help, undo or stop."""
    TOLD = auto()
    """A defence is over, or the game's own move stands there; `GoOn` plays on."""
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
    guesses: tuple[bool, ...] = ()
    """Guesses at model games so far: whether each was right."""
    dice: int = 0
    """What the order of an idea's answers comes from; another number each sitting."""

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
