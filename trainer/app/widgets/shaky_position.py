"""The shakiest due position: a small board and a sentence, and not a word of the move."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import var
from textual.widget import Widget

from trainer.app.telling.positions import mover, resting
from trainer.app.widgets.board import BoardPicture, Taste
from trainer.app.widgets.fixed_text import FixedText
from trainer.service.card_history import CardHistory
from trainer.service.shakiest import Shakiest
from trainer.service.words import short_day, times

ROOM_FOR_MORE = (150, 44)
"""From this terminal size on the squares may have four rows, before it three: the board
stands beside other things."""


class ShakyPosition(Widget):
    """Nothing is shown where nothing is due."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")

    shaky: var[Shakiest | None] = var(None, init=False)
    """The position, and how often it was asked and missed."""
    taste: var[Taste] = var(Taste(), init=False)
    """How the student likes boards; this one stays small."""

    def __init__(self, *, taste: Taste | None = None, id: str | None = None) -> None:
        super().__init__(id=id)
        if taste:
            self.set_reactive(ShakyPosition.taste, taste)

    def compose(self) -> ComposeResult:
        """The board over its sentence."""
        yield BoardPicture(taste=self._smaller())
        yield FixedText()

    def watch_taste(self) -> None:
        """Show the board as it is wanted now."""
        self.fit()

    def fit(self) -> None:
        """Take the size that the window has room for now."""
        self.query_one(BoardPicture).taste = self._smaller()

    def _smaller(self) -> Taste:
        (wide, high), size = ROOM_FOR_MORE, self.app.size
        return self.taste.no_taller_than(4 if size.width >= wide and size.height >= high else 3)

    def watch_shaky(self, shaky: Shakiest | None) -> None:
        """Another position."""
        self.set_class(shaky is not None, "-known")
        if shaky is not None:
            view = replace(resting(shaky.card), flipped=shaky.card.side == "black")
            self.query_one(BoardPicture).view = view
            sentence = f"{_sentence(shaky.history)} {mover(shaky.card)}"
            self.query_one(FixedText).content = Content(sentence)


def _sentence(history: CardHistory) -> str:
    """`Shakiest today: asked 5 times, missed twice, last on Sat 21 Nov.`"""
    missed = f", missed {times(history.missed)}" if history.missed else ""
    last = f", last on {short_day(history.last_day)}" if history.last_day else ""
    return f"Shakiest today: asked {times(history.asked)}{missed}{last}."
