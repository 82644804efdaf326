"""What a deck holds: its lines, positions, cards and chapters, on the shelf or at a path."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from trainer.deck.deck import Kind
from trainer.lines.played_out import PlayedOut
from trainer.service.coming import coming
from trainer.service.decks.cards import Contents
from trainer.service.decks.contents import contents_of, shelved_contents, stored_deck
from trainer.service.decks.named import on_shelf, read_at
from trainer.service.exercises import made_of
from trainer.service.opening import OpenDeck, open_to_new_student
from trainer.service.study import Study
from trainer.store.database import DataFileError
from trainer.store.decks import StoredDeck, read_decks, read_exercises


@dataclass(frozen=True, slots=True)
class ChapterReport:
    """One chapter of a deck."""

    id: str
    title: str
    kind: str
    side: str
    """Empty where the side to move counts."""
    cards: int
    """Cards with a place in it; cards that chapters share count in each."""
    open: bool
    opens: date | None
    """The day from which it can be open, if the coach set one."""
    after: str | None
    """The id of the chapter that has to be answered first, if one has to."""
    when: str
    """Of a closed chapter what it waits for: `opens on Friday 1 January 2027`; else empty."""


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


@dataclass(frozen=True, slots=True)
class ShownDeck:
    """A deck with all that it holds."""

    report: DeckReport
    contents: Contents
    games: Mapping[str, tuple[PlayedOut, ...]]
    """The model games by chapter."""


def list_decks(study: Study) -> list[StoredDeck]:
    """The decks in the order in which they were added."""
    return read_decks(study.db)


def show_deck(study: Study, name: str, side: str | None = None) -> ShownDeck:
    """A deck on the shelf, or at a path; there it is open as it would be to a new student.

    :param name: its id, or a path.
    :param side: `white` or `black`; needed for the path of a PGN file, and for that alone.
    :raises TrainerError: there is no such deck, or it has errors.
    """
    if entry := on_shelf(study, name):
        return _on_shelf(study, entry)
    deck, compiled = read_at(Path(name), side)
    contents = contents_of(deck, compiled)
    entry = open_to_new_student(stored_deck(deck), contents.stored_cards, study.today)
    games = {c.id: compiled.played[c.id] for c in deck.chapters if c.kind is Kind.GAMES}
    return ShownDeck(_report(entry, contents, study.today), contents, games)


def _on_shelf(study: Study, entry: OpenDeck) -> ShownDeck:
    contents = shelved_contents(study, entry.deck.id)
    if contents is None:
        raise DataFileError(f"the deck {entry.deck.id!r} was removed meanwhile; try again")
    games = {
        chapter.id: tuple(_games(study, entry.deck.id, chapter.id))
        for chapter in entry.deck.chapters
        if chapter.kind == Kind.GAMES
    }
    return ShownDeck(_report(entry, contents, study.today), contents, games)


def _games(study: Study, deck: str, chapter: str) -> Iterator[PlayedOut]:
    for exercise in read_exercises(study.db, deck, chapter):
        game = made_of(Kind.GAMES, exercise, deck)
        if isinstance(game, PlayedOut):
            yield game


def _cards_by_chapter(contents: Contents) -> Counter[str]:
    return Counter(chapter for card in contents.cards for chapter in card.chapters)


def _report(entry: OpenDeck, contents: Contents, today: date) -> DeckReport:
    deck = entry.deck
    waits = {chapter.chapter: chapter.when for chapter in coming(entry, today)}
    graphs = list(contents.graphs.values())
    cards = _cards_by_chapter(contents)
    return DeckReport(
        id=deck.id,
        title=deck.title,
        edition=deck.edition,
        author=deck.author,
        licence=deck.licence,
        about=deck.about,
        lines=sum(graph.lines for graph in graphs),
        positions=len({key for graph in graphs for key in graph.positions}),
        cards=len(contents.cards),
        transpositions=sum(graph.transpositions for graph in graphs),
        chapters=tuple(
            ChapterReport(
                id=chapter.id,
                title=chapter.title,
                kind=chapter.kind,
                side=chapter.side,
                cards=cards[chapter.id],
                open=chapter.id in entry.open_chapters,
                opens=chapter.opens,
                after=chapter.after,
                when=waits.get(chapter.id, ""),
            )
            for chapter in contents.chapters
        ),
    )
