"""The one function that moves a sitting on: `step(sitting, event)`.

It decides what is asked next, what a try counts, what help costs and what is logged. It
writes nothing: the service carries `LogAnswer` and `LogWithdrawal` out and hands the
outcome back as events, so nothing is called graded before it is safe.
"""

from __future__ import annotations

from dataclasses import replace

from trainer.memory.plan import waited_long_enough
from trainer.memory.sm2 import REPEATED_BELOW
from trainer.sitting.cards import IdeaCard, MoveCard, from_the_start
from trainer.sitting.events import (
    AnswerChosen,
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    Graded,
    Guessed,
    HintWanted,
    Judged,
    LogAnswer,
    LogWithdrawal,
    MoveMade,
    MoveTyped,
    Recorded,
    Reply,
    Show,
    ShowWanted,
    SquaresChosen,
    Stop,
    Undone,
    UndoWanted,
    Withdrawn,
)
from trainer.sitting.shuffle import shuffled
from trainer.sitting.sitting import Answered, Phase, Prompt, Sitting, Waiting
from trainer.sitting.tries import (
    AnswerEvent,
    Outcome,
    Then,
    answer,
    grade,
    hint,
    judge_in_lines,
    moved_on,
    show,
)
from trainer.sitting.verdict import Judgement, Verdict

Step = tuple[Sitting, tuple[Effect, ...]]

WAITING_TO_GO_ON = frozenset({Phase.LOOKING, Phase.TOLD, Phase.ANSWERED})
"""The phases in which the student reads what was said."""

RESTING = WAITING_TO_GO_ON | {Phase.ASKING}
"""The phases in which the student may take an answer back."""


def step(sitting: Sitting, event: Event) -> Step:
    """The next sitting and what is to be done about it.

    An event that makes no sense where the sitting stands changes nothing but the clock.
    """
    if sitting.phase is Phase.ENDED:
        return sitting, ()
    sitting = _spend(sitting, getattr(event, "seconds", 0.0))
    match event:
        case Stop():
            return _end(sitting)
        case Begin() if sitting.phase is Phase.BEGINNING:
            return _next(sitting)
        case GoOn() if sitting.phase in WAITING_TO_GO_ON:
            return _go_on(sitting)
        case MoveTyped() | MoveMade() | SquaresChosen() | AnswerChosen() if sitting.phase in (
            Phase.LOOKING,
            Phase.ASKING,
        ):
            return _answer(sitting, event)
        case HintWanted() if sitting.phase is Phase.ASKING:
            return _carry_on(sitting, hint(_prompt(sitting)))
        case ShowWanted() if sitting.phase is Phase.ASKING:
            return _carry_on(sitting, show(_prompt(sitting)))
        case UndoWanted() if sitting.phase in RESTING:
            return _undo(sitting)
        case Recorded() if sitting.phase is Phase.RECORDING:
            return _recorded(sitting, event)
        case Withdrawn() if sitting.phase is Phase.WITHDRAWING:
            return _withdrawn(sitting)
    return sitting, ()


def _spend(sitting: Sitting, seconds: float) -> Sitting:
    current = sitting.current
    if current is not None and sitting.phase is Phase.ASKING:
        current = replace(current, seconds=current.seconds + seconds)
    elif current is not None and sitting.phase is Phase.LOOKING:
        current = replace(current, looked=current.looked + seconds)
    return replace(sitting, seconds=sitting.seconds + seconds, current=current)


def _prompt(sitting: Sitting) -> Prompt:
    if sitting.current is None:
        raise RuntimeError(f"a sitting that is {sitting.phase.name.lower()} has no prompt")
    return sitting.current


# --- What comes next


def _next(sitting: Sitting) -> Step:
    """Ask what an undo pushed aside, else who waited long enough, else the next ahead."""
    if sitting.interrupted:
        *earlier, prompt = sitting.interrupted
        return _ask(replace(sitting, interrupted=tuple(earlier)), prompt)
    longest = sitting.waiting[0] if sitting.waiting else None
    if longest and (not sitting.ahead or waited_long_enough(longest.shown_after, sitting.prompts)):
        return _ask(replace(sitting, waiting=sitting.waiting[1:]), longest.prompt)
    if not sitting.ahead:
        return _end(sitting)
    prompt, *rest = sitting.ahead
    sitting = replace(sitting, ahead=tuple(rest))
    if prompt.fresh and sitting.rules.first_look and isinstance(prompt.card, MoveCard):
        return _look(sitting, prompt, prompt.card)
    return _ask(sitting, prompt)


def _ask(sitting: Sitting, prompt: Prompt) -> Step:
    card = prompt.card
    if isinstance(card, IdeaCard) and not prompt.order:
        order = shuffled(len(card.idea.choices), sitting.dice, sitting.prompts)
        prompt = replace(prompt, order=order)
    asked = replace(sitting, current=prompt, phase=Phase.ASKING, prompts=sitting.prompts + 1)
    return asked, (Ask(prompt),)


