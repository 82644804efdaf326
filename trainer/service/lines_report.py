"""One side of a deck as the Lines screen shows it: the tree of what is open, and how it stands.

A position counts where it has its place in the tree. What is closed has no place in it; the
chapters say when they open.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import accumulate

from trainer.lines.graph import BookPosition, LineGraph
from trainer.lines.stretches import StretchTree, grow
from trainer.memory.card_state import FRESH, CardState
from trainer.service.books import BookId, Books, all_books
from trainer.service.opening import OpenDeck, read_shelf
from trainer.service.study import Study
from trainer.store.decks import StoredChapter
from trainer.store.preferences import read_preferences


@dataclass(frozen=True, slots=True)
class ChapterHere:
    """A chapter of this side."""

    id: str
    title: str
    open: bool
    opens: date | None = None
    """The day to come on which it opens."""
    after: str = ""
    """The title of the chapter that has to be answered first, where one has to."""


@dataclass(frozen=True, slots=True)
class Counts:
    """How the cards of some positions stand."""

    cards: int
    known: int
    """The last counted answer was right."""
    shaky: int
    """It was not."""
    fresh: int
    """Never asked."""
    due: int
    """The due day is reached, known or not."""


class Tally:
    """The counts of any run of positions, by their numbers in the tree."""

    def __init__(self, states: Iterable[CardState | None], today: date) -> None:
        """:param states: of the card of each position; None where none is asked."""
        marks = [_NO_CARD, *(_marks(state, today) for state in states)]
        self._sums = [list(accumulate(column)) for column in zip(*marks, strict=True)]

    def of(self, positions: range) -> Counts:
        """The counts of these positions."""
        return Counts(*(sums[positions.stop] - sums[positions.start] for sums in self._sums))


_NO_CARD = (0, 0, 0, 0, 0)


def _marks(state: CardState | None, today: date) -> tuple[int, ...]:
    if state is None:
        return _NO_CARD
    known, fresh = state.known, state.fresh
    return 1, known, not (known or fresh), fresh, state.is_due(today)


@dataclass(frozen=True)
class LinesReport:
    """Everything that the Lines screen shows of one side of a deck."""

    books: tuple[BookId, ...]
    """All that could be shown, in the order in which decks were added."""
    deck: str
    side: str
    edition: int
    title: str
    today: date
    preferred: Mapping[str, str]
    """By position key the move (UCI) that the student keeps."""
    book: LineGraph
    tree: StretchTree
    """Of the positions that have a place in an open chapter."""
    chapters: tuple[ChapterHere, ...]
    """Of this side, in deck order."""
    states: Mapping[str, CardState]
    """By card, of those ever asked."""
    tally: Tally

    @property
    def id(self) -> BookId:
        """Deck and side."""
        return self.deck, self.side

    def chapter(self, chapter_id: str) -> ChapterHere:
        """The chapter with this id."""
        return next(chapter for chapter in self.chapters if chapter.id == chapter_id)

    def state(self, position: BookPosition) -> CardState:
        """How the card of a position stands."""
        return self.states.get(position.card, FRESH)


def report_lines(
    study: Study,
    deck: str | None = None,
    side: str | None = None,
    before: LinesReport | None = None,
) -> LinesReport | None:
    """The lines of a deck as they stand now; None where there is no deck.

    Without such a deck or side it is the first one that fits.

    :param before: an earlier report; its lines are not read again if they are the same.
    """
    shelf = read_shelf(study)
    lines = all_books(study, shelf.decks)
    books = [book for entry in shelf.decks for book in _books_of(entry, lines)]
    if not books:
        return None
    wanted = min(books, key=lambda book: ((book[0] != deck), (book[1] != side)))
    entry = shelf.find(wanted[0])
    preferred = read_preferences(study.db, wanted[0]).get(wanted[1], {})
    known = before is not None and (before.id, before.edition, before.preferred) == (
        wanted,
        entry.deck.edition,
        preferred,
    )
    book = before.book if before is not None and known else lines.get(wanted, _NO_LINES)
    tree = _tree(book, entry.open_chapters)
    states = (
        shelf.states.get(position.card, FRESH) if position.deck_move else None
        for position in map(book.positions.__getitem__, tree.keys)
    )
    return LinesReport(
        books=tuple(books),
        deck=wanted[0],
        side=wanted[1],
        edition=entry.deck.edition,
        title=entry.deck.title,
        today=study.today,
        preferred=preferred,
        book=book,
        tree=tree,
        chapters=tuple(_chapters(entry, wanted[1], study.today)),
        states=shelf.states,
        tally=Tally(states, study.today),
    )


_NO_LINES = LineGraph("white", {}, (), 0)


def _books_of(entry: OpenDeck, lines: Books) -> list[BookId]:
    """The trees of a deck; an empty one where it has no lines, for its other chapters."""
    return [book for book in lines if book[0] == entry.deck.id] or [(entry.deck.id, "white")]


def _tree(book: LineGraph, open_chapters: frozenset[str]) -> StretchTree:
    return grow(
        book, lambda position: any(place.chapter in open_chapters for place in position.places)
    )


def _chapters(entry: OpenDeck, side: str, today: date) -> Iterable[ChapterHere]:
    titles = {chapter.id: chapter.title for chapter in entry.deck.chapters}
    for chapter in entry.deck.chapters:
        if chapter.side == side and chapter.kind == "lines":
            yield _chapter(chapter, titles, chapter.id in entry.open_chapters, today)


def _chapter(
    chapter: StoredChapter, titles: Mapping[str, str], is_open: bool, today: date
) -> ChapterHere:
    if is_open:
        return ChapterHere(chapter.id, chapter.title, True)
    opens = chapter.opens if chapter.opens and chapter.opens > today else None
    after = titles.get(chapter.after, chapter.after) if chapter.after else ""
    return ChapterHere(chapter.id, chapter.title, False, opens, after)
