"""What a deck asks: its cards in the order in which they come, made in one place for all.

Whether it was just read or stands on the shelf, the same contents give the same cards: they
are kept so when a deck is added and when the student prefers a move, and compared so when a
new edition comes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from trainer.lines.graph import BookPosition, LineGraph
from trainer.lines.idea import Idea
from trainer.lines.played_out import PlayedOut
from trainer.lines.preferred import with_preferences
from trainer.store.decks import StoredCard, StoredChapter

Source = BookPosition | Idea | PlayedOut


@dataclass(frozen=True, slots=True)
class DeckCard:
    """A card with what it is made of."""

    card: str
    side: str
    chapters: tuple[str, ...]
    """Those in which it has a place, in deck order."""
    source: Source
    """Of what several places have, the first."""


@dataclass(frozen=True)
class Contents:
    """A deck with all that it asks."""

    deck: str
    title: str
    edition: int
    chapters: tuple[StoredChapter, ...]
    graphs: Mapping[str, LineGraph]
    """The lines by side, as the deck has them."""
    ideas: Mapping[str, tuple[Idea, ...]]
    """By chapter."""
    tactics: Mapping[str, tuple[PlayedOut, ...]]
    """By chapter."""
    preferred: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """By side and position key the move (UCI) that the student keeps."""

    @cached_property
    def practised(self) -> Mapping[str, LineGraph]:
        """The lines by side, as the student practises them."""
        return {
            side: with_preferences(graph, self.preferred.get(side, {}))
            for side, graph in self.graphs.items()
        }

    @cached_property
    def cards(self) -> tuple[DeckCard, ...]:
        """Lines in travel order, then ideas, then tactics; a card that chapters share once."""
        order = {chapter.id: place for place, chapter in enumerate(self.chapters)}
        found: dict[str, tuple[str, set[str], Source]] = {}
        for card, side, chapters, source in self._places():
            found.setdefault(card, (side, set(), source))[1].update(chapters)
        return tuple(
            DeckCard(card, side, tuple(sorted(chapters, key=order.__getitem__)), source)
            for card, (side, chapters, source) in found.items()
        )

    @property
    def stored_cards(self) -> list[StoredCard]:
        """The cards as the shelf keeps them."""
        return [
            StoredCard(card.card, card.side, rank, card.chapters)
            for rank, card in enumerate(self.cards)
        ]

    def _places(self) -> Iterator[tuple[str, str, Iterator[str] | tuple[str], Source]]:
        """Card, side, chapters, and what it is made of."""
        for side, graph in self.practised.items():
            for position in graph.cards:
                chapters = (place.chapter for place in position.places)
                yield position.card, side, chapters, position
        for exercises in (self.ideas, self.tactics):
            for chapter in self.chapters:
                for one in exercises.get(chapter.id, ()):
                    yield one.key, one.side, (chapter.id,), one
