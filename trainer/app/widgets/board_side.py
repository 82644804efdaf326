"""The board at the left edge with its caption: plays a stage, turns the board.

It owns the time that a wrong try, or the last move of a defence, stays in view, and which
side sits at the bottom.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import chess
from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import var
from textual.timer import Timer
from textual.widget import Widget

from trainer.app.telling.moment import NOTHING_YET, Stage
from trainer.app.widgets.board import Board, BoardView, Taste
from trainer.app.widgets.fixed_text import FixedText

TRY_SECONDS = 1.0
"""How long it stays on the board."""


class BoardSide(Widget):
    """A board that can be played on while `playable`."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")

    stage: var[Stage] = var(NOTHING_YET.stage, init=False)
    """What is shown, and how the board gets there."""
    black_below: var[bool] = var(False, init=False)
    """Whether Black sits at the bottom."""
    playable: var[bool] = var(False, init=False)
    """Whether the student may move pieces."""
    choosing: var[bool] = var(False, init=False)
    """Whether squares are chosen instead."""
    chosen: var[frozenset[chess.Square]] = var(frozenset(), init=False)
    """Which are chosen so far."""
    caption: var[str] = var("", init=False)
    """One sentence under the board, where there is room for it."""

    taste: var[Taste] = var(Taste(), init=False)
    """How the student likes boards; a change shows at once."""

    def __init__(self, *, taste: Taste | None = None, id: str | None = None) -> None:
        super().__init__(id=id)
        if taste:
            self.set_reactive(BoardSide.taste, taste)
        self._waiting: Timer | None = None

    def compose(self) -> ComposeResult:
        """The board, and the row below."""
        board = Board(id="board", taste=self.taste)
        board.interactive = False
        yield board
        yield FixedText(id="caption")

    @property
    def board(self) -> Board:
        """The board itself."""
        return self.query_one(Board)

    def watch_stage(self, stage: Stage) -> None:
        """Play the new stage; what was still under way is called off."""
        self._stop_timer()
        if stage.before is None:
            self.board.view = self._turned(stage.view)
        elif stage.arriving is not None:
            self.board.view = self._turned(stage.before)
            self.board.play(stage.arriving, self._turned(stage.view))
        else:
            self.board.view = self._turned(stage.before)
            self._waiting = self.set_timer(TRY_SECONDS, self._come_to_rest)
        self._let_play()

    def watch_black_below(self) -> None:
        """Turn the board; what was under way is over."""
        self._come_to_rest()

    def watch_playable(self) -> None:
        """Let the student play, or not."""
        self._let_play()

    def watch_choosing(self) -> None:
        """Clicks and keys choose squares, or move pieces."""
        self.board.choosing = self.choosing

    def watch_chosen(self) -> None:
        """Mark them."""
        self.board.chosen = self.chosen

    def watch_taste(self, taste: Taste) -> None:
        """Show the board as it is wanted now."""
        self.board.taste = taste

    def watch_caption(self, caption: str) -> None:
        """The sentence below."""
        self.query_one(FixedText).content = Content(caption)

    def _come_to_rest(self) -> None:
        self._stop_timer()
        self.board.view = self._turned(self.stage.view)
        self._let_play()

    def _let_play(self) -> None:
        self.board.interactive = self.playable and self._waiting is None

    def _stop_timer(self) -> None:
        if self._waiting:
            self._waiting.stop()
        self._waiting = None

    def _turned(self, view: BoardView) -> BoardView:
        return replace(view, flipped=self.black_below)
