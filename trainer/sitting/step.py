"""The one function that moves a sitting on: `step(sitting, event)`.

It decides what is asked next, what a try counts, what help costs and what is logged. It
writes nothing: the service carries `LogAnswer` and `LogWithdrawal` out and hands the
outcome back as events, so nothing is called graded before it is safe.
"""

from __future__ import annotations

from dataclasses import replace

import chess

from trainer.lines.legality import judge_move
from trainer.lines.reading import Reading
from trainer.lines.typed import read_move
from trainer.memory.plan import waited_long_enough
from trainer.memory.quality import quality
from trainer.memory.sm2 import REPEATED_BELOW
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    Graded,
    Hinted,
    HintWanted,
    Judged,
    LogAnswer,
    LogWithdrawal,
    MoveMade,
    MoveTyped,
    Recorded,
    Show,
    Shown,
    ShowWanted,
    Stop,
    Undone,
    UndoWanted,
    Withdrawn,
)
from trainer.sitting.sitting import Answered, Phase, Prompt, Sitting, Try, Waiting
from trainer.sitting.verdict import JUDGED_BY_DECK, SPARED_ONCE, Judgement, Verdict, judge

Step = tuple[Sitting, tuple[Effect, ...]]

RESTING = frozenset({Phase.LOOKING, Phase.ASKING, Phase.ANSWERED})
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
        case GoOn() if sitting.phase in (Phase.LOOKING, Phase.ANSWERED):
            return _go_on(sitting)
        case MoveTyped() | MoveMade() if sitting.phase in (Phase.LOOKING, Phase.ASKING):
            return _try(sitting, event)
        case HintWanted() if sitting.phase is Phase.ASKING:
            return _hint(sitting)
        case ShowWanted() if sitting.phase is Phase.ASKING:
            return _show(sitting)
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
    if prompt.fresh and sitting.rules.first_look:
        return _look(sitting, prompt)
    return _ask(sitting, prompt)


def _ask(sitting: Sitting, prompt: Prompt) -> Step:
    asked = replace(sitting, current=prompt, phase=Phase.ASKING, prompts=sitting.prompts + 1)
    return asked, (Ask(prompt),)


def _look(sitting: Sitting, prompt: Prompt) -> Step:
    looked = replace(sitting, current=prompt, phase=Phase.LOOKING, prompts=sitting.prompts + 1)
    return looked, (Show(prompt),)


def _go_on(sitting: Sitting) -> Step:
    if sitting.phase is Phase.LOOKING:
        sitting = _keep_back(sitting, _prompt(sitting))
    return _next(replace(sitting, current=None))


def _keep_back(sitting: Sitting, prompt: Prompt) -> Sitting:
    waiting = (*sitting.waiting, Waiting(prompt, sitting.prompts))
    return replace(sitting, waiting=waiting)


def _end(sitting: Sitting) -> Step:
    """The end; a prompt that stands open stays among what is left."""
    if sitting.current is not None:
        sitting = _push_aside(sitting)
    ended = replace(sitting, phase=Phase.ENDED, current=None)
    return ended, (Ended(len(sitting.answered), sitting.right, sitting.seconds),)


# --- Tries and help


def _try(sitting: Sitting, event: MoveTyped | MoveMade) -> Step:
    prompt = _prompt(sitting)
    card = prompt.card
    board = card.board
    reading = _read(sitting, board, event)
    book = sitting.books[card.deck, card.side]
    judgement = judge(reading, board, card.position, book, card.other_decks)
    if sitting.phase is Phase.LOOKING:
        return _follow_look(sitting, prompt, judgement)
    if judgement.verdict in SPARED_ONCE and prompt.has_tried(judgement.verdict):
        judgement = replace(judgement, verdict=Verdict.OUT_OF_BOOK)
    prompt = _count(prompt, judgement)
    judged = Judged(judgement, prompt)
    if judgement.verdict is not Verdict.IN_BOOK:
        return replace(sitting, current=prompt), (judged,)
    sitting = replace(sitting, current=prompt, phase=Phase.RECORDING)
    return sitting, (judged, LogAnswer(prompt, _grade(sitting, prompt)))


def _read(sitting: Sitting, board: chess.Board, event: MoveTyped | MoveMade) -> Reading:
    if isinstance(event, MoveTyped):
        return read_move(board, event.text, sitting.rules.letters)
    return judge_move(board, event.from_square, event.to_square, event.promotion)


def _count(prompt: Prompt, judgement: Judgement) -> Prompt:
    if judgement.verdict not in JUDGED_BY_DECK:
        return prompt
    hesitated = prompt.hesitated
    if hesitated is None and judgement.verdict not in SPARED_ONCE:
        hesitated = prompt.seconds
    tried = Try(judgement.san, judgement.verdict)
    return replace(prompt, tries=(*prompt.tries, tried), hesitated=hesitated)


def _follow_look(sitting: Sitting, prompt: Prompt, judgement: Judgement) -> Step:
    """In a first look the shown move may be played to go on; nothing else counts."""
    if judgement.move is not None and judgement.move.uci() == prompt.card.move.uci:
        return _go_on(sitting)
    reason = f"This is a first look: play {prompt.card.move.san}, or go on."
    return sitting, (Judged(Judgement(Verdict.UNREADABLE, reason), prompt),)


def _hint(sitting: Sitting) -> Step:
    prompt = replace(_prompt(sitting), hint=True)
    move = chess.Move.from_uci(prompt.card.move.uci)
    piece_type = prompt.card.board.piece_type_at(move.from_square)
    if piece_type is None:
        raise RuntimeError(f"the deck moves a piece that is not there: {prompt.card.key}")
    hinted = Hinted(chess.square_name(move.from_square), chess.piece_name(piece_type))
    return replace(sitting, current=prompt), (hinted,)


def _show(sitting: Sitting) -> Step:
    prompt = replace(_prompt(sitting), shown=True)
    return replace(sitting, current=prompt), (Shown(prompt),)


# --- The log


def _recorded(sitting: Sitting, event: Recorded) -> Step:
    prompt = _prompt(sitting)
    grade = _grade(sitting, prompt)
    answered = (*sitting.answered, Answered(event.answer_id, prompt, grade))
    sitting = replace(sitting, answered=answered, phase=Phase.ANSWERED)
    if grade < REPEATED_BELOW:
        again = Prompt(prompt.card, fresh=False, repeat=True)
        sitting = _keep_back(sitting, again)
    return sitting, (Graded(prompt, grade, event.state),)


def _grade(sitting: Sitting, prompt: Prompt) -> int:
    return quality(
        misses=prompt.misses,
        hint=prompt.hint,
        shown=prompt.shown,
        seconds=prompt.hesitated or 0.0,
        hesitation=sitting.rules.hesitation,
    )


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
    sitting, asked = _ask(sitting, Prompt(last.card, last.fresh, last.repeat, looked=last.looked))
    return sitting, (Undone(key), *asked)
