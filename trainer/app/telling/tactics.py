"""The moments of a tactic: asked, its opponent's replies, a missed defence, the end."""

from __future__ import annotations

from dataclasses import replace

import chess

from trainer.app.telling.blocks import Block, Paragraph, Room, Rows
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.app.telling.moves import missed_move
from trainer.app.telling.notes import (
    drawings,
    how_it_went,
    missed,
    named_note,
    quiet_paragraphs,
    said_before,
)
from trainer.app.telling.positions import (
    after_try,
    arriving,
    arrow_of_move,
    last_move_in_words,
    mover,
)
from trainer.lines.graph import Standing
from trainer.lines.movetext import numbered
from trainer.service.words import counted
from trainer.sitting.cards import TacticCard, TurnCard
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import MISSES, Judgement


def asked(card: TacticCard, prompt: Prompt, again: bool) -> Moment:
    """A tactic, at its first move; one that an undo pushed aside, where it stood.

    :param again: its answer was taken back.
    """
    said: list[Block] = [*quiet_paragraphs(card.introduction)] if card.at == 0 else []
    if card.path:
        said.insert(0, Paragraph(last_move_in_words(card), Room.NARROW))
    task = f"{mover(card)}{_which_defence(card)}"
    return Moment(
        arriving(card),
        card,
        headline=f"Taken back. {task}" if again else task,
        page=(*said, *said_before(prompt, again)),
        missed=missed(prompt),
    )


def judged(card: TacticCard, move: chess.Move, judgement: Judgement, prompt: Prompt) -> Moment:
    """The verdict on a legal move; a miss ends the defence."""
    if judgement.verdict in MISSES:
        told = judgement if judgement.book_move else replace(judgement, reason="")
        return missed_move(card, move, told, prompt, "Not the solution")
    said = judgement.book_move
    about = _notes(card) if card.ends_defence else ()
    if said is not None and said.standing is Standing.ACCEPTED:
        about = (*named_note(card.board, said), *about)
    drawn = drawings(said) if said is not None and card.ends_defence else ()
    more = _another(card) if card.ends_defence else ()
    reason = (Paragraph(judgement.reason),) if judgement.reason else ()
    closing = (Paragraph(f"Then {card.closing}.", quiet=True),) if card.closing else ()
    return Moment(
        Stage(after_try(card, move, said)),
        card,
        "●",
        Tone.HELP if prompt.shown or _missed_turns(prompt) else Tone.GOOD,
        "Right",
        page=(*reason, *about, *drawn, *closing, *more),
        answer=judgement.san,
        missed=missed(prompt),
    )


def over(before: Moment, prompt: Prompt) -> Moment:
    """How the whole tactic went, unless its last defence was missed."""
    return before if before.tone is Tone.BAD else replace(before, headline=_how_it_went(prompt))


def rest_shown(before: Moment, card: TacticCard) -> Moment:
    """How the defence goes that was missed, with the notes of its moves."""
    solution = Paragraph(f"The solution: {card.rest}")
    return replace(
        before,
        stage=replace(before.stage, view=replace(before.stage.view, arrows=arrow_of_move(card))),
        page=(*before.page, solution, *_notes(card), *_another(card)),
        answer=card.move.san,
    )


def replied(after: Moment | None, card: TurnCard, prompt: Prompt) -> Moment:
    """The opponent's move, and that the next one is asked.

    :param after: what was said of the move just played; None where that lies further back.
    """
    said: list[Block] = []
    stage = arriving(card)
    headline = f"{mover(card)}{_which_defence(card)}"
    if after is not None:
        said += after.page
        headline = f"Right. {headline}"
    if _begins_defence(card):
        said.append(Paragraph(f"{_back(card)} now {_reply_named(card)}."))
    return Moment(
        stage,
        card,
        after.sign if after else "",
        after.tone if after else Tone.PLAIN,
        headline,
        page=(*said, reply_told(card)),
        missed=missed(prompt),
    )


def reply_told(card: TurnCard) -> Block:
    """The opponent's move in words."""
    return Paragraph(last_move_in_words(card), Room.NARROW)


def _reply_named(card: TurnCard) -> str:
    last = card.last_move
    return numbered(last[0], card.reply.san) if last and card.reply else ""


def _begins_defence(card: TurnCard) -> bool:
    """Whether the reply is where this defence leaves an earlier one."""
    defence, ply = card.turn
    return defence > 0 and ply - 1 == card.played.defences[defence].begins


def _back(card: TurnCard) -> str:
    defence, ply = card.turn
    way = card.played.movetext(defence, 0, ply - 1)
    return f"Back after {way}:" if way else "Back at the start:"


def _which_defence(card: TurnCard) -> str:
    """` Defence 2 of 3.`; nothing where there is one."""
    defences = len(card.played.defences)
    return f" Defence {card.turn.defence + 1} of {defences}." if defences > 1 else ""


def _notes(card: TacticCard) -> tuple[Block, ...]:
    """What is said of the moves of a defence, held back until it is over: it would tell them."""
    notes = [block for board, move in card.own_moves for block in named_note(board, move)]
    themes = dict.fromkeys(theme for _, move in card.own_moves for theme in move.themes)
    if themes:
        notes.append(Rows((("themes", " · ".join(themes)),), room=Room.ROOMY))
    return tuple(notes)


def _another(card: TacticCard) -> tuple[Block, ...]:
    follows = card.next_defence() is not None
    return (Paragraph("Another defence follows.", quiet=True),) if follows else ()


def _missed_turns(prompt: Prompt) -> int:
    return sum(any(attempt.verdict in MISSES for attempt in turn.tries) for turn in prompt.done)


def _how_it_went(prompt: Prompt) -> str:
    turns = len(prompt.done)
    if prompt.shown_ever:
        return "Solved, with a move shown"
    if wrong := _missed_turns(prompt):
        return f"Missed {wrong} of {counted(turns, 'move')}"
    if prompt.hint_ever:
        return "Solved, with a hint"
    if turns == 1:
        return how_it_went(prompt, "Solved")
    return f"Solved, {turns} moves, {prompt.seconds:.1f} s"
