"""What a deck on the shelf holds: its lines, positions, cards and chapters."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.service.books import all_books
from trainer.service.opening import OpenDeck, read_shelf
from trainer.service.study import Study
from trainer.store.decks import StoredDeck, read_cards, read_decks


@dataclass(frozen=True, slots=True)
class ChapterReport:
    """One chapter of a deck."""

    id: str
    title: str
    kind: str
    side: str
    cards: int
    """Cards with a place in it; cards that chapters share count in each."""
    open: bool


@dataclass(frozen=True, slots=True)
class DeckReport:
    """One deck."""

    id: str
    title: str
    edition: int
    author: str
    licence: str
    about: str
    lines: int
    """Ends of lines as written."""
    positions: int
    cards: int
    transpositions: int
    """Positions into which more than one move leads."""
    chapters: tuple[ChapterReport, ...]


def list_decks(study: Study) -> list[StoredDeck]:
    """The decks in the order in which they were added."""
    return read_decks(study.db)


def report_deck(study: Study, deck_id: str) -> DeckReport:
    """One deck on the shelf.

    :raises TrainerError: there is no such deck.
    """
    entry = read_shelf(study).find(deck_id)
    graphs = list(all_books(study, [entry]).values())
    cards = list(read_cards(study.db, deck_id))
    deck = entry.deck
    return DeckReport(
        id=deck.id,
        title=deck.title,
        edition=deck.edition,
        author=deck.author,
        licence=deck.licence,
        about=deck.about,
        lines=sum(graph.lines for graph in graphs),
        positions=len({key for graph in graphs for key in graph.positions}),
        cards=len(cards),
        transpositions=sum(graph.transpositions for graph in graphs),
        chapters=_chapters(entry, [chapter for card in cards for chapter in card.chapters]),
    )


def _chapters(entry: OpenDeck, places: list[str]) -> tuple[ChapterReport, ...]:
    return tuple(
        ChapterReport(
            chapter.id,
            chapter.title,
            chapter.kind,
            chapter.side,
            places.count(chapter.id),
            chapter.id in entry.open_chapters,
        )
        for chapter in entry.deck.chapters
    )
