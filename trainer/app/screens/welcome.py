"""The first start without a deck: what this is, and the deck that comes with it."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content

from trainer.app.keys import HELP_KEY, bound
from trainer.app.screens.board_screen import BoardScreen
from trainer.app.taste import taste_of
from trainer.app.telling.blocks import Block, Paragraph
from trainer.app.widgets.band import Band
from trainer.app.widgets.board import BoardPicture
from trainer.app.widgets.fixed_text import FixedText
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.page import Page
from trainer.errors import TrainerError
from trainer.service.first_deck import FirstDeck, add_first_deck, first_deck
from trainer.service.study import Study

OWN_DECKS = "Others: trainer deck add PATH"


class WelcomeScreen(BoardScreen):
    """One key adds the shipped deck."""

    CSS_PATH = "welcome.tcss"
    HELP: ClassVar[str] = (
        "There is no deck here yet. A deck holds the lines to be learnt, with the reason for "
        "every move. Enter adds the one that comes with the program; Today then has its first "
        "positions for you.\n\n"
        "For a deck of your own, or your coach's, leave and type trainer deck add PATH: the "
        "deck's folder, or one PGN file with --side white or --side black. trainer demo shows "
        "the program with an invented history instead."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        bound("enter", "add", "add the deck", "Add the deck that is offered.", id="welcome.add"),
        bound("escape", "app.quit", "leave", "Leave; nothing is added.", id="welcome.leave"),
        HELP_KEY,
        bound("pagedown", "turn(1)", "on", "Read on.", id="welcome.on", show=False),
        bound("pageup", "turn(-1)", "back", "Read back.", id="welcome.back", show=False),
    ]

    def __init__(self, study: Study) -> None:
        super().__init__()
        self._study = study

    def compose(self) -> ComposeResult:
        """A board, and beside it what there is to say."""
        yield FixedText(Content("Welcome"), id="header")
        with Horizontal(id="table"):
            yield BoardPicture(taste=taste_of(self._study.settings), id="welcome-board")
            with Vertical(id="welcome-desk"):
                yield FixedText(Content("Welcome"), id="title")
                yield Page(id="about")
                yield Band("welcome.add", id="band")
                yield Page(id="own")
                yield KeyBar(id="desk-keys")
        yield KeyBar(id="keys")

    def on_mount(self) -> None:
        """Say what is offered, or why nothing can be."""
        band = self.query_one(Band)
        try:
            offered = first_deck()
        except TrainerError as error:
            self._say(Paragraph(str(error)))
            band.sentence = "No deck to offer"
        else:
            self._say(*_about(offered))
            band.sentence, band.step = "", "add this deck"
        self.refresh_bindings()
        self.query_one("#own", Page).blocks = (Paragraph(OWN_DECKS, quiet=True),)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing to offer, nothing to press."""
        if action == "add" and not (self.is_mounted and self.query_one(Band).step):
            return False
        return super().check_action(action, parameters)

    def action_turn(self, pages: int) -> None:
        """Read on or back in what is offered."""
        self.query_one("#about", Page).turn(pages)

    def _say(self, *blocks: Block) -> None:
        self.query_one("#about", Page).blocks = blocks

    @on(Band.Taken)
    def action_add(self) -> None:
        """Put the shipped deck on the shelf and go to Today."""
        try:
            add_first_deck(self._study)
        except TrainerError as error:
            self.notify(str(error), title="Not added", severity="error", markup=False, timeout=12)
        else:
            self.dismiss()


def _about(deck: FirstDeck) -> tuple[Block, ...]:
    return (
        Paragraph("You have no deck yet. One comes with the program:"),
        Paragraph(deck.title),
        *(Paragraph(text) for text in deck.about.split("\n\n") if text),
    )
