"""A sitting for programs: one JSON event a line out, one answer a line in.

Everything is decided by the sitting; this face writes its effects, and reads a line where
the sitting asks.
"""

from __future__ import annotations

from trainer.cli.json_answers import Unusable, read_answer
from trainer.cli.lines_in import TimedLines
from trainer.cli.output import write_event
from trainer.errors import TrainerError
from trainer.service.practice import Practice
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    Graded,
    Hinted,
    Judged,
    Show,
    Shown,
    Stop,
    Undone,
)
from trainer.sitting.sitting import Phase, Prompt
from trainer.sitting.verdict import Judgement, Verdict


def sit(practice: Practice, lines: TimedLines) -> None:
    """Hold the sitting from its first event to `end`.

    :raises TrainerError: an answer could not be saved; `end` was written all the same.
    """
    try:
        _send(practice, Begin())
        while practice.sitting.phase is not Phase.ENDED:
            asking = practice.sitting.phase is Phase.ASKING
            _send(practice, _next_event(lines) if asking else GoOn(0.0))
    except TrainerError:
        _send(practice, Stop(0.0))
        raise


def _send(practice: Practice, event: Event) -> None:
    for effect in practice.send(event):
        _write(effect)


def _next_event(lines: TimedLines) -> Event:
    """What the next usable line wants; lines before it cost their time and no more."""
    seconds = 0.0
    while True:
        text, waited = lines.next()
        if text is None:
            return Stop(seconds + waited)
        answer = read_answer(text)
        seconds += waited if answer.seconds is None else answer.seconds
        if not isinstance(answer, Unusable):
            return answer.event(seconds)
        _write_verdict(Judgement(Verdict.UNREADABLE, answer.reason))


def _write(effect: Effect) -> None:
    match effect:
        case Show(prompt):
            move = prompt.card.move
            write_event(
                "show",
                **_place(prompt),
                move=move.san,
                note=move.note,
                introduction=prompt.card.introduction,
            )
        case Ask(prompt):
            write_event(
                "ask", **_place(prompt), kind="move", fresh=prompt.fresh, repeat=prompt.repeat
            )
        case Judged(judgement):
            _write_verdict(judgement)
        case Hinted(square, piece):
            write_event("hint", square=square, piece=piece)
        case Shown(prompt):
            write_event("shown", move=prompt.card.move.san)
        case Graded():
            _write_graded(effect)
        case Undone(card):
            write_event("undone", card=card)
        case Ended(asked, right, seconds):
            write_event("end", asked=asked, right=right, seconds=round(seconds, 3))


def _place(prompt: Prompt) -> dict[str, str]:
    card = prompt.card
    return {
        "card": card.key,
        "deck": card.deck,
        "chapter": card.chapter,
        "fen": card.fen,
        "line": card.line,
        "side": card.side,
    }


def _write_verdict(judgement: Judgement) -> None:
    said = judgement.book_move
    write_event(
        "verdict",
        verdict=judgement.verdict.value,
        san=judgement.san,
        reason=judgement.reason,
        note=said.note if said else "",
        explanation=said.explanation if said else "",
    )


def _write_graded(graded: Graded) -> None:
    schedule = graded.state.schedule
    write_event(
        "graded",
        card=graded.prompt.card.key,
        quality=graded.quality,
        repetition=schedule.repetition,
        interval=schedule.interval,
        e_factor=schedule.e_factor / 100,
        due=graded.state.due,
        repeat=graded.prompt.repeat,
    )
