"""A sitting for programs: one JSON event a line out, one answer a line in.

Everything is decided by the sitting; this face writes its effects, and reads a line where
the sitting asks.
"""

from __future__ import annotations

from typing import Any

from trainer.cli.json_answers import Unusable, read_answer
from trainer.cli.lines_in import TimedLines
from trainer.cli.output import write_event
from trainer.errors import TrainerError
from trainer.lines.idea import Form
from trainer.service.practice import Practice
from trainer.sitting.cards import IdeaCard, TurnCard
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    Graded,
    Guessed,
    Hinted,
    Judged,
    Reply,
    RestShown,
    Show,
    Shown,
    Stop,
    Undone,
)
from trainer.sitting.sitting import Phase, Prompt
from trainer.sitting.verdict import JUDGED_BY_DECK, Judgement, Verdict


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
        case Show(prompt, card):
            write_event(
                "show",
                **_place(prompt),
                move=card.move.san,
                note=card.move.note,
                introduction=card.introduction,
            )
        case Ask(prompt):
            write_event(
                "ask",
                **_place(prompt),
                kind=prompt.card.kind.value,
                fresh=prompt.fresh,
                repeat=prompt.repeat,
                **_more(prompt),
            )
        case Judged(judgement, prompt):
            _write_verdict(judgement, prompt)
        case Hinted(square, piece):
            write_event("hint", square=square, piece=piece)
        case Shown(prompt):
            write_event("shown", **_shown(prompt))
        case RestShown(prompt, rest):
            write_event("shown", move=rest, notes=_notes(prompt))
        case Reply(prompt):
            _write_reply(prompt)
        case Guessed():
            _write_guessed(effect)
        case Graded():
            _write_graded(effect)
        case Undone(card):
            write_event("undone", card=card)
        case Ended():
            write_event(
                "end",
                asked=effect.asked,
                right=effect.right,
                seconds=round(effect.seconds, 3),
                **_guesses(effect),
            )


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


def _guesses(ended: Ended) -> dict[str, int]:
    """What is told of model games, where one was played."""
    if not ended.guesses:
        return {}
    return {"guesses": ended.guesses, "guesses_right": ended.guesses_right}


def _more(prompt: Prompt) -> dict[str, Any]:
    """What the asking of some kinds has besides."""
    card = prompt.card
    if isinstance(card, IdeaCard):
        return {
            "question": card.idea.ask,
            "form": card.idea.form.value,
            "choices": list(prompt.choices),
        }
    if isinstance(card, TurnCard):
        return {"title": card.played.title, "introduction": card.introduction}
    return {}


def _shown(prompt: Prompt) -> dict[str, Any]:
    """The answer, in the form in which it must then be given."""
    card = prompt.card
    if not isinstance(card, IdeaCard) or card.idea.form is Form.MOVE:
        return {"move": prompt.answer}
    if card.idea.form is Form.SQUARES:
        return {"move": prompt.answer, "squares": list(card.idea.squares)}
    return {"move": prompt.answer, "choose": prompt.order.index(0) + 1}


def _write_reply(prompt: Prompt) -> None:
    card = prompt.card
    reply = card.reply if isinstance(card, TurnCard) else None
    if reply is None:
        raise RuntimeError(f"nothing was replied before {card.line}")
    write_event("reply", san=reply.san, fen=card.fen)


def _write_guessed(guessed: Guessed) -> None:
    card = guessed.prompt.card
    if not isinstance(card, TurnCard):
        raise RuntimeError(f"nothing is guessed at {card.key}")
    found, guesses = guessed.prompt.score
    write_event(
        "guessed",
        san=card.move.san,
        right=guessed.right,
        note=card.move.note,
        **_on_reply(guessed.prompt),
        tried=guessed.judgement.san if guessed.judgement else "",
        beside=list(card.beside()),
        found=found,
        guesses=guesses,
        rest=card.closing,
    )


def _notes(prompt: Prompt) -> list[dict[str, str]]:
    """What is said of the moves of a defence, now that it is over."""
    card = prompt.card
    moves = card.own_moves if isinstance(card, TurnCard) else ()
    return [{"san": move.san, "note": move.note} for _, move in moves if move.note]


def _on_reply(prompt: Prompt) -> dict[str, str]:
    """The comment on the opponent's move before, told now that it gives nothing away."""
    card = prompt.card
    reply = card.reply if isinstance(card, TurnCard) else None
    return {"reply_note": reply.note} if reply and reply.note else {}


def _write_verdict(judgement: Judgement, prompt: Prompt | None = None) -> None:
    said = judgement.book_move
    counted = prompt is not None and judgement.verdict in JUDGED_BY_DECK
    write_event(
        "verdict",
        verdict=judgement.verdict.value,
        san=judgement.san,
        reason=judgement.reason,
        note=judgement.note,
        explanation=said.explanation if said else "",
        **(_on_reply(prompt) if prompt and counted else {}),
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