def _look(sitting: Sitting, prompt: Prompt, card: MoveCard) -> Step:
    looked = replace(sitting, current=prompt, phase=Phase.LOOKING, prompts=sitting.prompts + 1)
    return looked, (Show(prompt, card),)


def _go_on(sitting: Sitting) -> Step:
    if sitting.phase is Phase.LOOKING:
        sitting = _keep_back(sitting, _prompt(sitting))
    elif sitting.phase is Phase.TOLD and (prompt := moved_on(_prompt(sitting))):
        return replace(sitting, current=prompt, phase=Phase.ASKING), (Reply(prompt),)
    return _next(replace(sitting, current=None))


def _keep_back(sitting: Sitting, prompt: Prompt) -> Sitting:
    waiting = (*sitting.waiting, Waiting(prompt, sitting.prompts))
    return replace(sitting, waiting=waiting)


def _end(sitting: Sitting) -> Step:
    """The end; a prompt that stands open stays among what is left."""
    if sitting.current is not None:
        sitting = _push_aside(sitting)
    ended = replace(sitting, phase=Phase.ENDED, current=None)
    guesses = sitting.guesses
    told = Ended(len(sitting.answered), sitting.right, sitting.seconds, len(guesses), sum(guesses))
    return ended, (told,)


# --- Tries and help


def _answer(sitting: Sitting, event: AnswerEvent) -> Step:
    if sitting.phase is Phase.LOOKING:
        return _follow_look(sitting, event)
    return _carry_on(sitting, answer(sitting.rules, sitting.books, _prompt(sitting), event))


def _carry_on(sitting: Sitting, outcome: Outcome) -> Step:
    prompt, effects = outcome.prompt, outcome.effects
    phase = sitting.phase
    if outcome.then is Then.TOLD:
        phase = Phase.TOLD
    elif outcome.then is Then.FINISHED:
        phase = Phase.RECORDING
        effects = (*effects, LogAnswer(prompt, grade(sitting.rules, prompt)))
    found = tuple(effect.right for effect in effects if isinstance(effect, Guessed))
    guesses = (*sitting.guesses, *found)
    return replace(sitting, current=prompt, phase=phase, guesses=guesses), effects


def _follow_look(sitting: Sitting, event: AnswerEvent) -> Step:
    """In a first look the shown move may be played to go on; nothing else counts."""
    prompt = _prompt(sitting)
    card = prompt.card
    if not isinstance(card, MoveCard):
        raise RuntimeError(f"a {card.kind} has no first look")
    if isinstance(event, MoveTyped | MoveMade):
        judgement = judge_in_lines(sitting.rules, sitting.books, card, event)
        if judgement.move is not None and judgement.move.uci() == card.move.uci:
            return _go_on(sitting)
    reason = f"This is a first look: play {card.move.san}, or go on."
    return sitting, (Judged(Judgement(Verdict.UNREADABLE, reason), prompt),)


# --- The log


def _recorded(sitting: Sitting, event: Recorded) -> Step:
    prompt = _prompt(sitting)
    quality = grade(sitting.rules, prompt)
    answered = (*sitting.answered, Answered(event.answer_id, prompt, quality))
    sitting = replace(sitting, answered=answered, phase=Phase.ANSWERED)
    if quality < REPEATED_BELOW:
        again = Prompt(from_the_start(prompt.card), fresh=False, repeat=True)
        sitting = _keep_back(sitting, again)
    return sitting, (Graded(prompt, quality, event.state),)


def _undo(sitting: Sitting) -> Step:
    if not sitting.answered:
        asking = sitting.phase is Phase.ASKING
        return sitting, (Undone(None), *((Ask(_prompt(sitting)),) if asking else ()))
    last = sitting.answered[-1]
    log = LogWithdrawal(last.id, last.prompt.card.key)
    return replace(_push_aside(sitting), phase=Phase.WITHDRAWING, current=None), (log,)


def _push_aside(sitting: Sitting) -> Sitting:
    """Keep the prompt that stands on the board, with its tries, for after the undo."""
    if sitting.phase is Phase.ASKING:
        return replace(sitting, interrupted=(*sitting.interrupted, _prompt(sitting)))
    if sitting.phase is Phase.TOLD and (prompt := moved_on(_prompt(sitting))):
        return replace(sitting, interrupted=(*sitting.interrupted, prompt))
    if sitting.phase is Phase.LOOKING:
        return replace(sitting, ahead=(_prompt(sitting), *sitting.ahead))
    return sitting


def _withdrawn(sitting: Sitting) -> Step:
    """Ask the card again at once; the repeat that its answer had earned is off."""
    last = sitting.answered[-1].prompt
    key = last.card.key
    sitting = replace(
        sitting,
        answered=sitting.answered[:-1],
        waiting=tuple(w for w in sitting.waiting if w.prompt.card.key != key),
        interrupted=tuple(p for p in sitting.interrupted if p.card.key != key),
    )
    card = from_the_start(last.card)
    again = Prompt(card, last.fresh, last.repeat, looked=last.looked)
    sitting, asked = _ask(sitting, again)
    return sitting, (Undone(key), *asked)
