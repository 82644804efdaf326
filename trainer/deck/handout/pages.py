"""What a handout holds, as plain values: sections, entries, paragraphs of words, diagrams.

Knows neither HTML nor columns of text; `as_html` and `as_text` write it. All text is as
the deck has it, nothing escaped.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum


class Manner(StrEnum):
    """How a word is set."""

    MAIN = "main"
    """A move of a main line."""
    MOVE = "move"
    """A move of a variation."""
    SAID = "said"
    """What the author says."""
    SHARE = "share"
    """How many opponents choose the move before it."""
    OWN = "own"
    """A word of ours, in English whatever the deck's language."""


@dataclass(frozen=True, slots=True)
class Word:
    """A few signs that are set alike; moves are never broken inside."""

    text: str
    manner: Manner
    link: str = ""
    """The anchor to which it leads; empty where it leads nowhere."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words in a row."""

    words: tuple[Word, ...]
    level: int = 0
    """How many variations it lies deep."""


def with_dashes(words: Iterable[Word]) -> Iterator[Word]:
    """A dash between a move and what is said of it, where no type sets them apart."""
    of_move = False
    for word in words:
        dash = "– " if of_move and word.manner is Manner.SAID else ""
        yield replace(word, text=dash + word.text)
        of_move = word.manner in (Manner.MAIN, Manner.MOVE, Manner.SHARE)


@dataclass(frozen=True, slots=True)
class Diagram:
    """One board."""

    fen: str
    """Six FEN fields."""
    side: str
    """`white` or `black`: who sees it from below."""
    caption: str
    """A word of ours."""
    squares: tuple[str, ...] = ()
    """Colour letter and square, such as `Gd5`."""
    arrows: tuple[str, ...] = ()
    """Colour letter, from and to, such as `Gf1c4`."""


@dataclass(frozen=True, slots=True)
class Choices:
    """Answers to choose from, in the order of their letters."""

    answers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Blank:
    """Room for an answer in writing."""


Block = Paragraph | Diagram | Choices | Blank


@dataclass(frozen=True, slots=True)
class Entry:
    """A line, a game, an exercise or its solution."""

    anchor: str
    """Its name for links, once in the handout."""
    number: str
    title: str
    """Empty where it has none."""
    blocks: tuple[Block, ...]
    whole: bool = False
    """Not to be broken across pages."""


@dataclass(frozen=True, slots=True)
class Section:
    """A chapter, or the solutions of one."""

    anchor: str
    number: str
    title: str
    remark: str
    """What kind of chapter it is, or that these are its answers, in our words."""
    entries: tuple[Entry, ...]
    listed: bool = False
    """Whether the contents name its entries."""
    answers: bool = False
    """Whether it answers what a chapter asks."""


@dataclass(frozen=True, slots=True)
class Handout:
    """The whole of it."""

    deck: str
    title: str
    edition: int
    author: str
    licence: str
    language: str
    """A language tag (BCP 47), `und` where nothing is said."""
    about: str
    """Paragraphs separated by newlines, or empty."""
    sections: tuple[Section, ...]
    """The chapters in deck order, then the solutions."""

    @property
    def diagrams(self) -> list[Diagram]:
        """Every board in it."""
        return [
            block
            for section in self.sections
            for entry in section.entries
            for block in entry.blocks
            if isinstance(block, Diagram)
        ]
