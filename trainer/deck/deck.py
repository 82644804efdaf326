"""A deck as its files say it: chapters in order, each with its games as trees.

Plain facts. What the trees of a side make together is the graph of lines, what a student
remembers is nobody's business here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from hashlib import sha256

from trainer.lines.idea import Idea
from trainer.lines.tree import GameTree


class Kind(StrEnum):
    """What a chapter holds."""

    LINES = "lines"
    TACTICS = "tactics"
    GAMES = "games"
    IDEAS = "ideas"


@dataclass(frozen=True)
class Chapter:
    """One file of a deck."""

    id: str
    file: str
    """Its name inside the deck, with forward slashes."""
    title: str
    kind: Kind
    side: str
    """`white` or `black`: whose moves are asked; empty for the side to move, which a chapter
    of tactics or ideas may leave it at."""
    opens: date | None
    """Closed to students before this day."""
    after: str | None
    """The id of the chapter that must have been answered before this one opens."""
    games: tuple[GameTree, ...] = ()
    """The trees of a PGN chapter: lines, tactics or model games."""
    ideas: tuple[Idea, ...] = ()
    """What a chapter of ideas asks."""


@dataclass(frozen=True)
class Deck:
    """What a coach issues."""

    id: str
    title: str
    edition: int
    """1 or more; the coach raises it."""
    author: str
    language: str
    """A language tag (BCP 47), `und` where nothing is said."""
    licence: str
    """An SPDX expression, or empty."""
    about: str
    """Paragraphs separated by newlines, or empty."""
    chapters: tuple[Chapter, ...]
    digest: str
    """Of the names and bytes of its files: the same wherever the deck lies."""

    def without_trees(self) -> Deck:
        """The same without its games: once they are compiled, they are most of its memory."""
        chapters = tuple(replace(chapter, games=()) for chapter in self.chapters)
        return replace(self, chapters=chapters)


def digest_of(files: Mapping[str, bytes]) -> str:
    """SHA-256 over the names inside the deck and the contents, in the order of the names."""
    digest = sha256()
    for name in sorted(files):
        for part in (name.encode(), files[name]):
            digest.update(len(part).to_bytes(8, "big"))
            digest.update(part)
    return digest.hexdigest()
