"""What the board is asked to show, and what that means for each of the 64 squares.

A position and what is said of it come in, one look a square goes out. The rules of chess are
python-chess's; nothing here paints.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

import chess

from trainer.app.widgets.board.arrows import Arrow, read_arrows, read_squares, stones
from trainer.app.widgets.board.geometry import Size, is_light, place_of
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.pieces import ORDER


@dataclass(frozen=True)
class BoardView:
    """A position, and what is to be said of it."""

    fen: str = chess.STARTING_FEN
    """The position; the side to move may take its pieces."""
    flipped: bool = False
    """Whether Black sits at the bottom."""
    last_move: chess.Move | None = None
    """The move that led here."""
    in_hand: chess.Square | None = None
    """A square that gets the frame of a piece in hand."""
    targets: frozenset[chess.Square] = frozenset()
    """Squares that get the sign "may go there"."""
    cursor: chess.Square | None = None
    """A square that gets the cursor, whether the board has the focus or not."""
    squares: tuple[str, ...] = ()
    """Squares of a note, as `[%csl]` writes them (`Gd5`)."""
    arrows: tuple[str, ...] = ()
    """Arrows of a note, as `[%cal]` writes them (`Gf1c4`)."""
    chosen: frozenset[chess.Square] = frozenset()
    """Squares that the reader has chosen as an answer."""
    wrong: frozenset[chess.Square] = frozenset()
    """Squares that were chosen and are no answer."""


def overlay(
    view: BoardView,
    *,
    in_hand: chess.Square | None = None,
    cursor: chess.Square | None = None,
    targets: frozenset[chess.Square] = frozenset(),
    chosen: frozenset[chess.Square] = frozenset(),
) -> BoardView:
    """The view with the reader's own hand laid over it; what the view itself says stays."""
    return replace(
        view,
        in_hand=in_hand if view.in_hand is None else view.in_hand,
        cursor=cursor if view.cursor is None else view.cursor,
        targets=view.targets | targets,
        chosen=view.chosen | chosen,
    )


def looks(
    view: BoardView, size: Size, piece_letters: Sequence[str] = ORDER
) -> dict[chess.Square, Look]:
    """What each square shows.

    :param piece_letters: the reader's letters for king, queen, rook, bishop, knight, pawn.
    """
    board = chess.Board(view.fen)
    arrows = read_arrows(view.arrows)
    notes = read_squares(view.squares)
    marks = _marks(view, board, arrows)
    pieces = board.piece_map()
    lying = stones(arrows, size, view.flipped, pieces) if size.fine else {}
    letters = _arrow_letters(arrows, tails=not size.fine)

    def look(square: chess.Square) -> Look:
        piece = pieces[square].symbol() if square in pieces else ""
        rank, file = _coordinates(square, size, view.flipped)
        return Look(
            light=is_light(square),
            piece=piece,
            letter=piece_letters[ORDER.index(piece.upper())] if piece else "",
            marks=frozenset(marks[square]),
            stones=lying.get(square, frozenset()),
            note=notes.get(square, ""),
            arrow=letters.get(square, ""),
            rank=rank,
            file=file,
        )

    return {square: look(square) for square in chess.SQUARES}


def _arrow_letters(arrows: tuple[Arrow, ...], tails: bool) -> dict[chess.Square, str]:
    """The letters at each goal, every one once; of a square without, those that begin there."""
    goals: dict[chess.Square, str] = {}
    starts: dict[chess.Square, str] = {}
    for arrow in arrows:
        for square, letters in ((arrow.head, goals), (arrow.tail, starts)):
            before = letters.get(square, "")
            letters[square] = before if arrow.letter in before else before + arrow.letter
    return starts | goals if tails else goals


def _marks(
    view: BoardView, board: chess.Board, arrows: tuple[Arrow, ...]
) -> defaultdict[chess.Square, set[Mark]]:
    """The marks of every square that has any."""
    said: list[tuple[chess.Square | None, Mark]] = [
        (view.in_hand, Mark.HELD),
        (view.cursor, Mark.CURSOR),
        (board.king(board.turn) if board.is_check() else None, Mark.CHECK),
    ]
    if view.last_move:
        said += [(view.last_move.from_square, Mark.FROM), (view.last_move.to_square, Mark.TO)]
    for target in view.targets:
        said.append((target, Mark.CAPTURE if board.piece_at(target) else Mark.GOAL))
    said += [(square, Mark.CHOSEN) for square in view.chosen]
    said += [(square, Mark.WRONG) for square in view.wrong]
    said += [(square, Mark.NOTED) for square in read_squares(view.squares)]
    for arrow in arrows:
        said += [(arrow.tail, Mark.ARROW_FROM), (arrow.head, Mark.ARROW_TO)]
    marks: defaultdict[chess.Square, set[Mark]] = defaultdict(set)
    for square, mark in said:
        if square is not None:
            marks[square].add(mark)
    return marks


def _coordinates(square: chess.Square, size: Size, flipped: bool) -> tuple[str, str]:
    """The rank digit and the file letter that stand inside this square."""
    if not size.inside:
        return "", ""
    column, row = place_of(square, flipped)
    name = chess.square_name(square)
    return name[1] if column == 0 else "", name[0] if row == 7 else ""
