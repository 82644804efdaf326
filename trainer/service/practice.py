"""A sitting under way: events in, effects out, and every answer made safe.

The faces send events and draw the effects that come back. What the sitting wants logged
is committed here before `graded` is heard of. `preparation` makes the sitting.
"""

from __future__ import annotations

from datetime import date

from trainer.memory.card_state import RULE_VERSION, Answer
from trainer.service.study import Study
from trainer.sitting.cards import GuessCard
from trainer.sitting.events import (
    Ask,
    Effect,
    Event,
    LogAnswer,
    LogGuess,
    LogWithdrawal,
    Recorded,
    Show,
    Withdrawn,
)
from trainer.sitting.sitting import Prompt, Sitting
from trainer.sitting.step import step
from trainer.store.answers import NewAnswer, record, withdraw
from trainer.store.guesses import Guess, keep_guess


class Practice:
    """One sitting under way. Of one thread only."""

    def __init__(self, study: Study, sitting: Sitting, source: str) -> None:
        self._study = study
        self._source = source
        self._asked_at = ""
        self._day = study.today
        self._answered_on: dict[str, date] = {}
        """By card the day of its latest answer here, to which a repeat goes back."""
        self._began_on = study.today
        self.sitting = sitting
        """Where the sitting stands; to be read only."""

    def send(self, event: Event) -> list[Effect]:
        """Move the sitting on; what is to be logged is committed when this returns.

        :return: the effects that a face shows, in order.
        :raises TrainerError: the answer could not be saved; the sitting stands as before,
            and the same event may be sent again.
        """
        sitting, effects = step(self.sitting, event)
        shown: list[Effect] = []
        for effect in effects:
            match effect:
                case LogAnswer(prompt, quality):
                    sitting, more = step(sitting, self._record(prompt, quality))
                    shown.extend(more)
                case LogGuess(prompt, tried, right):
                    self._keep_guess(prompt, tried, right)
                case LogWithdrawal(answer_id, _):
                    self._withdraw(answer_id)
                    sitting, more = step(sitting, Withdrawn())
                    shown.extend(more)
                case _:
                    shown.append(effect)
        self.sitting = sitting
        if any(isinstance(effect, Ask | Show) for effect in shown):
            self._asked_at = self._study.instant()
            self._day = self._study.today
        return shown

    def _record(self, prompt: Prompt, quality: int) -> Recorded:
        card = prompt.card
        # Repeats end with the day: in a sitting that runs past its border they count in full.
        repeat = prompt.repeat and self._day == self._answered_on.get(card.key, self._began_on)
        schedule = Answer(self._day, quality, repeat, self._study.settings.part_credit)
        answer = NewAnswer(
            card=card.key,
            asked_at=self._asked_at,
            schedule=schedule,
            seconds=round(prompt.seconds, 3),
            looked=round(prompt.looked, 3),
            tries=[(attempt.san, attempt.verdict.value) for attempt in prompt.all_tries],
            hint=prompt.hint_ever,
            shown=prompt.shown_ever,
            source=self._source,
            deck=card.deck,
            chapter=card.chapter,
            edition=card.edition,
            rules=RULE_VERSION,
        )
        recorded = Recorded(*record(self._study.db, answer))
        self._answered_on[card.key] = self._day
        return recorded

    def _keep_guess(self, prompt: Prompt, tried: str, right: bool) -> None:
        card = prompt.card
        if not isinstance(card, GuessCard):
            raise TypeError(f"nothing is guessed at {card.key}")
        guess = Guess(
            game=card.key,
            side=card.side,
            round=card.round,
            ply=card.turn.ply,
            tried=tried,
            right=right,
            hint=prompt.hint,
            seconds=round(prompt.seconds - prompt.turn_began, 3),
            guessed_at=self._study.instant(),
            day=self._study.today.isoformat(),
            deck=card.deck,
            chapter=card.chapter,
            edition=card.edition,
        )
        keep_guess(self._study.db, guess)

    def _withdraw(self, answer_id: str) -> None:
        withdraw(self._study.db, answer_id, self._study.instant())
