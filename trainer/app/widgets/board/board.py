"""The board to play on: one view in, the reader's tries out.

It owns the mouse, the cursor and the piece in hand. It knows no cards and no decks and judges
no move: an illegal goal is posted like any other.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import chess
from textual.binding import Binding, BindingType
from textual.events import MouseDown, MouseEvent, MouseMove, MouseUp
from textual.reactive import var

from trainer.app.widgets.board import hand as hands
from trainer.app.widgets.board.geometry import square_under
from trainer.app.widgets.board.hand import Hand, Try
from trainer.app.widgets.board.picture import BoardMessage, BoardPicture
from trainer.app.widgets.board.taste import Taste
from trainer.app.widgets.board.view import BoardView, overlay

_OTHER_BUTTONS = {2, 3}
"""The middle and the right one. The first is 1, or 0 where a terminal names none."""

_STEPS = {"up": (0, 1), "down": (0, -1), "left": (-1, 0), "right": (1, 0)}


class Board(BoardPicture, can_focus=True):
    """A chess board. Clicks, drags and keys make tries; the screen decides what they are."""

    FOCUS_ON_CLICK = False
    """A click plays; the box for typed moves keeps the focus."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(
                key,
                f"step({right}, {up})",
                key,
                show=False,
                id=f"board.{key}",
                tooltip=f"Move the cursor on the board one square {key}.",
            )
            for key, (right, up) in _STEPS.items()
        ),
        Binding(
            "enter,space",
            "take_or_drop",
            "take, drop",
            id="board.take",
            tooltip="Take the piece under the cursor, or drop the one in hand there.",
        ),
        Binding(
            "space",
            "choose",
            "mark",
            id="board.choose",
            tooltip="Where squares are asked for: mark the one under the cursor, or no longer.",
        ),
        Binding(
            "escape",
            "put_down",
            "put down",
            id="board.put_down",
            tooltip="Put the piece in hand back on its square.",
        ),
    ]

    interactive: var[bool] = var(True, init=False)
    """Whether pieces can be taken and squares chosen."""
    choosing: var[bool] = var(False, init=False)
    """Whether clicks and keys choose squares instead of moving pieces."""
    chosen: var[frozenset[chess.Square]] = var(frozenset(), init=False)
    """The squares that the reader has chosen so far, laid over the view."""

    @dataclass
    class MoveTried(BoardMessage):
        """The reader has dropped a piece; what a pawn becomes is for the screen to ask."""

        from_square: chess.Square
        """Where it was taken."""
        to_square: chess.Square
        """Where it was dropped, legal or not."""

    @dataclass
    class SquareChosen(BoardMessage):
        """The reader has pointed at a square while `choosing`."""

        square: chess.Square
        """Which one."""

    def __init__(
        self,
        view: BoardView | None = None,
        *,
        taste: Taste | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(view, taste=taste, id=id, classes=classes)
        self._position = chess.Board(self.view.fen)
        self._hand = Hand()

    @property
    def held(self) -> chess.Square | None:
        """The square of the piece in hand."""
        return self._hand.held

    # What is shown

    def watch_view(self, old: BoardView, new: BoardView) -> None:
        """Show the new view; a piece in hand stays there only if the position stays."""
        self._position = chess.Board(new.fen)
        if old.fen != new.fen:
            self._take_hand(self._hand.empty())
        super().watch_view(old, new)

    def play(self, move: chess.Move, then: BoardView) -> None:
        """Empty the reader's hand, then show a move in two steps and post `Stood`."""
        self._take_hand(self._hand.empty())
        super().play(move, then)

    def shown(self) -> BoardView:
        """The view with the reader's own hand laid over it."""
        hand = self._hand
        frame = hand.held if hand.over is None else hand.over
        cursor = hand.cursor if self.has_focus and self.interactive else None
        return overlay(
            super().shown(),
            in_hand=frame,
            cursor=cursor,
            targets=self._goals(),
            chosen=self.chosen,
        )

    def _goals(self) -> frozenset[chess.Square]:
        """Where the piece in hand may go by the rules."""
        held = self._hand.held
        if held is None or not self.taste.show_targets:
            return frozenset()
        moves = self._position.generate_legal_moves(from_mask=chess.BB_SQUARES[held])
        return frozenset(move.to_square for move in moves)

    # The mouse

    def on_mouse_down(self, event: MouseDown) -> None:
        """Take a piece, drop it, or choose a square."""
        square = self._square(event)
        if square is None or event.button != 1 or not self._may_act():
            return
        event.stop()
        if self.choosing:
            self.post_message(self.SquareChosen(self, square))
            return
        self._act(hands.press(self._hand, self._position, square))
        if self._hand.dragging:
            self.capture_mouse()

    def on_mouse_move(self, event: MouseMove) -> None:
        """Carry the frame along while the button is down."""
        if self._hand.dragging:
            event.stop()
            self._take_hand(hands.drag(self._hand, self._square(event)))

    def on_mouse_up(self, event: MouseUp) -> None:
        """Drop what was dragged; the other buttons do nothing."""
        if event.button in _OTHER_BUTTONS:
            return
        if self.app.mouse_captured is self:
            self.release_mouse()
        if self._hand.dragging:
            event.stop()
            self._act(hands.release(self._hand, self._square(event)))

    def _square(self, event: MouseEvent) -> chess.Square | None:
        # The event comes from a column, or from anywhere while the mouse is captured.
        x, y = event.screen_offset - self.content_region.offset
        size = self.square_size
        return square_under(x, y, size, self.view.flipped) if size else None

    # The keyboard

    def watch_has_focus(self, has_focus: bool) -> None:
        """Show the cursor, at first on the own king, or hide it."""
        super().watch_has_focus(has_focus)
        if has_focus and self._hand.cursor is None:
            king = self._position.king(self._position.turn)
            self._hand = replace(self._hand, cursor=chess.E4 if king is None else king)
        self.repaint_changes()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave the keys to the screen where the board has no use for them."""
        if action == "put_down":
            return self._hand.held is not None
        if action == "step":
            return self._may_act()
        if action in {"take_or_drop", "choose"}:
            return self._may_act() and self.choosing == (action == "choose")
        return super().check_action(action, parameters)

    def action_step(self, right: int, up: int) -> None:
        """Move the cursor."""
        if self._hand.cursor is not None:
            cursor = hands.step(self._hand.cursor, right, up, self.view.flipped)
            self._take_hand(replace(self._hand, cursor=cursor))

    def action_take_or_drop(self) -> None:
        """Do what a click on the cursor's square would do."""
        self._act(hands.take_or_drop(self._hand, self._position))

    def action_choose(self) -> None:
        """Choose the square under the cursor."""
        if self._hand.cursor is not None:
            self.post_message(self.SquareChosen(self, self._hand.cursor))

    def action_put_down(self) -> None:
        """Put the piece in hand back."""
        self._take_hand(self._hand.empty())

    # The hand

    def watch_chosen(self) -> None:
        """Mark what is chosen now."""
        self.repaint_changes()

    def watch_choosing(self) -> None:
        """Other keys work."""
        self.action_put_down()
        self.refresh_bindings()

    def watch_interactive(self) -> None:
        """Empty the hand, and show or hide the cursor."""
        self._take_hand(self._hand.empty())
        self.repaint_changes()
        self.refresh_bindings()

    def _may_act(self) -> bool:
        return self.interactive and not self.moving

    def _act(self, done: tuple[Hand, Try | None]) -> None:
        """Take the new hand, and post the try if there is one."""
        hand, tried = done
        self._take_hand(hand)
        if tried:
            self.post_message(self.MoveTried(self, *tried))

    def _take_hand(self, hand: Hand) -> None:
        changed = hand.held != self._hand.held
        self._hand = hand
        self.repaint_changes()
        if changed:
            self.refresh_bindings()
