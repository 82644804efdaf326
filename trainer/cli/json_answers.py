"""One line of a program's answers, read as what it wants of the sitting.

Whether an answer makes sense where the sitting stands is the sitting's business; here a
line is one of the answers of the protocol, or it is unusable and the reason says why.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from trainer.sitting.events import (
    AnswerChosen,
    Event,
    HintWanted,
    MoveTyped,
    ShowWanted,
    SquaresChosen,
    Stop,
    UndoWanted,
)

LONGEST_WAIT = 86_400.0
"""Seconds; a longer time is taken for a day."""


@dataclass(frozen=True, slots=True)
class Usable:
    """An answer of the protocol."""

    event: Callable[[float], Event]
    """Makes the event from the seconds since the last one."""
    seconds: float | None = None
    """What the program says it took; None where the clock holds."""


@dataclass(frozen=True, slots=True)
class Unusable:
    """A line that is none."""

    reason: str
    seconds: float | None = None


def read_answer(line: str) -> Usable | Unusable:
    """Read one line: an object, or a bare move as text."""
    text = line.strip()
    if not text.startswith("{"):
        return Usable(partial(MoveTyped, text))
    try:
        fields = json.loads(text)
    except (ValueError, RecursionError):
        return Unusable("This line is no JSON object; a bare move needs no brackets.")
    return _read_fields(fields)


def _read_fields(fields: dict[str, Any]) -> Usable | Unusable:
    seconds = _seconds(fields.pop("seconds", None))
    if isinstance(seconds, Unusable):
        return seconds
    if len(fields) != 1:
        return Unusable(f"An answer has one of {_NAMES}, and may have seconds.", seconds)
    ((name, value),) = fields.items()
    if name == "move":
        if isinstance(value, str):
            return Usable(partial(MoveTyped, value), seconds)
        return Unusable('A move is text, such as {"move": "Nf3"}.', seconds)
    if name == "squares":
        if isinstance(value, list) and value and all(isinstance(part, str) for part in value):
            return Usable(partial(SquaresChosen, tuple(value[:_MOST_SQUARES])), seconds)
        return Unusable('Squares are a list, such as {"squares": ["d4", "e5"]}.', seconds)
    if name == "choose":
        if type(value) is int:  # True is an int, too
            return Usable(partial(AnswerChosen, value), seconds)
        return Unusable('A choice is a number from 1, such as {"choose": 2}.', seconds)
    if name not in _WISHES:
        return Unusable(f"An answer has one of {_NAMES}, and may have seconds.", seconds)
    if value is not True:
        return Unusable(f'Write {{"{name}": true}}.', seconds)
    return Usable(_WISHES[name], seconds)


def _seconds(value: Any) -> float | Unusable | None:
    if value is None:
        return None
    good = isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < math.inf
    if not good:
        return Unusable("seconds is a number from 0, such as 2.5.")
    return float(min(value, LONGEST_WAIT))


_WISHES: dict[str, Callable[[float], Event]] = {
    "hint": HintWanted,
    "show": ShowWanted,
    "undo": UndoWanted,
    "stop": Stop,
}

_MOST_SQUARES = 65
"""One more than there are: enough to be wrong."""

_NAMES = "move, squares, choose, hint, show, undo or stop"
