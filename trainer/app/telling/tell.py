"""From the effects of a sitting to the moment that the screen shows.

Nothing is decided here: what counts, what comes next and what is right was settled by the
sitting; the words are those of the module of each kind. Until an answer is in, nothing says
or draws more of it than the sitting has given away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from trainer.app.telling import games, ideas, moves, tactics
from trainer.app.telling.blocks import Block, Paragraph, Room
from trainer.app.telling.moment import Moment, Tone
from trainer.app.telling.notes import AGAIN, kept
from trainer.memory.sm2 import REPEATED_BELOW
from trainer.service.words import next_time
from trainer.sitting.cards import AskingMove, GuessCard, IdeaCard, MoveCard, TacticCard
from trainer.sitting.events import (
    Ask,
    Effect,
    Graded,
    Guessed,
    Hinted,
    Judged,
    Reply,
    RestShown,
    Show,
    Shown,
    Undone,
)
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import Judgement, Verdict

NOTHING_TO_UNDO = Paragraph("There is no answer of this sitting to take back.", passing=True)


def tell(before: Moment, effects: Sequence[Effect], today: date) -> Moment:
    """The moment after these effects; the end of a sitting is told elsewhere."""
    moment = before
    taken_back = False
    for effect in effects:
        match effect:
            case Undone(None):
                return replace(before, page=(NOTHING_TO_UNDO, *kept(before)))
            case Undone():
                taken_back = True
            case Ask(prompt):
                moment = asked(prompt, taken_back)
            case Reply(prompt):
                moment = _replied(moment if moment is not before else None, prompt)
            case Graded():
                moment = graded(moment, effect, today)
            case _:
                moment = _told(moment, effect)
    return moment


def _told(moment: Moment, effect: Effect) -> Moment:
    """What one effect of the present turn adds or puts in place of the moment."""
    match effect:
        case Show(_, card):
            return moves.first_look(card)
        case Judged(judgement, prompt):
            return judged(moment, judgement, prompt)
        case Hinted(square, piece):
            return hinted(moment, square, piece)
        case Shown(prompt):
            return shown(prompt)
        case RestShown(Prompt(card=TacticCard() as card)):
            return tactics.rest_shown(moment, card)
        case Guessed(Prompt(card=GuessCard() as card) as prompt, judgement, right):
            return games.guessed(card, judgement, right, prompt)
    return moment


def with_aside(before: Moment, sentences: Sequence[str]) -> Moment:
    """The same moment with something said that is no effect, such as the position read out.

    Said once more, it is left out again.
    """
    aside = Paragraph("\n".join(sentences), passing=True)
    if aside in before.page:
        return replace(before, page=tuple(block for block in before.page if block != aside))
    return replace(before, page=(aside, *kept(before)))


def asked(prompt: Prompt, taken_back: bool = False) -> Moment:
    """A card is asked; one that an undo pushed aside keeps what was given away."""
    if prompt.shown:
        return shown(prompt)
    match prompt.card:
        case MoveCard() as card:
            return moves.asked(card, prompt, taken_back)
        case TacticCard() as card:
            return tactics.asked(card, prompt, taken_back)
        case IdeaCard() as card:
            return ideas.asked(card, prompt, taken_back)
        case GuessCard() as card:
            return games.asked(card, prompt)
    raise TypeError(f"nothing is said of a {prompt.card.kind}")


def shown(prompt: Prompt) -> Moment:
    """The answer was asked for."""
    match prompt.card:
        case IdeaCard() as card:
            return ideas.shown(card, prompt)
        case AskingMove() as card:
            return moves.shown(card, prompt)
    raise TypeError(f"a {prompt.card.kind} has nothing to show")


def hinted(before: Moment, square: str, piece: str) -> Moment:
    """Which piece moves; the board says nothing of it."""
    best = 1 if before.missed else 3
    advice = f"With a hint the best score left is {best}. Asked once more, the move is shown."
    if isinstance(before.card, TacticCard):
        advice = "A hint leaves 3 at best. Asked once more, the move is shown."
    elif isinstance(before.card, GuessCard):
        advice = "Asked once more, the game's move is told."
    return replace(
        before,
        sign="?",
        tone=Tone.HELP,
        headline=f"The {piece} on {square} moves.",
        brief="",
        page=(Paragraph(advice, passing=True), *kept(before)),
    )


def no_hint(before: Moment) -> Moment:
    """A question has no piece to name; asked once more, help shows its answer."""
    question = () if before.sign else (Paragraph(before.headline),)
    advice = "Asked once more, the answer is shown; that leaves 0."
    return replace(
        before,
        sign="?",
        tone=Tone.HELP,
        headline="A question has no hint.",
        brief="",
        page=(Paragraph(advice, passing=True), *question, *kept(before)),
        offered=True,
    )


def judged(before: Moment, judgement: Judgement, prompt: Prompt) -> Moment:
    """The verdict on a try."""
    if judgement.verdict in _UNCOUNTED:
        return _uncounted(before, judgement)
    card = prompt.card
    if isinstance(card, IdeaCard):
        return ideas.judged(card, judgement, prompt)
    if judgement.move is not None:
        if isinstance(card, TacticCard):
            return tactics.judged(card, judgement.move, judgement, prompt)
        if isinstance(card, MoveCard):
            return moves.judged(card, judgement.move, judgement, prompt)
    raise TypeError(f"no try at a {card.kind} is judged so")


_UNCOUNTED = {
    Verdict.UNREADABLE: "Not understood",
    Verdict.UNCLEAR: "Not clear",
    Verdict.ILLEGAL: "Not legal",
}


def _uncounted(before: Moment, judgement: Judgement) -> Moment:
    """Nothing was tried; a question that stood in the headline goes on the page."""
    asks = isinstance(before.card, IdeaCard) and not before.sign
    question = (Paragraph(before.headline),) if asks else ()
    return replace(
        before,
        sign="!",
        tone=Tone.BAD,
        headline=judgement.reason,
        brief=_UNCOUNTED[judgement.verdict],
        page=(*question, *kept(before)),
    )


def _replied(after: Moment | None, prompt: Prompt) -> Moment:
    match prompt.card:
        case TacticCard() as card:
            return tactics.replied(after, card, prompt)
        case GuessCard() as card:
            return games.replied(card, prompt)
    raise TypeError(f"nobody replies in a {prompt.card.kind}")


def graded(before: Moment, effect: Graded, today: date) -> Moment:
    """The answer is safe; when the card comes again."""
    if isinstance(effect.prompt.card, TacticCard):
        before = tactics.over(before, effect.prompt)
    again = effect.quality < REPEATED_BELOW
    said: list[Block] = [Paragraph(AGAIN, Room.ROOMY)] if again else []
    if effect.state.due is not None:
        when = f"Next {next_time(effect.state.due, today)}."
        said.append(Paragraph(f"{AGAIN} {when}" if again else when, Room.NARROW))
    # When it comes again stands before the lists and the question, which may be long.
    why = [block for block in before.page if _is_why(block)]
    rest = [block for block in before.page if not _is_why(block)]
    return replace(before, page=(*why, *said, *rest))


def _is_why(block: Block) -> bool:
    return isinstance(block, Paragraph) and not block.quiet
