"""The moments of a question: asked, shown, right, not right; in each form of its answer."""

from __future__ import annotations

from dataclasses import replace

import chess

from trainer.app.telling.blocks import Block, Choices, Paragraph, Room
from trainer.app.telling.moment import Moment, Stage, Tone, Wants
from trainer.app.telling.notes import AGAIN, TRY_AGAIN, how_it_went, paragraphs, said_before
from trainer.app.telling.positions import (
    after_try,
    arriving,
    arrow_of,
    last_move_in_words,
    mover,
    resting,
)
from trainer.app.widgets.board import BoardView
from trainer.lines.idea import Form
from trainer.lines.movetext import numbered
from trainer.sitting.cards import IdeaCard
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import MISSES, Judgement, Verdict

WANTS = {Form.SQUARES: Wants.SQUARES, Form.MOVE: Wants.MOVE, Form.CHOOSE: Wants.NUMBER}
"""What the box waits for."""

_SHORT = 80
"""Signs of an answer that is told twice."""

_TASKS = {
    Form.SQUARES: "Which squares?",
    Form.MOVE: "Which move?",
    Form.CHOOSE: "Which answer?",
}
_HOW = {
    Form.SQUARES: "Type the square or squares, or click them, then Enter.",
    Form.MOVE: "",
    Form.CHOOSE: "",
}


def asked(card: IdeaCard, prompt: Prompt, again: bool) -> Moment:
    """A question; where it is long it begins the page.

    :param again: its answer was taken back.
    """
    form = card.idea.form
    how = (Paragraph(_HOW[form], quiet=True),) if _HOW[form] else ()
    return Moment(
        arriving(card),
        card,
        headline=card.idea.ask,
        brief=f"Taken back. {_TASKS[form]}" if again else _TASKS[form],
        page=(*_choices(prompt), *how, *said_before(prompt, again), _where(card)),
        wants=WANTS[form],
        missed=_missed(prompt),
    )


def shown(card: IdeaCard, prompt: Prompt) -> Moment:
    """The answer was asked for."""
    headline, give = _told(card, prompt)
    squares = tuple(f"G{name}" for name in card.idea.squares)
    arrows = arrow_of(card.idea.move)
    return Moment(
        Stage(replace(resting(card, arrows), squares=squares)),
        card,
        "►",
        Tone.HELP,
        headline,
        page=(
            *paragraphs(card.idea.ask),
            *_choices(prompt, told=True),
            Paragraph(f"{give} to go on. {AGAIN}", quiet=True),
        ),
        wants=WANTS[card.idea.form],
        missed=_missed(prompt),
    )


def judged(card: IdeaCard, judgement: Judgement, prompt: Prompt) -> Moment:
    """The verdict on an answer."""
    if judgement.verdict is Verdict.IN_BOOK:
        return _right(card, judgement, prompt)
    number = _number(prompt, judgement.san)
    tried = f"answer {number}" if card.idea.form is Form.CHOOSE else judgement.san
    if judgement.move is not None:
        tried = numbered(card.board, tried)
    return Moment(
        Stage(_at_rest(card, prompt), _with_try(card, judgement)),
        card,
        "×",
        Tone.BAD,
        f"No, not {tried}",
        page=(
            *paragraphs(card.idea.ask),
            *_choices(prompt, told=prompt.shown),
            Paragraph("Try again.", quiet=True, passing=True) if number else TRY_AGAIN,
        ),
        wants=WANTS[card.idea.form],
        missed=_missed(prompt),
    )


def _right(card: IdeaCard, judgement: Judgement, prompt: Prompt) -> Moment:
    idea = card.idea
    view = resting(card)
    if judgement.move is not None:
        view = after_try(card, judgement.move, None)
    if idea.form is Form.SQUARES:
        view = replace(view, chosen=_squares(idea.squares), wrong=_wrong_squares(card, prompt))
    choices = _choices(prompt, told=True)
    asked_again = tuple(replace(part, quiet=True) for part in paragraphs(idea.ask))
    return Moment(
        Stage(view),
        card,
        "●",
        Tone.GOOD if not (prompt.shown or prompt.misses) else Tone.HELP,
        how_it_went(prompt, "Right"),
        page=(*_right_choice(prompt), *paragraphs(idea.why), *asked_again, *choices),
        answer=_number(prompt, judgement.san) or judgement.san,
        wants=WANTS[idea.form],
        missed=_missed(prompt),
    )


def _told(card: IdeaCard, prompt: Prompt) -> tuple[str, str]:
    """The answer in a sentence, and how it is given."""
    match card.idea.form:
        case Form.MOVE:
            return f"The move is {numbered(card.board, prompt.answer)}", "Play it"
        case Form.CHOOSE:
            number = _number(prompt, prompt.answer)
            return f"The answer is {number}", f"Type {number}"
    one = len(card.idea.squares) == 1
    return f"The {'square is' if one else 'squares are'} {prompt.answer}", "Choose it" if one else (
        "Choose them"
    )


def _where(card: IdeaCard) -> Block:
    """How the position came about, on a desk whose board has no caption."""
    last = f"{last_move_in_words(card)} " if card.path else ""
    return Paragraph(f"{last}{mover(card)}", Room.NARROW, quiet=True)


# --- Answers to choose from


def _choices(prompt: Prompt, told: bool = False) -> tuple[Block, ...]:
    """The answers with their numbers, and which were tried in vain.

    :param told: whether the right one may be seen.
    """
    if not prompt.choices:
        return ()
    numbers = tuple((str(number), text) for number, text in enumerate(prompt.choices, 1))
    right = _number(prompt, prompt.answer) if told else ""
    return (Choices(numbers, right=right, wrong=_missed(prompt)),)


def _right_choice(prompt: Prompt) -> tuple[Block, ...]:
    """On a narrow desk the right sentence before its reason: the list may lie below the fold.

    Not a long one, which would push the reason there instead.
    """
    short = prompt.choices and len(prompt.answer) <= _SHORT
    return (Paragraph(f"{prompt.answer.rstrip('.')}.", Room.NARROW),) if short else ()


def _number(prompt: Prompt, text: str) -> str:
    """The number of an answer to choose; empty where none are chosen from."""
    return str(prompt.choices.index(text) + 1) if text in prompt.choices else ""


def _missed(prompt: Prompt) -> tuple[str, ...]:
    tried = (attempt.san for attempt in prompt.tries if attempt.verdict in MISSES)
    return tuple(_number(prompt, san) or san for san in tried)


# --- Squares


def _at_rest(card: IdeaCard, prompt: Prompt) -> BoardView:
    """The position without a try, with the answer where that was shown."""
    return shown(card, prompt).stage.view if prompt.shown else resting(card)


def _with_try(card: IdeaCard, judgement: Judgement) -> BoardView | None:
    """What was tried, on the board; an answer from a list has no place there."""
    if judgement.move is not None:
        return after_try(card, judgement.move, None)
    if card.idea.form is Form.SQUARES:
        return replace(resting(card), chosen=_squares(judgement.san.split()))
    return None


def _squares(names: tuple[str, ...] | list[str]) -> frozenset[chess.Square]:
    return frozenset(chess.parse_square(name) for name in names)


def _wrong_squares(card: IdeaCard, prompt: Prompt) -> frozenset[chess.Square]:
    """What was chosen in vain, told only once the right ones are."""
    tried = {name for san in _missed(prompt) for name in san.split()}
    return _squares(sorted(tried.difference(card.idea.squares)))
