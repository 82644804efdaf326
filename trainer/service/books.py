"""The compiled lines of the decks on the shelf, read when first needed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from trainer.lines.graph import LineGraph, graph_from_data
from trainer.service.opening import OpenDeck
from trainer.service.study import Study
from trainer.store.decks import read_lines

BookId = tuple[str, str]
"""Deck id and side."""


class Books(Mapping[BookId, LineGraph]):
    """The lines by deck id and side; each is read from the data file once."""

    def __init__(self, study: Study, ids: list[BookId]) -> None:
        self._study = study
        self._ids = ids
        self._read: dict[BookId, LineGraph] = {}

    def __getitem__(self, book: BookId) -> LineGraph:
        if book not in self._read:
            data = read_lines(self._study.db, *book) if book in self._ids else None
            if data is None:
                raise KeyError(book)
            self._read[book] = graph_from_data(data)
        return self._read[book]

    def __iter__(self) -> Iterator[BookId]:
        return iter(self._ids)

    def __len__(self) -> int:
        return len(self._ids)


def all_books(study: Study, decks: Iterable[OpenDeck]) -> Books:
    """The lines of these decks, both sides, in the order in which they were added."""
    ids = [
        (entry.deck.id, side)
        for entry in decks
        for side in dict.fromkeys(chapter.side for chapter in entry.deck.chapters)
    ]
    return Books(study, ids)
