"""The compiled lines of the decks on the shelf, read when first needed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import chess

from trainer.lines.graph import LineGraph, Standing, graph_from_data
from trainer.lines.movetext import BadLine, read_movetext
from trainer.lines.preferred import with_preferences
from trainer.service.collection import collection_paused
from trainer.service.opening import OpenDeck, Shelf
from trainer.service.study import Study
from trainer.store.database import DataFileError
from trainer.store.decks import read_lines
from trainer.store.preferences import read_preferences

BookId = tuple[str, str]
"""Deck id and side."""


class Books(Mapping[BookId, LineGraph]):
    """The lines by deck id and side, as the student practises them who prefers some moves.

    Each is read from the data file once.
    """

    def __init__(self, study: Study, ids: list[BookId]) -> None:
        self._study = study
        self._ids = ids
        self._read: dict[BookId, LineGraph] = {}

    def __getitem__(self, book: BookId) -> LineGraph:
        if book not in self._read:
            if book not in self._ids:
                raise KeyError(book)
            preferred = read_preferences(self._study.db, book[0]).get(book[1], {})
            self._read[book] = with_preferences(read_book(self._study, book), preferred)
        return self._read[book]

    def __iter__(self) -> Iterator[BookId]:
        return iter(self._ids)

    def __len__(self) -> int:
        return len(self._ids)


def read_book(study: Study, book: BookId) -> LineGraph:
    """The lines as the deck has them, whatever the student prefers.

    :raises DataFileError: they are missing or damaged.
    """
    deck, side = book
    try:
        with collection_paused():
            return graph_from_data(read_lines(study.db, deck, side) or {})
    except (ValueError, TypeError, KeyError, IndexError) as error:
        raise DataFileError(
            f"the compiled lines of deck {deck!r} are missing or damaged; add the deck again"
        ) from error


def boards_after(line: str, books: Iterable[LineGraph]) -> list[chess.Board]:
    """Where a line leads from the usual start, and from each start of lines where it is legal.

    The boards keep their moves. A line that lines of a deck give from a position of their own
    is read back so.

    :raises BadLine: it is legal from none of them.
    """
    own = {
        place.start
        for book in books
        for position in book.positions.values()
        for place in position.places
    }
    boards: list[chess.Board] = []
    refused: BadLine | None = None
    for start in (chess.STARTING_FEN, *sorted(own - {chess.STARTING_FEN})):
        board = chess.Board(start)
        try:
            moves = read_movetext(line, board)
        except BadLine as error:
            refused = refused or error
            continue
        for move in moves:
            board.push(move)
        boards.append(board)
    if not boards and refused:
        raise refused
    return boards


def moves_of_others(books: Books, shelf: Shelf, position: str, asking: BookId) -> dict[str, str]:
    """Moves (UCI) that other decks play in a position for the same side, with their titles.

    What a move is to a deck is asked of all its chapters, closed ones too.
    """
    titles = {entry.deck.id: entry.deck.title for entry in shelf.decks}
    found: dict[str, str] = {}
    for book_id in books:
        if book_id[1] != asking[1] or book_id[0] == asking[0]:
            continue
        here = books[book_id].get(position)
        for move in here.moves if here else ():
            if move.standing in (Standing.DECK, Standing.ACCEPTED):
                found.setdefault(move.uci, titles[book_id[0]])
    return found


def all_books(study: Study, decks: Iterable[OpenDeck]) -> Books:
    """The lines of these decks, both sides, in the order in which they were added."""
    ids = [
        (entry.deck.id, side)
        for entry in decks
        for side in dict.fromkeys(
            chapter.side for chapter in entry.deck.chapters if chapter.kind == "lines"
        )
    ]
    return Books(study, ids)
