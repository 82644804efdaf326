"""Which chapters are open to the student, and which cards these bring, in travel order.

A chapter opens on its date, or once every card of another was answered with quality 3 or
more; a chapter in whose name a card was asked never closes again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.errors import TrainerError
from trainer.memory.card_state import FRESH, CardState
from trainer.service.study import Study
from trainer.store.answers import asked_chapters, read_states
from trainer.store.decks import StoredCard, StoredDeck, read_cards, read_decks


@dataclass(frozen=True, slots=True)
class OpenCard:
    """A card that may be asked."""

    card: str
    side: str
    chapters: tuple[str, ...]
    """The open chapters in which it has a place, in deck order."""
    kind: str
    """Of the chapter in whose name it is asked: `lines`, `ideas` or `tactics`."""
    state: CardState

    @property
    def chapter(self) -> str:
        """The chapter in whose name it is asked."""
        return self.chapters[0]


@dataclass(frozen=True, slots=True)
class OpenDeck:
    """A deck with what of it is open."""

    deck: StoredDeck
    open_chapters: frozenset[str]
    cards: tuple[OpenCard, ...]
    """In travel order."""
    left: Mapping[str, int]
    """By chapter how many of its cards, open or not, were never answered right."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """All decks in the order in which they were added, and all that is remembered."""

    decks: tuple[OpenDeck, ...]
    states: Mapping[str, CardState]
    """By card, of cards ever asked, in a deck or not."""

    def find(self, deck_id: str) -> OpenDeck:
        """The deck with this id.

        :raises TrainerError: it is not on the shelf.
        """
        for entry in self.decks:
            if entry.deck.id == deck_id:
                return entry
        names = ", ".join(entry.deck.id for entry in self.decks)
        there = f"the decks are: {names}" if names else "add one with `trainer deck add PATH`"
        raise TrainerError(f"there is no deck {deck_id!r}; {there}")

    def each_card_once(self, deck_ids: Iterable[str] | None = None) -> list[tuple[str, OpenCard]]:
        """Deck id and card; a shared card in the name of its first deck.

        All lines come first, in travel order, then ideas, then tactics.
        """
        wanted = None if deck_ids is None else set(deck_ids)
        found: dict[str, tuple[str, OpenCard]] = {}
        for entry in self.decks:
            if wanted is None or entry.deck.id in wanted:
                for card in entry.cards:
                    found.setdefault(card.card, (entry.deck.id, card))
        return sorted(found.values(), key=lambda entry: _ORDER[entry[1].kind])


_ORDER = {"lines": 0, "ideas": 1, "tactics": 2}


def open_to_new_student(deck: StoredDeck, cards: Sequence[StoredCard], today: date) -> OpenDeck:
    """A deck as it would stand on the shelf of somebody who never answered anything."""
    left = _left(cards, {})
    opened = _open_today(deck, left, today)
    return OpenDeck(deck, opened, tuple(_open_cards(deck, cards, opened, {})), left)


def read_shelf(study: Study) -> Shelf:
    """Everything on the shelf as it stands today."""
    states = read_states(study.db)
    asked = asked_chapters(study.db)
    decks = []
    for deck in read_decks(study.db):
        cards = list(read_cards(study.db, deck.id))
        left = _left(cards, states)
        opened = frozenset(
            chapter for deck_id, chapter in asked if deck_id == deck.id
        ) | _open_today(deck, left, study.today)
        decks.append(OpenDeck(deck, opened, tuple(_open_cards(deck, cards, opened, states)), left))
    return Shelf(tuple(decks), states)


def _left(cards: Iterable[StoredCard], states: Mapping[str, CardState]) -> Counter[str]:
    return Counter(
        chapter
        for card in cards
        if not states.get(card.card, FRESH).held_once
        for chapter in card.chapters
    )


def _open_today(deck: StoredDeck, left: Mapping[str, int], today: date) -> frozenset[str]:
    return frozenset(
        chapter.id
        for chapter in deck.chapters
        if (chapter.opens is None or chapter.opens <= today)
        and (chapter.after is None or not left.get(chapter.after))
    )


def _open_cards(
    deck: StoredDeck,
    cards: Sequence[StoredCard],
    opened: frozenset[str],
    states: Mapping[str, CardState],
) -> Iterable[OpenCard]:
    kinds = {chapter.id: chapter.kind for chapter in deck.chapters}
    for card in cards:
        chapters = tuple(chapter for chapter in card.chapters if chapter in opened)
        if chapters:
            state = states.get(card.card, FRESH)
            yield OpenCard(card.card, card.side, chapters, kinds[chapters[0]], state)
