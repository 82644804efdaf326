"""Help: the keys of the screen below, and what it is for."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen

from trainer.app.keys import bound
from trainer.app.telling.blocks import Block
from trainer.app.widgets.fixed_text import FixedText
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.page import Page


class HelpScreen(ModalScreen[None]):
    """A page over the screen; it changes nothing."""

    CSS_PATH = "help.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        bound("escape,f4,enter", "dismiss", "back", "Close the help.", id="help.back"),
        bound("pagedown,space", "turn(1)", "on", "Read on.", id="help.on"),
        bound("pageup", "turn(-1)", "back up", "Read back.", id="help.up"),
        bound("down", "move(1)", "down", "One row down.", id="help.down", show=False),
        bound("up", "move(-1)", "up", "One row up.", id="help.row_up", show=False),
    ]

    def __init__(self, title: str, blocks: tuple[Block, ...]) -> None:
        super().__init__()
        self._title, self._blocks = title, blocks

    def compose(self) -> ComposeResult:
        """A title, the page, the keys."""
        with Vertical(id="sheet-of-help"):
            yield FixedText(Content(self._title), id="help-title")
            yield Page(id="help-page")
            yield KeyBar(id="help-keys")

    def on_mount(self) -> None:
        """Fill the page."""
        self.query_one(Page).blocks = self._blocks

    def action_turn(self, pages: int) -> None:
        """By a screenful."""
        self.query_one(Page).turn(pages)

    def action_move(self, rows: int) -> None:
        """By a row."""
        self.query_one(Page).move(rows)
