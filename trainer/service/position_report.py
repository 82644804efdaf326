"""What can be counted in a position, and what the added decks say of it and of a try."""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from trainer.errors import TrainerError
from trainer.lines.facts import PositionFacts, position_facts
from trainer.lines.graph import BookPosition, LineGraph, Standing
from trainer.lines.letters import ENGLISH
from trainer.lines.movetext import BadLine, movetext
from trainer.lines.position import BadPosition, board_from_fen, full_fen, position_key
from trainer.lines.reading import Reading
from trainer.lines.typed import read_move
from trainer.service.books import BookId, Books, all_books, boards_after, moves_of_others
from trainer.service.opening import Shelf, read_shelf
from trainer.service.study import Study
from trainer.sitting.verdict import Judgement, Verdict, judge


@dataclass(frozen=True, slots=True)
class DeckHere:
    """What one deck has in the position; moves as SAN."""

    deck: str
    chapter: str
    side: str
    move: str | None
    """The student's move; None at the opponent's turn and where the lines end."""
    accepted: tuple[str, ...]
    mistakes: tuple[str, ...]
    replies: tuple[str, ...]
    """The opponent's moves that the deck answers or ends with."""


@dataclass(frozen=True, slots=True)
class PositionReport:
    """A position, its facts, what the decks have there, and the verdict on a try."""

    fen: str
    epd: str
    line: str
    """The line asked about as movetext; empty for a FEN."""
    facts: PositionFacts
    decks: tuple[DeckHere, ...]
    tried: Judgement | None


def report_position(study: Study, text: str, tried: str | None = None) -> PositionReport:
    """The position of a FEN or after a line, such as `1. e4 e5 2. Nf3`.

    :raises TrainerError: the text is neither.
    """
    shelf = read_shelf(study)
    books = all_books(study, shelf.decks)
    board, line = _read(text, books)
    key = position_key(board)
    here = [
        (book_id, position)
        for book_id, book in books.items()
        if (position := book.get(key)) is not None
    ]
    # A deck that asks for a move here comes before one whose lines only pass or end.
    here.sort(key=lambda found: found[1].deck_move is None)
    return PositionReport(
        fen=full_fen(board),
        epd=key,
        line=line,
        facts=position_facts(board),
        decks=tuple(_deck_here(book_id, position) for book_id, position in here),
        tried=None if tried is None else _judge(board, tried, here, books, shelf),
    )


def _read(text: str, books: Books) -> tuple[chess.Board, str]:
    if "/" in text:
        try:
            return board_from_fen(text), ""
        except BadPosition as error:
            raise TrainerError(f"{text!r} is no position: {error}") from error
    try:
        board = boards_after(text, books.values())[0]
    except BadLine as error:
        raise TrainerError(f"neither a FEN nor a line: {error}") from error
    return board, movetext(board.root(), board.move_stack)


def _deck_here(book_id: BookId, position: BookPosition) -> DeckHere:
    def moves(standing: Standing) -> tuple[str, ...]:
        return tuple(move.san for move in position.moves if move.standing is standing)

    deck_move = position.deck_move
    return DeckHere(
        deck=book_id[0],
        chapter=position.places[0].chapter,
        side=book_id[1],
        move=deck_move.san if deck_move else None,
        accepted=moves(Standing.ACCEPTED),
        mistakes=moves(Standing.MISTAKE),
        replies=moves(Standing.REPLY),
    )


def _judge(
    board: chess.Board,
    tried: str,
    here: list[tuple[BookId, BookPosition]],
    books: Books,
    shelf: Shelf,
) -> Judgement:
    """In the name of the first deck that asks for a move here, as a sitting would."""
    reading = read_move(board, tried, ENGLISH)
    if not here or here[0][1].deck_move is None:
        return _among_replies(reading, board, here)
    book_id, position = here[0]
    others = moves_of_others(books, shelf, position.key, book_id)
    return judge(reading, board, position, books[book_id], others)


def _among_replies(
    reading: Reading, board: chess.Board, here: list[tuple[BookId, BookPosition]]
) -> Judgement:
    """Where no deck asks for a move: in book if some deck has it among the replies."""
    empty = BookPosition(position_key(board), (), ())
    judgement = judge(reading, board, empty, LineGraph("", {}, (), 0), {})
    if judgement.move is None:
        return judgement
    uci = judgement.move.uci()
    for _, position in here:
        if (said := position.move(uci)) is not None:
            return replace(judgement, verdict=Verdict.IN_BOOK, reason="", book_move=said)
    return replace(judgement, reason="No deck here has this move.")
