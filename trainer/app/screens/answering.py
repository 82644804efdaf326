"""What the student's hands do on the Sitting screen: typed texts, pieces, squares, choices.

Each becomes an event of the sitting, by what is asked for at the moment. What is drawn, and
the keys that answer nothing, are the screen's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import chess
from textual import on
from textual.events import Key
from textual.reactive import var
from textual.widgets import Input

from trainer.app.screens.board_screen import BoardScreen
from trainer.app.telling.moment import NOTHING_YET, Moment, Wants
from trainer.app.telling.positions import facts, read_out
from trainer.app.telling.tell import with_aside
from trainer.app.telling.teller import OPEN, Teller
from trainer.app.telling.typing import (
    WISHES,
    Word,
    read_back,
    read_word,
    squares_in,
    squares_read_back,
    toggled,
)
from trainer.app.widgets.board import Board
from trainer.app.widgets.desk import Desk
from trainer.app.widgets.move_box import MoveBox
from trainer.app.widgets.page import Page
from trainer.errors import TrainerError
from trainer.lines.read_out import read_part
from trainer.sitting import events
from trainer.sitting.events import Event
from trainer.sitting.sitting import Phase


class Answering(BoardScreen):
    """A screen on which a sitting is answered."""

    teller: Teller
    """The sitting; to be read only."""
    moment: var[Moment] = var(NOTHING_YET, init=False)
    """What stands on the board and on the desk."""

    @property
    def desk(self) -> Desk:
        """What stands beside the board."""
        return self.query_one(Desk)

    def tell(self, told: Callable[[], Moment | None]) -> bool:
        """Show what comes of it; False where it could not be saved."""
        try:
            moment = told()
        except TrainerError as error:
            self.notify(str(error), title="Not saved", severity="error", markup=False, timeout=12)
            self.moment = self.teller.moment
            return False
        self.moment = moment or self.moment
        return True

    def send(self, made: Callable[[float], Event]) -> bool:
        """Send an event of the sitting."""
        return self.tell(partial(self.teller.send, made))

    def let_answer(self) -> None:
        """Let the board and the box take what is asked for now, and nothing else."""
        teller, side, box = self.teller, self.side, self.desk.box
        ended = teller.sitting.phase is Phase.ENDED
        promoting = teller.promoting is not None
        wants = None if promoting or self.cramped else teller.wants
        side.playable = wants in (Wants.MOVE, Wants.SQUARES)
        side.choosing = wants is Wants.SQUARES
        box.choosing = promoting
        box.closed = ended or self.cramped
        if ended:
            box.value = ""
        self._show_typed(box.value)

    # Pieces, squares and choices

    @on(Board.MoveTried)
    def _made(self, event: Board.MoveTried) -> None:
        self.desk.box.value = ""  # a move made takes the place of one half typed
        self.tell(partial(self.teller.move, event.from_square, event.to_square))

    @on(Board.SquareChosen)
    def _marked(self, event: Board.SquareChosen) -> None:
        """The box holds the squares, however they were chosen."""
        box = self.desk.box
        box.value = toggled(box.value, chess.square_name(event.square))
        box.cursor_position = len(box.value)

    @on(MoveBox.LetterChosen)
    @on(Page.Chosen)
    def _chosen(self, event: MoveBox.LetterChosen | Page.Chosen) -> None:
        if self.teller.promoting is not None:
            self.tell(partial(self.teller.promote, event.letter))
        elif self.teller.wants is Wants.NUMBER:
            self.tell(partial(self.teller.choose, int(event.letter)))

    # Typed texts

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        """A text begun over what is told belongs to the next prompt, if there is one."""
        if event.value and self.teller.goes_on:
            self.send(events.GoOn)
        self._show_typed(event.value)

    def _show_typed(self, text: str) -> None:
        """What a text means, in words, and squares on the board as well."""
        teller, prompt = self.teller, self.teller.open_prompt
        squares, words = frozenset[chess.Square](), ""
        if teller.wants is Wants.SQUARES:
            squares = frozenset(chess.parse_square(name) for name in squares_in(text))
            words = squares_read_back(text)
        elif teller.wants is Wants.MOVE and prompt is not None:
            words = read_back(prompt.card.board, text, teller.sitting.rules.letters)
        self.side.chosen, self.desk.read_back = squares, words

    def on_key(self, event: Key) -> None:
        """Letters typed while the board has the focus go to the box; Space and ? are keys."""
        box, letter = self.desk.box, event.character if event.is_printable else None
        if letter and letter not in " ?" and not (box.has_focus or box.closed):
            event.stop()
            box.focus()
            box.put(letter)

    @on(MoveBox.Entered)
    def _entered(self, event: MoveBox.Entered) -> None:
        phase, text = self.teller.sitting.phase, event.text
        if self.cramped or self.teller.promoting is not None:
            return
        if phase is Phase.ENDED:
            self.dismiss()
        elif text == "?":
            self.action_hint()
        elif (word := read_word(text)) is not None:
            self._obey(word)
        elif (told := read_part(chess.Board(self.moment.stage.view.fen), text)) is not None:
            self.say(told)
        elif text and phase in OPEN:
            self._try(text)
        elif phase is not Phase.ASKING:
            self.send(events.GoOn)
        elif self.desk.page.pointed:
            self.tell(partial(self.teller.choose, int(self.desk.page.pointed)))

    def _try(self, text: str) -> None:
        box = self.desk.box
        if not self.tell(partial(self.teller.type, text)) and not box.value:
            box.put(text)

    def _obey(self, word: Word) -> None:
        if (wish := WISHES.get(word)) is not None:
            self.send(wish)
        elif word is Word.BOARD:
            self.action_read_out()
        elif word is Word.FACTS:
            self.action_facts()
        else:
            self.call_later(self.run_action, "app.help")

    def action_hint(self) -> None:
        """First the piece, then the answer."""
        self.tell(self.teller.help)

    # What is asked aside

    def action_read_out(self) -> None:
        """Say on the desk what stands on the board."""
        if self.moment.card is not None:
            self.say(read_out(self.moment.card, self.moment.stage.view))

    def action_facts(self) -> None:
        """Say on the desk what can be counted in the position on the board."""
        if self.moment.card is not None:
            self.say(facts(self.moment.stage.view))

    def say(self, sentences: Sequence[str]) -> None:
        """Say something that is no effect of the sitting."""
        self.moment = with_aside(self.moment, sentences)
