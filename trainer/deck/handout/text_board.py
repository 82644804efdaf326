"""A diagram in plain signs: White's pieces as capitals, Black's as small letters."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from trainer.deck.handout.pages import Diagram


def text_board(diagram: Diagram) -> list[str]:
    """The rows of a board with the names of ranks and files."""
    board = chess.Board(diagram.fen)
    ranks, files = range(7, -1, -1), range(8)
    if diagram.side == "black":
        ranks, files = range(8), range(7, -1, -1)
    rows = [
        f"{rank + 1}  {' '.join(_sign(board, chess.square(file, rank)) for file in files)}"
        for rank in ranks
    ]
    names = "   " + " ".join(chess.FILE_NAMES[file] for file in files)
    return [*rows, names]


def marks_in_words(diagram: Diagram) -> Iterator[str]:
    """The squares and arrows that the board cannot show."""
    if diagram.squares:
        yield f"Marked: {', '.join(mark[1:] for mark in diagram.squares)}."
    if diagram.arrows:
        yield f"Arrows: {', '.join(f'{mark[1:3]}-{mark[3:]}' for mark in diagram.arrows)}."


def _sign(board: chess.Board, square: chess.Square) -> str:
    piece = board.piece_at(square)
    if piece is not None:
        return piece.symbol()
    return ":" if chess.BB_SQUARES[square] & chess.BB_DARK_SQUARES else "."
