"""From the effects of a sitting to the moment that the screen shows.

Every sentence of a prompt is chosen here, and nothing is decided: what counts, what comes
next and what is right was settled by the sitting. Until an answer is in, nothing here says
or draws more of the deck's move than the sitting has given away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import chess

from trainer.app.telling.blocks import Block, Paragraph, Room, Rows
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.app.telling.positions import (
    after_try,
    arriving,
    arrow_of_move,
    deck_move_in_words,
    drawn_in_words,
    last_move_in_words,
    mover,
    resting,
)
from trainer.lines.graph import BookMove
from trainer.lines.movetext import numbered
from trainer.memory.sm2 import REPEATED_BELOW
from trainer.service.words import next_time
from trainer.sitting.events import Ask, Effect, Graded, Hinted, Judged, Show, Shown, Undone
from trainer.sitting.sitting import Prompt, Sitting
from trainer.sitting.verdict import MISSES, Judgement, Verdict

NOTHING_TO_UNDO = Paragraph("There is no answer of this sitting to take back.", passing=True)
AGAIN = "It comes again in this sitting."
TRY_AGAIN = Paragraph("Taken back: try again.", quiet=True, passing=True)


def tell(before: Moment, effects: Sequence[Effect], today: date) -> Moment:
    """The moment after these effects; the end of a sitting is told elsewhere."""
    moment = before
    taken_back = False
    for effect in effects:
        match effect:
            case Undone(None):
                return replace(before, page=(NOTHING_TO_UNDO, *_kept(before)))
            case Undone():
                taken_back = True
            case Show(prompt):
                moment = first_look(prompt)
            case Ask(prompt):
                moment = asked(prompt, taken_back)
            case Judged(judgement, prompt):
                moment = judged(moment, judgement, prompt)
            case Hinted(square, piece):
                moment = hinted(moment, square, piece)
            case Shown(prompt):
                moment = shown(prompt)
            case Graded():
                moment = graded(moment, effect, today)
    return moment


def with_aside(before: Moment, sentences: Sequence[str]) -> Moment:
    """The same moment with something said that is no effect, such as the position read out.

    Said once more, it is left out again.
    """
    aside = Paragraph("\n".join(sentences), passing=True)
    if aside in before.page:
        return replace(before, page=tuple(block for block in before.page if block != aside))
    return replace(before, page=(aside, *_kept(before)))


def asked(prompt: Prompt, taken_back: bool = False) -> Moment:
    """A card is asked; one that an undo pushed aside keeps what was given away."""
    card = prompt.card
    if prompt.shown:
        return shown(prompt)
    said: list[Block] = [Paragraph(last_move_in_words(card), Room.NARROW)]
    if taken_back:
        where = f"after {card.line}" if card.line else "to the first move"
        said.append(Paragraph(f"The answer {where} is taken back and asked again.", quiet=True))
    if prompt.repeat:
        said.append(Paragraph("Once more: it was not known at first.", quiet=True))
    if prompt.hint:
        said.append(Paragraph("A hint was given.", quiet=True))
    return Moment(
        arriving(card),
        card,
        headline=f"Taken back. {mover(card)}" if taken_back else mover(card),
        page=tuple(said),
        missed=_missed(prompt),
    )


def first_look(prompt: Prompt) -> Moment:
    """A fresh card is shown with its move and the reason."""
    card = prompt.card
    move = numbered(card.board, card.move.san)
    said = (
        Paragraph(deck_move_in_words(card), Room.ROOMY),
        *_comment(card.move),
        Paragraph("Play it, or go on. It is asked later.", quiet=True),
        *(Paragraph(text, quiet=True) for text in card.introduction.splitlines() if text),
    )
    return Moment(
        arriving(card, arrow_of_move(card)), card, "►", Tone.HELP, f"First look: {move}", page=said
    )


def first_look_headline(prompt: Prompt, sitting: Sitting) -> str:
    """`First look 3 of 10: 2. Nc3`; the only one is not counted."""
    now, total = sitting.looks
    count = f" {now} of {total}" if total > 1 else ""
    return f"First look{count}: {numbered(prompt.card.board, prompt.card.move.san)}"


def shown(prompt: Prompt) -> Moment:
    """The move was asked for."""
    card = prompt.card
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
        missed=_missed(prompt),
    )


def hinted(before: Moment, square: str, piece: str) -> Moment:
    """Which piece moves; the board says nothing of it."""
    best = 1 if before.missed else 3
    advice = f"With a hint the best score left is {best}. Asked once more, the move is shown."
    return replace(
        before,
        sign="?",
        tone=Tone.HELP,
        headline=f"The {piece} on {square} moves.",
        brief="",
        page=(Paragraph(advice, passing=True), *_kept(before)),
    )


def judged(before: Moment, judgement: Judgement, prompt: Prompt) -> Moment:
    """The verdict on a try."""
    if judgement.move is None or judgement.verdict in _UNCOUNTED:
        brief = _UNCOUNTED[judgement.verdict]
        return replace(
            before,
            sign="!",
            tone=Tone.BAD,
            headline=judgement.reason,
            brief=brief,
            page=_kept(before),
        )
    if judgement.verdict is Verdict.IN_BOOK:
        return _in_book(judgement, judgement.move, prompt)
    if judgement.verdict in MISSES:
        return _miss(judgement, judgement.move, prompt)
    move = numbered(prompt.card.board, judgement.san)
    head = "Transposes" if judgement.verdict is Verdict.TRANSPOSES else "Of another deck"
    return Moment(
        _taken_back(prompt, judgement.move, None),
        prompt.card,
        "≈",
        Tone.HELP,
        f"{head}: {move}",
        page=(Paragraph(judgement.reason), Paragraph("Neither right nor wrong: try again.")),
        missed=_missed(prompt),
    )


def graded(before: Moment, effect: Graded, today: date) -> Moment:
    """The answer is safe; when the card comes again."""
    again = effect.quality < REPEATED_BELOW
    said: list[Block] = [Paragraph(AGAIN, Room.ROOMY)] if again else []
    if effect.state.due is not None:
        when = f"Next {next_time(effect.state.due, today)}."
        said.append(Paragraph(f"{AGAIN} {when}" if again else when, Room.NARROW))
    # When it comes again stands before the lists, which may be long.
    why = [block for block in before.page if isinstance(block, Paragraph)]
    lists = [block for block in before.page if not isinstance(block, Paragraph)]
    return replace(before, page=(*why, *said, *lists))


_UNCOUNTED = {
    Verdict.UNREADABLE: "Not understood",
    Verdict.UNCLEAR: "Not clear",
    Verdict.ILLEGAL: "Not legal",
}


def _in_book(judgement: Judgement, move: chess.Move, prompt: Prompt) -> Moment:
    said = judgement.book_move
    why: tuple[Block, ...] = (Paragraph(judgement.reason),) if judgement.reason else ()
    return Moment(
        Stage(after_try(prompt.card, move, said)),
        prompt.card,
        "●",
        Tone.GOOD if not (prompt.shown or prompt.misses) else Tone.HELP,
        _how_it_went(prompt),
        page=why + (_note(said) if said else ()),
        answer=judgement.san,
        missed=_missed(prompt),
    )


_ORDINALS = {2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}


def _how_it_went(prompt: Prompt) -> str:
    if prompt.shown:
        return "In book, as shown"
    if prompt.misses:
        tries = prompt.misses + 1
        return f"In book, {_ORDINALS.get(tries, f'{tries}th')} try"
    if prompt.hint:
        return "In book, with a hint"
    return f"In book, first try, {prompt.hesitated or 0.0:.1f} s"


def _miss(judgement: Judgement, move: chess.Move, prompt: Prompt) -> Moment:
    said = judgement.book_move
    head = "Known mistake" if judgement.verdict is Verdict.KNOWN_MISTAKE else "Out of book"
    why: list[Block] = []
    if judgement.reason and not (said and said.note):
        why.append(Paragraph(judgement.reason, passing=True))
    if said is not None:
        why += _note(said)
        if said.explanation:
            why.append(Paragraph(said.explanation))
    return Moment(
        _taken_back(prompt, move, said),
        prompt.card,
        "×",
        Tone.BAD,
        f"{head}: {numbered(prompt.card.board, judgement.san)}",
        page=(*why, TRY_AGAIN),
        missed=_missed(prompt),
    )


def _taken_back(prompt: Prompt, move: chess.Move, said: BookMove | None) -> Stage:
    card = prompt.card
    arrows = arrow_of_move(card) if prompt.shown else ()
    return Stage(resting(card, arrows), after_try(card, move, said))


def _note(said: BookMove) -> tuple[Block, ...]:
    """What the deck says of a move, and what it draws, in words."""
    drawn = drawn_in_words(said)
    themes = (Rows((("themes", " · ".join(said.themes)),), room=Room.ROOMY),) if said.themes else ()
    return (*_comment(said), *themes, *((Rows(drawn),) if drawn else ()))


def _comment(said: BookMove) -> tuple[Block, ...]:
    return tuple(Paragraph(text) for text in said.note.splitlines() if text)


def _kept(before: Moment) -> tuple[Block, ...]:
    """What was said of this prompt and still holds, without what was said in passing."""
    return tuple(b for b in before.page if not (isinstance(b, Paragraph) and b.passing))


def _missed(prompt: Prompt) -> tuple[str, ...]:
    return tuple(attempt.san for attempt in prompt.tries if attempt.verdict in MISSES)
