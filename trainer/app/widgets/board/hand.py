"""The reader's hand over the board: taking, carrying and dropping a piece, and the cursor.

A value and the rules of what a press, a drag and a key do to it; a finished try comes out.
Whether a try is legal is not asked here: the screen says why a move is none.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess


@dataclass(frozen=True)
class Hand:
    """Where the reader's hand is."""

    held: chess.Square | None = None
    """The square of the piece in hand."""
    over: chess.Square | None = None
    """The square the piece is dragged over while the button is down, else None."""
    fresh: bool = False
    """Whether the button that is down has just taken the piece; if not, it may put it down."""
    cursor: chess.Square | None = None
    """The square the keyboard points at."""

    @property
    def dragging(self) -> bool:
        """Whether the button is down on a piece."""
        return self.over is not None

    def empty(self) -> Hand:
        """The hand after putting down what it held."""
        return Hand(cursor=self.cursor)


Try = tuple[chess.Square, chess.Square]
"""From and to."""


def press(hand: Hand, board: chess.Board, square: chess.Square) -> tuple[Hand, Try | None]:
    """The button goes down: take an own piece, or drop the one in hand."""
    if _own(board, square):
        fresh = square != hand.held
        return replace(hand, held=square, over=square, fresh=fresh), None
    if hand.held is not None:
        return hand.empty(), (hand.held, square)
    return hand, None


def drag(hand: Hand, square: chess.Square | None) -> Hand:
    """The pointer moves with the button down; off the board the piece stays where it was."""
    return replace(hand, over=square if square is not None else hand.held)


def release(hand: Hand, square: chess.Square | None) -> tuple[Hand, Try | None]:
    """The button goes up: a drop elsewhere is a try, a click on the held piece puts it down."""
    if not hand.dragging or hand.held is None:
        return hand, None
    if square == hand.held and hand.fresh:
        return replace(hand, over=None, fresh=False), None
    if square is None or square == hand.held:
        return hand.empty(), None
    return hand.empty(), (hand.held, square)


def take_or_drop(hand: Hand, board: chess.Board) -> tuple[Hand, Try | None]:
    """The key that does what a click on the cursor's square would do."""
    if hand.cursor is None:
        return hand, None
    pressed, tried = press(hand, board, hand.cursor)
    return (pressed, tried) if tried else release(pressed, hand.cursor)


def step(square: chess.Square, right: int, up: int, flipped: bool) -> chess.Square:
    """The square so many columns and rows away as the reader sees them, kept on the board."""
    turn = -1 if flipped else 1
    file = chess.square_file(square) + turn * right
    rank = chess.square_rank(square) + turn * up
    return chess.square(min(max(file, 0), 7), min(max(rank, 0), 7))


def _own(board: chess.Board, square: chess.Square) -> bool:
    return board.color_at(square) == board.turn
