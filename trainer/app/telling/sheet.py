"""The moves that led to a position, as the rows of a scoresheet with one open box."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from trainer.sitting.cards import Card


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One full move."""

    number: int
    white: str
    black: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """The finished rows, and the row with the box."""

    rows: tuple[SheetRow, ...]
    number: int
    """The number of the move in question; 0 where none is asked for."""
    white: str
    """White's move beside the box; empty where White is asked."""
    white_asked: bool


EMPTY = Sheet((), 1, "", True)


def sheet(card: Card, move: bool = True) -> Sheet:
    """The scoresheet of a card, up to its box.

    :param move: whether a move is asked for; else the box stands alone.
    """
    board = chess.Board(card.start)
    rows: list[SheetRow] = []
    white = "" if board.turn else "..."
    for played in card.path:
        san = board.san(played)
        if board.turn:
            white = san
        else:
            rows.append(SheetRow(board.fullmove_number, white, san))
            white = ""
        board.push(played)
    if not move:
        if card.path and not board.turn:
            rows.append(SheetRow(board.fullmove_number, white, ""))
        return Sheet(tuple(rows), 0, "", True)
    return Sheet(tuple(rows), board.fullmove_number, white, board.turn)
