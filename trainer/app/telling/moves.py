"""The moments of a move of the lines: asked, looked at, right, missed, neither of the two.

A tactic's move that is asked for by its picture alone is shown in the same way.
"""

from __future__ import annotations

from dataclasses import replace

import chess

from trainer.app.telling.blocks import Block, Paragraph, Room
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.app.telling.notes import (
    AGAIN,
    TRY_AGAIN,
    how_it_went,
    missed,
    note,
    paragraphs,
    quiet_paragraphs,
    said_before,
)
from trainer.app.telling.positions import (
    after_try,
    arriving,
    arrow_of_move,
    deck_move_in_words,
    last_move_in_words,
    mover,
    resting,
    taken_back,
)
from trainer.lines.movetext import numbered
from trainer.sitting.cards import AskingMove, MoveCard
from trainer.sitting.sitting import Prompt, Sitting
from trainer.sitting.verdict import MISSES, Judgement, Verdict


def asked(card: MoveCard, prompt: Prompt, again: bool) -> Moment:
    """A card is asked.

    :param again: its answer was taken back.
    """
    return Moment(
        arriving(card),
        card,
        headline=f"Taken back. {mover(card)}" if again else mover(card),
        page=(Paragraph(last_move_in_words(card), Room.NARROW), *said_before(prompt, again)),
        missed=missed(prompt),
    )


def first_look(card: MoveCard) -> Moment:
    """A fresh card is shown with its move and the reason."""
    move = numbered(card.board, card.move.san)
    said = (
        Paragraph(deck_move_in_words(card), Room.ROOMY),
        *paragraphs(card.move.note),
        Paragraph("Play it, or go on. It is asked later.", quiet=True),
        *quiet_paragraphs(card.introduction),
    )
    return Moment(
        arriving(card, arrow_of_move(card)), card, "►", Tone.HELP, f"First look: {move}", page=said
    )


def first_look_headline(card: MoveCard, sitting: Sitting) -> str:
    """`First look 3 of 10: 2. Nc3`; the only one is not counted."""
    now, total = sitting.looks
    count = f" {now} of {total}" if total > 1 else ""
    return f"First look{count}: {numbered(card.board, card.move.san)}"


def shown(card: AskingMove, prompt: Prompt) -> Moment:
    """The move was asked for."""
    said = (
        Paragraph(deck_move_in_words(card)),
        Paragraph(f"Play it to go on. {AGAIN}", quiet=True),
    )
    return Moment(
        Stage(resting(card, arrow_of_move(card))),
        card,
        "►",
        Tone.HELP,
        f"The move is {numbered(card.board, card.move.san)}",
        page=said,
        missed=missed(prompt),
    )


def judged(card: MoveCard, move: chess.Move, judgement: Judgement, prompt: Prompt) -> Moment:
    """The verdict on a legal move."""
    if judgement.verdict is Verdict.IN_BOOK:
        return _in_book(card, move, judgement, prompt)
    if judgement.verdict in MISSES:
        miss = missed_move(card, move, judgement, prompt, "Out of book")
        return replace(miss, page=(*miss.page, TRY_AGAIN))
    head = "Transposes" if judgement.verdict is Verdict.TRANSPOSES else "Of another deck"
    return Moment(
        taken_back(card, move, None, prompt.shown),
        card,
        "≈",
        Tone.HELP,
        f"{head}: {numbered(card.board, judgement.san)}",
        page=(Paragraph(judgement.reason), Paragraph("Neither right nor wrong: try again.")),
        missed=missed(prompt),
    )


def _in_book(card: MoveCard, move: chess.Move, judgement: Judgement, prompt: Prompt) -> Moment:
    said = judgement.book_move
    why: tuple[Block, ...] = (Paragraph(judgement.reason),) if judgement.reason else ()
    return Moment(
        Stage(after_try(card, move, said)),
        card,
        "●",
        Tone.GOOD if not (prompt.shown or prompt.misses) else Tone.HELP,
        how_it_went(prompt, "In book"),
        page=why + (note(said) if said else ()),
        answer=judgement.san,
        missed=missed(prompt),
    )


def missed_move(
    card: AskingMove, move: chess.Move, judgement: Judgement, prompt: Prompt, wrong: str
) -> Moment:
    """A wrong move is taken back, with what is said of it.

    :param wrong: what it is called where the deck knows nothing worse of it.
    """
    said = judgement.book_move
    head = "Known mistake" if judgement.verdict is Verdict.KNOWN_MISTAKE else wrong
    why: list[Block] = []
    if judgement.reason and not (said and said.note):
        why.append(Paragraph(judgement.reason, passing=True))
    if said is not None:
        why += note(said)
        if said.explanation:
            why.append(Paragraph(said.explanation))
    return Moment(
        taken_back(card, move, said, prompt.shown),
        card,
        "×",
        Tone.BAD,
        f"{head}: {numbered(card.board, judgement.san)}",
        page=tuple(why),
        missed=missed(prompt),
    )
