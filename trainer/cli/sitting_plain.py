"""A sitting in words, for a person without a screen.

The same sitting as on the screen: this face speaks its effects and reads lines. What it
answers by itself are questions about what was said or stands on the board already; no
sentence needs a colour, a column or a sign to be understood.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from trainer.cli.lines_in import TimedLines
from trainer.cli.output import invite
from trainer.cli.plain_questions import answer_question, standing
from trainer.cli.sentences import asked, note_of, spoken, summary
from trainer.cli.typed_answers import typed_answer
from trainer.cli.wrapped import say_wrapped
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.service.today import report_today
from trainer.service.words import counted
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    HintWanted,
    Judged,
    MoveTyped,
    RestShown,
    Show,
    ShowWanted,
    Stop,
    UndoWanted,
)
from trainer.sitting.sitting import Phase
from trainer.sitting.step import WAITING_TO_GO_ON

HELP = (
    "Type a move, such as Nf3, exd5, O-O or g1f3.",
    "To a question type its answer: squares such as d4 e5, a move, or a number.",
    "To hear the whole position, type board.",
    "To hear where one kind of piece stands, type its name and a question mark, such as knights?",
    "To hear one square, type it and a question mark, such as e4?",
    "A file or a rank works the same way, such as e? or 4?",
    "To hear what can be counted in the position, type facts.",
    "To hear in words how the position came about, type line.",
    "After your answer these tell of the position after your move.",
    "To hear the question again, press Enter on an empty line.",
    "To hear the last note again, type note or why.",
    "To hear which piece moves, type hint. The answer then counts as 3 at most.",
    "To hear the move, type show. The answer then counts as 0.",
    "To take the last answer back, type undo.",
    "To end the sitting, type stop or quit. Every answer is kept.",
    "The time to the first try counts, listening included.",
    "For more time, raise hesitation_seconds in the settings.",
    "In a long sitting rest now and then, your eyes too, and move your back.",
)

GO_ON = "Press Enter to go on."

WISHES: dict[str, Callable[[float], Event]] = {
    "hint": HintWanted,
    "show": ShowWanted,
    "undo": UndoWanted,
    "stop": Stop,
    "quit": Stop,
}


class PlainSitting:
    """One sitting in words."""

    def __init__(self, study: Study, practice: Practice, lines: TimedLines, patient: bool) -> None:
        """
        :param patient: wait for Enter where there is something to take in, as for a person;
            lines from a file or a program are answers and nothing else.
        """
        self._study = study
        self._practice = practice
        self._lines = lines
        self._patient = patient
        self._seconds = 0.0
        self._note: list[str] = []
        self._noted: Effect | None = None
        """What the note was said of."""

    def run(self) -> None:
        """Hold the sitting from the first prompt to the summary."""
        say_wrapped("Type help to hear what can be typed.")
        try:
            self._hold()
        except KeyboardInterrupt:
            say_wrapped("")
            self._send(Stop(self._take_seconds()))
            raise

    def _hold(self) -> None:
        self._send(Begin())
        while (phase := self._practice.sitting.phase) is not Phase.ENDED:
            if phase is Phase.ASKING or self._patient:
                self._listen(phase)
            else:
                self._send(GoOn(0.0))

    def _listen(self, phase: Phase) -> None:
        if self._patient:
            invite()
        text, waited = self._lines.next()
        self._seconds += waited
        if text is None:
            self._send(Stop(self._take_seconds()))
        elif (told := self._aside(text.strip())) is not None:
            say_wrapped(*told)
        else:
            self._send(self._event(text.strip(), phase)(self._take_seconds()))

    def _take_seconds(self) -> float:
        """The time since the last event; lines that were none have cost theirs."""
        seconds, self._seconds = self._seconds, 0.0
        return seconds

    def _aside(self, text: str) -> list[str] | None:
        """The answer to a question that is none of the sitting's, or None."""
        sitting = self._practice.sitting
        prompt = sitting.current
        if prompt is None:
            return None
        match text.lower():
            case "help":
                return list(HELP)
            case "note" | "why":
                return self._note or ["There is no note yet."]
            case "" if sitting.phase is Phase.ASKING:
                return asked(prompt)
        return answer_question(text.lower(), standing(prompt, sitting.phase))

    def _event(self, text: str, phase: Phase) -> Callable[[float], Event]:
        if not text and phase is not Phase.ASKING:
            return GoOn
        word = "hint" if text == "?" else text.lower()
        if wish := WISHES.get(word):
            return wish
        prompt = self._practice.sitting.current
        return typed_answer(prompt, text) if prompt else partial(MoveTyped, text)

    def _send(self, event: Event) -> None:
        practice = self._practice
        effects = practice.send(event)
        for effect in effects:
            if isinstance(effect, Ended):
                say_wrapped("", "The sitting is over.", *self._summary())
            else:
                self._remember(effect)
                say_wrapped(*spoken(effect, practice.sitting, self._study.today))
        if self._patient and practice.sitting.phase in WAITING_TO_GO_ON:
            say_wrapped(GO_ON)

    def _remember(self, effect: Effect) -> None:
        """Keep the last note, but never one that would answer what is asked now.

        The note of a first look is an answer still to come.
        """
        if note := note_of(effect):
            self._note, self._noted = note, effect
        elif isinstance(effect, Ask):
            match self._noted:
                case Show():
                    self._note = []
                case Judged(_, prompt) | RestShown(prompt) if (
                    prompt.card.key == effect.prompt.card.key
                ):
                    self._note = []

    def _summary(self) -> Iterator[str]:
        yield from summary(self._practice.sitting)
        report = report_today(self._study)
        if report.repeats:
            yield f"{counted(report.repeats, 'position')} still to be asked again today."
        yield f"Tomorrow: {counted(report.days_ahead[1].due, 'position')} due."
