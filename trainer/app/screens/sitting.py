"""Sitting: the board, the desk, and what the student does with them.

The screen turns keys, clicks and typed text into the events of the sitting and draws the
moments that come of them. It decides nothing.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import ScreenResume, ScreenSuspend

from trainer.app.screens import sitting_keys
from trainer.app.screens.answering import Answering
from trainer.app.screens.sitting_keys import Hands, does_something
from trainer.app.taste import taste_of
from trainer.app.telling.heading import whose
from trainer.app.telling.moment import Moment
from trainer.app.telling.positions import caption
from trainer.app.telling.teller import Teller
from trainer.app.widgets.board import Board
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.desk import Desk
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.two_ends import TwoEnds
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.sitting import events
from trainer.sitting.cards import IdeaCard


class SittingScreen(Answering):
    """One sitting, from its first prompt to the summary."""

    CSS_PATH = "sitting.tcss"
    AUTO_FOCUS = "#box"
    HELP: ClassVar[str] = sitting_keys.HELP
    BINDINGS: ClassVar[list[BindingType]] = sitting_keys.BINDINGS

    NAME: ClassVar[str] = "Sitting"
    TELLER: ClassVar[type[Teller]] = Teller
    """What words the sitting is told in."""

    def __init__(
        self, study: Study, practice: Practice, monotonic: Callable[[], float] = time.monotonic
    ) -> None:
        super().__init__()
        self._study = study
        self.teller = self.TELLER(study, practice, monotonic)

    def compose(self) -> ComposeResult:
        """Header, board and desk, keys."""
        yield TwoEnds(id="header")
        with Horizontal(id="table"):
            yield BoardSide(taste=taste_of(self._study.settings), id="board-side")
            yield Desk(id="desk")
        yield KeyBar(id="keys")

    def on_mount(self) -> None:
        """Ask the first prompt."""
        self.moment = self.teller.begin()

    # What is shown

    def watch_moment(self, moment: Moment) -> None:
        """Hand the moment to the board and the desk."""
        side, card = self.side, moment.card
        self.let_answer()
        if card is not None:
            side.black_below = (card.side == "black") is not self.turned
            side.caption = caption(card, moment.stage.view)
            header = Content.assemble((self.NAME, "bold"), f"   {whose(card)}")
            self.query_one("#header", TwoEnds).left = header
        side.stage = moment.stage
        self.desk.course = self.teller.course
        self.desk.moment = moment
        self.refresh_bindings()

    def watch_cramped(self, cramped: bool) -> None:
        """What cannot be seen is neither asked nor timed."""
        self.let_answer()
        if cramped:
            self.teller.looked_away()
        else:
            self.teller.looked_back()
            if self.focused is None:  # the box was hidden
                self.call_after_refresh(self.desk.box.focus)
        self.refresh_bindings()

    # The clock

    @on(Board.Stood)
    def _start_the_clock(self) -> None:
        self.teller.stood()

    @on(ScreenSuspend)
    def _hidden(self) -> None:
        self.teller.looked_away()

    @on(ScreenResume)
    def _seen_again(self) -> None:
        if not self.cramped:
            self.teller.looked_back()

    # Keys

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which keys do something now."""
        if not self.is_mounted:
            return False
        board, sitting = self.side.board, self.teller.sitting
        prompt = self.teller.open_prompt
        hands = Hands(
            sitting.phase,
            wants=self.teller.wants,
            question=prompt is not None and isinstance(prompt.card, IdeaCard),
            typed=bool(self.desk.box.value),
            shown=prompt is not None and prompt.shown,
            promoting=self.teller.promoting is not None,
            held=board.held is not None,
            on_board=board.has_focus,
            cramped=self.cramped,
            answered=bool(sitting.answered),
            lines=self.teller.in_lines is not None,
        )
        wanted = does_something(action, hands)
        return super().check_action(action, parameters) if wanted else wanted

    def action_play(self) -> None:
        """Send what is typed, be it nothing."""
        self.desk.box.enter()

    action_answer = action_go_on = action_play
    action_show = Answering.action_hint

    def action_point(self, steps: int) -> None:
        """Point at another of the answers to choose from."""
        self.desk.page.point(steps)

    def action_undo(self) -> None:
        """Take the last answer back; what is half typed belonged to another prompt."""
        self.desk.box.value = ""
        self.send(events.UndoWanted)

    def action_stop(self) -> None:
        """The summary of what was asked so far."""
        self.send(events.Stop)

    def action_leave(self) -> None:
        """Back to where it was begun."""
        self.dismiss()

    def action_put_down(self) -> None:
        """The piece goes back; a promotion is not asked any more."""
        self.moment = self.teller.put_down()
        self.side.board.action_put_down()

    def action_empty(self) -> None:
        """Rub out what is typed."""
        self.desk.box.value = ""

    def action_to_board(self) -> None:
        """Let the arrow keys move the cursor on the board."""
        self.side.board.focus()

    def action_to_box(self) -> None:
        """Type moves again."""
        self.desk.box.focus()

    def action_turn(self, pages: int) -> None:
        """Read on or back in the page."""
        self.desk.page.turn(pages)

    def action_in_lines(self) -> None:
        """The position that was asked last, among the lines of its deck."""
        from trainer.app.screens.lines import LinesScreen

        if (card := self.teller.in_lines) is not None:
            place = card.deck, card.side, card.position.key
            self.app.push_screen(LinesScreen(self._study, *place))
