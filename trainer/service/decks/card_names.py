"""By what a reader knows a card: the line, the title or the question, and the answer."""

from __future__ import annotations

from trainer.lines.graph import BookPosition
from trainer.lines.idea import Idea
from trainer.lines.played_out import PlayedOut
from trainer.service.decks.cards import Source


def kind_of(source: Source) -> str:
    """`move`, `idea` or `tactic`."""
    if isinstance(source, BookPosition):
        return "move"
    return "idea" if isinstance(source, Idea) else "tactic"


def line_of(source: Source) -> str:
    """The movetext that leads there; empty where a game or a solution starts."""
    if isinstance(source, BookPosition):
        return source.places[0].line
    return source.line if isinstance(source, Idea) else ""


def title_of(source: Source) -> str:
    """The game's title, or the question of an idea."""
    if isinstance(source, BookPosition):
        return source.places[0].title
    if isinstance(source, Idea):
        return source.ask
    return source.title or f"number {source.number}"


def answer_of(source: Source) -> str:
    """The move as SAN, the main line as movetext, or what an idea asks for."""
    if isinstance(source, BookPosition):
        return source.deck_move.san if source.deck_move else ""
    if isinstance(source, PlayedOut):
        return source.movetext(0, 0)
    return source.answer
