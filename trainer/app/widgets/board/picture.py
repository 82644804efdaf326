"""A board to look at: the view it shows, the size it takes, the two steps of a move.

It has no focus and hears no mouse. It knows no cards and no decks.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import chess
from textual.app import ComposeResult
from textual.message import Message
from textual.reactive import var
from textual.theme import Theme
from textual.timer import Timer
from textual.widget import Widget

from trainer.app.widgets.board.geometry import Face, Size, place_of
from trainer.app.widgets.board.parts import FileColumn, Notice, RankDigits
from trainer.app.widgets.board.scene import Scene
from trainer.app.widgets.board.taste import Taste
from trainer.app.widgets.board.view import BoardView, overlay

FRAME_SECONDS = 0.1
"""How long the frame stands round a piece before it moves."""


@dataclass
class BoardMessage(Message):
    """Anything that a board tells."""

    board: BoardPicture
    """The board it happened on."""

    @property
    def control(self) -> BoardPicture:
        """The same, for `@on` with a selector."""
        return self.board


class BoardPicture(Widget):
    """A chess board that shows one view and repaints only what changed in it."""

    DEFAULT_CSS = Path(__file__).with_name("board.tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False

    view: var[BoardView] = var(BoardView(), init=False)
    """The position and what is said of it."""
    taste: var[Taste] = var(Taste(), init=False)
    """How the reader likes it; a change shows at once."""

    @dataclass
    class Stood(BoardMessage):
        """A move shown by `play` has arrived, and the position stands still."""

    def __init__(
        self,
        view: BoardView | None = None,
        *,
        taste: Taste | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(id=id, classes=classes)
        self._scene = Scene()
        self._lifted: chess.Square | None = None
        self._landing: Timer | None = None
        if view:
            self.set_reactive(BoardPicture.view, view)
        if taste:
            self.set_reactive(BoardPicture.taste, taste)

    def compose(self) -> ComposeResult:
        """The parts, left to right."""
        yield RankDigits(self._scene)
        for column in range(8):
            yield FileColumn(self._scene, column)
        yield Notice(self._scene)

    def on_mount(self) -> None:
        """Follow the theme: a terminal's own colours want the plain board."""
        self.app.theme_changed_signal.subscribe(self, self._theme_changed)
        self._measure()

    @property
    def square_size(self) -> Size | None:
        """The size of the squares now; None where the terminal is too small for a board."""
        return self._scene.fit(self.app.size)

    @property
    def moving(self) -> bool:
        """Whether `play` has framed a piece that has not moved yet."""
        return self._landing is not None

    def play(self, move: chess.Move, then: BoardView) -> None:
        """Show a move in two steps, then post `Stood`: frame its piece, then show `then`.

        Setting `view` meanwhile calls the move off, and nothing is posted.
        """
        self._call_off()
        if self.taste.motion and self.app.animation_level != "none":
            self._lifted = move.from_square
            self.repaint_changes()
            self._landing = self.set_timer(FRAME_SECONDS, lambda: self._land(then))
        else:
            self._land(then)

    def _land(self, then: BoardView) -> None:
        self._call_off()
        self.view = then
        self.post_message(self.Stood(self))

    def _call_off(self) -> None:
        if self._landing:
            self._landing.stop()
        self._landing = self._lifted = None
        self.repaint_changes()

    def watch_view(self, old: BoardView, new: BoardView) -> None:
        """Show the new view; a move under way is called off."""
        self._call_off()
        if old.flipped != new.flipped:
            self._refresh_parts()

    def shown(self) -> BoardView:
        """What is to be painted: the view, and what the board itself lays over it."""
        return overlay(self.view, in_hand=self._lifted)

    def repaint_changes(self) -> None:
        """Have the squares painted again that look otherwise than before, and no others."""
        shown, size = self.shown(), self.square_size
        columns = list(self.query_children(FileColumn))
        for square in self._scene.show(shown, size):
            column, row = place_of(square, shown.flipped)
            if size and columns:
                columns[column].repaint_row(row, size)

    def _refresh_parts(self, layout: bool = False) -> None:
        for part in self.query_children():
            part.refresh(layout=layout)

    def _measure(self) -> None:
        """Take the face that this terminal and the reader's taste allow, and lay out anew."""
        # A console without any colour system sends no styles at all.
        many_colours = self.app.console.color_system in {"256", "truecolor"}
        if self.app.native_ansi_color or not many_colours:
            self._scene.face = Face.PLAIN
        else:
            self._scene.face = Face.CHIPS if self.taste.letters else Face.DRAWN
        self._scene.taste = self.taste
        self.repaint_changes()
        self._refresh_parts(layout=True)

    def _theme_changed(self, _theme: Theme) -> None:
        self._measure()

    def watch_taste(self) -> None:
        """Lay out anew."""
        self._measure()
