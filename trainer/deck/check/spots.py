"""One place in a file of a deck, and the findings that name it."""

from __future__ import annotations

from typing import NamedTuple

from trainer.deck.findings import Finding, Severity
from trainer.lines.graph import BookPosition


class Spot(NamedTuple):
    """Where something stands."""

    file: str
    """The file's name inside the deck."""
    game: int
    """The number of the game, or of the idea, in its file, from 1."""
    line: int | None
    column: int | None = None

    def warning(self, code: str, message: str) -> Finding:
        """A finding of what is doubtful here."""
        return Finding(code, Severity.WARNING, *self, message)

    def note(self, code: str, message: str) -> Finding:
        """A finding of what a coach may want to know."""
        return Finding(code, Severity.NOTE, *self, message)


_SHOWN = 8
"""A message repeats no more moves than this."""


def after(position: BookPosition) -> str:
    """`after 1. e4 e5`, of a long line only its end; where the position first comes."""
    return after_line(position.places[0].line)


def after_line(line: str) -> str:
    """`after 1. e4 e5`, of a long line only its end."""
    if not line:
        return "at the start"
    words = line.split(" ")
    moves = [place for place, word in enumerate(words) if not word[0].isdigit()]
    if len(moves) <= _SHOWN:
        return f"after {line}"
    begin = moves[-_SHOWN]
    begin -= words[begin - 1][0].isdigit()
    return f"after ... {' '.join(words[begin:])}"
