"""A sitting under way, told moment by moment: events in, the moment to be shown out.

It measures the time between events and asks the service what a roomy desk adds. The screen
above it draws; the practice below decides.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from trainer.app.telling import games
from trainer.app.telling.blocks import Block
from trainer.app.telling.moment import NOTHING_YET, Moment, Wants
from trainer.app.telling.moves import first_look_headline
from trainer.app.telling.promotion import (
    Promoting,
    asking_promotion,
    asks_promotion,
    promotion_of,
)
from trainer.app.telling.sections import they_play, this_exercise, this_position
from trainer.app.telling.summary import hardest_in_lines, summary
from trainer.app.telling.tell import no_hint, tell
from trainer.app.telling.typing import typed_answer
from trainer.app.widgets.strip import Course
from trainer.lines.reading import LegalMove, Unclear
from trainer.lines.typed import read_move
from trainer.service.card_history import card_history
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.service.today import report_today
from trainer.sitting.cards import GuessCard, IdeaCard, MoveCard
from trainer.sitting.events import (
    AnswerChosen,
    Begin,
    Effect,
    Ended,
    Event,
    Graded,
    HintWanted,
    Judged,
    MoveMade,
    Show,
    ShowWanted,
)
from trainer.sitting.sitting import Phase, Prompt, Sitting
from trainer.sitting.tries import moved_on

OPEN = frozenset({Phase.LOOKING, Phase.ASKING})
"""The phases in which a move may be played."""


class Teller:
    """One sitting. Of one thread only."""

    def __init__(
        self, study: Study, practice: Practice, monotonic: Callable[[], float] = time.monotonic
    ) -> None:
        self._study = study
        self._practice = practice
        self._monotonic = monotonic
        self._since = monotonic()
        self._away_since: float | None = None
        self.moment = NOTHING_YET
        """What is shown now; to be read only."""
        self.promoting: Promoting | None = None
        """The pawn's move that waits for its piece; to be read only."""

    @property
    def sitting(self) -> Sitting:
        """Where the sitting stands."""
        return self._practice.sitting

    @property
    def open_prompt(self) -> Prompt | None:
        """The prompt in which a move may be played now."""
        return self.sitting.current if self.sitting.phase in OPEN else None

    @property
    def wants(self) -> Wants | None:
        """What is to be answered with now; None where nothing is asked."""
        return self.moment.wants if self.open_prompt is not None else None

    @property
    def goes_on(self) -> bool:
        """Whether something told stands there, and something is asked after it."""
        sitting = self.sitting
        if sitting.phase is Phase.TOLD and sitting.current is not None:
            return moved_on(sitting.current) is not None or bool(sitting.left)
        return sitting.phase is Phase.ANSWERED and bool(sitting.left)

    @property
    def in_lines(self) -> MoveCard | None:
        """A card to be looked up in the lines: the hardest one, else the last of them."""
        return hardest_in_lines(self.sitting)

    @property
    def course(self) -> Course:
        """How far the sitting has come; in a model game, how far the game."""
        prompt = self.sitting.current
        if prompt is not None and isinstance(prompt.card, GuessCard):
            return games.course(prompt, prompt.card, self.sitting.phase is Phase.TOLD)
        qualities = tuple(answer.quality for answer in self.sitting.answered)
        if self.sitting.phase is Phase.ENDED and not qualities:
            return games.course_of(self.sitting.guesses)
        looking = self.sitting.phase is Phase.LOOKING
        asking = self.open_prompt is not None or self.sitting.phase is Phase.TOLD
        return Course(qualities, asking, self.sitting.left, looking)

    def begin(self) -> Moment:
        """The first prompt, or the end where there is nothing to ask."""
        return self._told(self._practice.send(Begin()))

    def send(self, made: Callable[[float], Event]) -> Moment:
        """Send an event with the time since the last one.

        :raises TrainerError: it could not be saved; all stands as before, the clock runs on.
        """
        self.promoting = None
        effects = self._practice.send(made(self._monotonic() - self._since))
        self._since = self._monotonic()
        return self._told(effects)

    def move(self, from_square: int, to_square: int) -> Moment:
        """A move made on the board; a pawn's last step first asks what it becomes.

        :raises TrainerError: as `send`.
        """
        prompt = self.open_prompt
        if prompt is not None and asks_promotion(prompt.card.board, from_square, to_square):
            self.promoting = Promoting(from_square, to_square)
            return asking_promotion(self.moment)
        return self.send(partial(MoveMade, from_square, to_square, None))

    def help(self) -> Moment:
        """First which piece moves, then the move.

        :raises TrainerError: as `send`.
        """
        prompt = self.open_prompt
        if prompt is not None and isinstance(prompt.card, IdeaCard) and not self.moment.offered:
            self.moment = no_hint(self.moment)
            return self.moment
        hinted = self.moment.offered or (prompt is not None and prompt.hint)
        return self.send(ShowWanted if hinted else HintWanted)

    def choose(self, number: int) -> Moment:
        """One of the answers of a question.

        :raises TrainerError: as `send`.
        """
        return self.send(partial(AnswerChosen, number))

    def type(self, text: str) -> Moment:
        """A typed answer; a pawn's last step without its piece first asks what it becomes.

        :raises TrainerError: as `send`.
        """
        prompt, letters = self.open_prompt, self.sitting.rules.letters
        if self.wants not in (Wants.MOVE, None):
            return self.send(typed_answer(self.moment.wants, text))
        if prompt is not None and isinstance(read_move(prompt.card.board, text, letters), Unclear):
            queened = read_move(prompt.card.board, f"{text}=Q", letters)
            if isinstance(queened, LegalMove):
                return self.move(queened.move.from_square, queened.move.to_square)
        return self.send(typed_answer(Wants.MOVE, text))

    def promote(self, letter: str) -> Moment | None:
        """The letter of the piece that the pawn becomes; None where it is no such letter.

        :raises TrainerError: as `send`.
        """
        promoting, piece = self.promoting, promotion_of(letter)
        if promoting is None or piece is None:
            return None
        return self.send(partial(MoveMade, promoting.from_square, promoting.to_square, piece))

    def put_down(self) -> Moment:
        """The pawn stays where it was."""
        self.promoting = None
        return self.moment

    def looked_away(self) -> None:
        """The position cannot be seen for a while: this time is not the student's."""
        if self._away_since is None:
            self._away_since = self._monotonic()

    def looked_back(self) -> None:
        """It can be seen again; the clock goes on where it was."""
        if self._away_since is not None:
            self._since += self._monotonic() - self._away_since
            self._away_since = None

    def stood(self) -> None:
        """The position stands still on the board: only now does hesitation count."""
        if self.sitting.phase is Phase.ASKING:
            self._since = self._monotonic()
            if self._away_since is not None:
                self._away_since = self._since

    def _told(self, effects: Sequence[Effect]) -> Moment:
        moment = tell(self.moment, effects, self._study.today)
        for effect in effects:
            match effect:
                case Show(_, card):
                    moment = replace(moment, headline=first_look_headline(card, self.sitting))
                case Graded():
                    more = self._sections(effects, effect)
                    moment = replace(moment, page=(*moment.page, *more))
                case Ended():
                    report = report_today(self._study)
                    moment = summary(moment, effect, self.sitting, report)
        self.moment = moment
        return moment

    def _sections(self, effects: Sequence[Effect], graded: Graded) -> list[Block]:
        """What a roomy desk adds to an answer."""
        card, today, due = graded.prompt.card, self._study.today, graded.state.due
        history = card_history(self._study, card.key)
        if not isinstance(card, MoveCard):
            return [this_exercise(card, history, due, today)]
        book = self.sitting.books[card.deck, card.side]
        played = [e.judgement.book_move for e in effects if isinstance(e, Judged)]
        return [
            *(they_play(card, move, book) for move in played if move),
            this_position(card, book, history, due, today),
        ]
