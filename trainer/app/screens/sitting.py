"""Sitting: the board, the desk, and what the student does with them.

The screen turns keys, clicks and typed text into the events of the sitting and draws the
moments that come of them. It decides nothing.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from functools import partial
from typing import ClassVar

import chess
from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Key, ScreenResume, ScreenSuspend
from textual.reactive import var
from textual.widgets import Input

from trainer.app.screens import sitting_keys
from trainer.app.screens.board_screen import BoardScreen
from trainer.app.screens.sitting_keys import Hands, does_something
from trainer.app.taste import taste_of
from trainer.app.telling.moment import NOTHING_YET, Moment
from trainer.app.telling.positions import caption, facts, read_out, whose
from trainer.app.telling.tell import with_aside
from trainer.app.telling.teller import OPEN, Teller
from trainer.app.telling.typing import WISHES, Word, read_back, read_word
from trainer.app.widgets.board import Board
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.desk import Desk
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.move_box import MoveBox
from trainer.app.widgets.page import Page
from trainer.app.widgets.two_ends import TwoEnds
from trainer.errors import TrainerError
from trainer.lines.read_out import read_part
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.sitting import events
from trainer.sitting.events import Event
from trainer.sitting.sitting import Phase


class SittingScreen(BoardScreen):
    """One sitting, from its first prompt to the summary."""

    CSS_PATH = "sitting.tcss"
    AUTO_FOCUS = "#box"
    HELP: ClassVar[str] = sitting_keys.HELP
    BINDINGS: ClassVar[list[BindingType]] = sitting_keys.BINDINGS

    NAME: ClassVar[str] = "Sitting"
    TELLER: ClassVar[type[Teller]] = Teller
    """What words the sitting is told in."""

    moment: var[Moment] = var(NOTHING_YET, init=False)
    """What stands on the board and on the desk."""

    def __init__(
        self, study: Study, practice: Practice, monotonic: Callable[[], float] = time.monotonic
    ) -> None:
        super().__init__()
        self._study = study
        self.teller = self.TELLER(study, practice, monotonic)
        """The sitting; to be read only."""

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
        self._let_play()
        if card is not None:
            side.black_below = (card.side == "black") is not self.turned
            side.caption = caption(card, moment.stage.view)
            header = Content.assemble((self.NAME, "bold"), f"   {whose(card)}")
            self.query_one("#header", TwoEnds).left = header
        side.stage = moment.stage
        self._desk.course = self.teller.course
        self._desk.moment = moment
        self.refresh_bindings()

    def watch_cramped(self, cramped: bool) -> None:
        """What cannot be seen is neither asked nor timed."""
        self._let_play()
        if cramped:
            self.teller.looked_away()
        else:
            self.teller.looked_back()
            if self.focused is None:  # the box was hidden
                self.call_after_refresh(self._desk.box.focus)
        self.refresh_bindings()

    def _let_play(self) -> None:
        ended = self.teller.sitting.phase is Phase.ENDED
        promoting = self.teller.promoting is not None
        asked = self.teller.open_prompt is not None and not promoting
        self.side.playable = asked and not self.cramped
        self._desk.box.choosing = promoting
        self._desk.box.closed = ended or self.cramped
        if ended:
            self._desk.box.value = ""

    @property
    def _desk(self) -> Desk:
        return self.query_one(Desk)

    # What the student does

    def _tell(self, told: Callable[[], Moment | None]) -> bool:
        """Show what comes of it; False where it could not be saved."""
        try:
            moment = told()
        except TrainerError as error:
            self.notify(str(error), title="Not saved", severity="error", markup=False, timeout=12)
            self.moment = self.teller.moment
            return False
        self.moment = moment or self.moment
        return True

    def _send(self, made: Callable[[float], Event]) -> bool:
        return self._tell(partial(self.teller.send, made))

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

    @on(Board.MoveTried)
    def _made(self, event: Board.MoveTried) -> None:
        self._desk.box.value = ""  # a move made takes the place of one half typed
        self._tell(partial(self.teller.move, event.from_square, event.to_square))

    @on(MoveBox.LetterChosen)
    @on(Page.Chosen)
    def _promote(self, event: MoveBox.LetterChosen | Page.Chosen) -> None:
        self._tell(partial(self.teller.promote, event.letter))

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        """A text begun over an answer belongs to the next prompt, if there is one."""
        sitting = self.teller.sitting
        if event.value and sitting.phase is Phase.ANSWERED and sitting.left:
            self._send(events.GoOn)
        prompt, letters = self.teller.open_prompt, self.teller.sitting.rules.letters
        words = read_back(prompt.card.board, event.value, letters) if prompt else ""
        self._desk.read_back = words

    def on_key(self, event: Key) -> None:
        """Letters typed while the board has the focus go to the box; Space and ? are keys."""
        box, letter = self._desk.box, event.character if event.is_printable else None
        if letter and letter not in " ?" and not (box.has_focus or box.closed):
            event.stop()
            box.focus()
            box.put(letter)

    # Keys

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which keys do something now."""
        if not self.is_mounted:
            return False
        board, sitting = self.side.board, self.teller.sitting
        prompt = self.teller.open_prompt
        hands = Hands(
            sitting.phase,
            typed=bool(self._desk.box.value),
            shown=prompt is not None and prompt.shown,
            promoting=self.teller.promoting is not None,
            held=board.held is not None,
            on_board=board.has_focus,
            cramped=self.cramped,
        )
        wanted = does_something(action, hands)
        return super().check_action(action, parameters) if wanted else wanted

    def action_play(self) -> None:
        """Send what is typed, be it nothing."""
        self._desk.box.enter()

    action_go_on = action_play

    @on(MoveBox.Entered)
    def _entered(self, event: MoveBox.Entered) -> None:
        phase, text = self.teller.sitting.phase, event.text
        if self.cramped or self.teller.promoting is not None:
            return
        if phase is Phase.ENDED:
            self.action_leave()
        elif text == "?":
            self.action_hint()
        elif (word := read_word(text)) is not None:
            self._obey(word)
        elif (told := read_part(chess.Board(self.moment.stage.view.fen), text)) is not None:
            self._say(told)
        elif text and phase in OPEN:
            self._try(text)
        elif phase is not Phase.ASKING:
            self._send(events.GoOn)

    def _try(self, text: str) -> None:
        box = self._desk.box
        if not self._tell(partial(self.teller.type, text)) and not box.value:
            box.put(text)

    def _obey(self, word: Word) -> None:
        if (wish := WISHES.get(word)) is not None:
            self._send(wish)
        elif word is Word.BOARD:
            self.action_read_out()
        elif word is Word.FACTS:
            self.action_facts()
        else:
            self.call_later(self.run_action, "app.help")

    def action_hint(self) -> None:
        """First the piece, then the move."""
        self._tell(self.teller.help)

    def action_undo(self) -> None:
        """Take the last answer back; what is half typed belonged to another prompt."""
        self._desk.box.value = ""
        self._send(events.UndoWanted)

    def action_stop(self) -> None:
        """The summary of what was asked so far."""
        self._send(events.Stop)

    def action_leave(self) -> None:
        """Back to where it was begun."""
        self.dismiss()

    def action_put_down(self) -> None:
        """The piece goes back; a promotion is not asked any more."""
        self.moment = self.teller.put_down()
        self.side.board.action_put_down()

    def action_empty(self) -> None:
        """Rub out what is typed."""
        self._desk.box.value = ""

    def action_to_board(self) -> None:
        """Let the arrow keys move the cursor on the board."""
        self.side.board.focus()

    def action_to_box(self) -> None:
        """Type moves again."""
        self._desk.box.focus()

    def action_turn(self, pages: int) -> None:
        """Read on or back in the page."""
        self._desk.page.turn(pages)

    def action_read_out(self) -> None:
        """Say on the desk what stands on the board."""
        if self.moment.card is not None:
            self._say(read_out(self.moment.card, self.moment.stage.view))

    def action_facts(self) -> None:
        """Say on the desk what can be counted in the position on the board."""
        if self.moment.card is not None:
            self._say(facts(self.moment.stage.view))

    def action_in_lines(self) -> None:
        """The position that was asked last, among the lines of its deck."""
        from trainer.app.screens.lines import LinesScreen

        if (card := self.teller.in_question) is not None:
            place = card.deck, card.side, card.position.key
            self.app.push_screen(LinesScreen(self._study, *place))

    def _say(self, sentences: Sequence[str]) -> None:
        self.moment = with_aside(self.moment, sentences)
