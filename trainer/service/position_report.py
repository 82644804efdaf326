"""What the added decks say of a position, and of a try in it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from trainer.errors import TrainerError
from trainer.lines.graph import BookPosition, LineGraph, Standing
from trainer.lines.letters import ENGLISH
from trainer.lines.movetext import BadLine, movetext, read_movetext
from trainer.lines.position import BadPosition, board_from_fen, full_fen, position_key
from trainer.lines.typed import read_move
from trainer.service.books import all_books
from trainer.service.opening import read_shelf
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
    """A position, what the decks have there, and the verdict on a try."""

    fen: str
    epd: str
    line: str
    """The line asked about as movetext; empty for a FEN."""
    decks: tuple[DeckHere, ...]
    tried: Judgement | None


def report_position(study: Study, text: str, tried: str | None = None) -> PositionReport:
    """The position of a FEN or after a line, such as `1. e4 e5 2. Nf3`.

    :raises TrainerError: the text is neither.
    """
    board, line = _read(text)
    key = position_key(board)
    books = all_books(study, read_shelf(study).decks)
    here = [
        (deck, book, position)
        for (deck, _), book in books.items()
        if (position := book.get(key)) is not None
    ]
    return PositionReport(
        fen=full_fen(board),
        epd=key,
        line=line,
        decks=tuple(_deck_here(deck, book, position) for deck, book, position in here),
        tried=None if tried is None else _judge(board, tried, here),
    )


def _read(text: str) -> tuple[chess.Board, str]:
    if "/" in text:
        try:
            return board_from_fen(text), ""
        except BadPosition as error:
            raise TrainerError(f"{text!r} is no position: {error}") from error
    try:
        moves = read_movetext(text)
    except BadLine as error:
        raise TrainerError(f"neither a FEN nor a line: {error}") from error
    board = chess.Board()
    for move in moves:
        board.push(move)
    return board, movetext(chess.Board(), moves)


def _deck_here(deck: str, book: LineGraph, position: BookPosition) -> DeckHere:
    def moves(standing: Standing) -> tuple[str, ...]:
        return tuple(move.san for move in position.moves if move.standing is standing)

    deck_move = position.deck_move
    return DeckHere(
        deck=deck,
        chapter=position.places[0].chapter,
        side=book.side,
        move=deck_move.san if deck_move else None,
        accepted=moves(Standing.ACCEPTED),
        mistakes=moves(Standing.MISTAKE),
        replies=moves(Standing.REPLY),
    )


def _judge(
    board: chess.Board, tried: str, here: list[tuple[str, LineGraph, BookPosition]]
) -> Judgement:
    """In the name of the first deck whose student is to move here."""
    mover = "white" if board.turn == chess.WHITE else "black"
    asking = [(book, position) for _, book, position in here if book.side == mover]
    empty = BookPosition(position_key(board), (), ())
    book, position = asking[0] if asking else (LineGraph(mover, {}, (), 0), empty)
    judgement = judge(read_move(board, tried, ENGLISH), board, position, book, {})
    return judgement if asking else _among_replies(judgement, here)


def _among_replies(
    judgement: Judgement, here: list[tuple[str, LineGraph, BookPosition]]
) -> Judgement:
    """Where no deck asks for a move: in book if some deck has it among the replies."""
    if judgement.move is None:
        return judgement
    uci = judgement.move.uci()
    for _, _, position in here:
        if (said := position.move(uci)) is not None:
            return replace(judgement, verdict=Verdict.IN_BOOK, reason="", book_move=said)
    return replace(judgement, reason="No deck here has this move.")
