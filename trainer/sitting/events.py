"""What can happen to a sitting (events) and what it asks its driver to do (effects)."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.memory.card_state import CardState
from trainer.sitting.cards import MoveCard
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import Judgement

# --- Events. `seconds` is the time since the last event, measured by the face.


@dataclass(frozen=True, slots=True)
class Begin:
    """The sitting starts."""


@dataclass(frozen=True, slots=True)
class MoveTyped:
    """The student typed a move."""

    text: str
    seconds: float


@dataclass(frozen=True, slots=True)
class MoveMade:
    """The student moved a piece on the board; squares are numbered as `chess` does."""

    from_square: int
    to_square: int
    promotion: int | None
    seconds: float


@dataclass(frozen=True, slots=True)
class SquaresChosen:
    """The student chose a set of squares."""

    squares: tuple[str, ...]
    seconds: float


@dataclass(frozen=True, slots=True)
class AnswerChosen:
    """The student chose one of the answers shown, counted from 1."""

    number: int
    seconds: float


@dataclass(frozen=True, slots=True)
class HintWanted:
    """The student asks which piece moves."""

    seconds: float


@dataclass(frozen=True, slots=True)
class ShowWanted:
    """The student asks to be shown the move."""

    seconds: float


@dataclass(frozen=True, slots=True)
class UndoWanted:
    """The student takes the sitting's last answer back."""

    seconds: float


@dataclass(frozen=True, slots=True)
class GoOn:
    """The student has read what was said and wants the next card."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Stop:
    """The student stops; also the end of input and a closed terminal."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Recorded:
    """The service has committed the answer."""

    answer_id: str
    state: CardState


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """The service has withdrawn the answer; the card stands as before it."""


Event = (
    Begin
    | MoveTyped
    | MoveMade
    | SquaresChosen
    | AnswerChosen
    | HintWanted
    | ShowWanted
    | UndoWanted
    | GoOn
    | Stop
    | Recorded
    | Withdrawn
)

# --- Effects


@dataclass(frozen=True, slots=True)
class Show:
    """The first look at a fresh card: its move and the reason."""

    prompt: Prompt
    card: MoveCard
    """The prompt's."""


@dataclass(frozen=True, slots=True)
class Ask:
    """A card is asked."""

    prompt: Prompt


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdict on a try."""

    judgement: Judgement
    prompt: Prompt
    """With the try counted."""


@dataclass(frozen=True, slots=True)
class Hinted:
    """Which piece moves."""

    square: str
    piece: str
    """`king`, `queen`, `rook`, `bishop`, `knight` or `pawn`."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The answer was shown and must now be given."""

    prompt: Prompt


@dataclass(frozen=True, slots=True)
class RestShown:
    """After a miss in a tactic: how the defence goes, from the move asked."""

    prompt: Prompt
    rest: str
    """Movetext."""


@dataclass(frozen=True, slots=True)
class Reply:
    """The opponent's move in a tactic or a game; the next move is asked."""

    prompt: Prompt
    """With its card at the new turn."""


@dataclass(frozen=True, slots=True)
class Guessed:
    """A guess was made; the game's own move is told."""

    prompt: Prompt
    """With the guess counted, its card still at the turn that was guessed."""
    judgement: Judgement | None
    """What was tried; None where the move was shown."""
    right: bool


@dataclass(frozen=True, slots=True)
class LogGuess:
    """To be committed by the service before anything that follows is heard."""

    prompt: Prompt
    tried: str
    """SAN; empty where the move was shown."""
    right: bool


@dataclass(frozen=True, slots=True)
class LogAnswer:
    """To be committed by the service, which answers with `Recorded`."""

    prompt: Prompt
    quality: int


@dataclass(frozen=True, slots=True)
class LogWithdrawal:
    """To be committed by the service, which answers with `Withdrawn`."""

    answer_id: str
    card: str


@dataclass(frozen=True, slots=True)
class Graded:
    """The answer is safe; this is what it came to."""

    prompt: Prompt
    quality: int
    state: CardState


@dataclass(frozen=True, slots=True)
class Undone:
    """The last answer was taken back."""

    card: str | None
    """None where there was nothing to take back."""


@dataclass(frozen=True, slots=True)
class Ended:
    """The sitting is over."""

    asked: int
    """Graded prompts, repeats included."""
    right: int
    """Of these, quality 3 or more."""
    seconds: float
    guesses: int = 0
    """Guesses at model games."""
    guesses_right: int = 0


Effect = (
    Show
    | Ask
    | Judged
    | Hinted
    | Shown
    | RestShown
    | Reply
    | Guessed
    | LogAnswer
    | LogGuess
    | LogWithdrawal
    | Graded
    | Undone
    | Ended
)
