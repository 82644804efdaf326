"""Typed text as the answer that a card is asked for: a move, squares, or a number."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial

from trainer.lines.idea import Form
from trainer.sitting.cards import IdeaCard
from trainer.sitting.events import AnswerChosen, Event, MoveTyped, SquaresChosen
from trainer.sitting.sitting import Prompt

_SQUARES = re.compile(r"[a-h][1-8](?:[\s,]+[a-h][1-8])*", re.IGNORECASE)


def typed_answer(prompt: Prompt, text: str) -> Callable[[float], Event]:
    """What a text is meant as; one that is no answer of the wanted form is taken for a move."""
    form = prompt.card.idea.form if isinstance(prompt.card, IdeaCard) else Form.MOVE
    if form is Form.SQUARES and _SQUARES.fullmatch(text):
        return partial(SquaresChosen, tuple(text.lower().replace(",", " ").split()))
    if form is Form.CHOOSE and text.isascii() and text.isdigit() and len(text) <= 3:
        return partial(AnswerChosen, int(text))
    return partial(MoveTyped, text)
