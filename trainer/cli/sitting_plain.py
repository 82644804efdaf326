"""A sitting in words, for a person without a screen.

The same sitting as on the screen: this face speaks its effects and reads lines. What it
answers by itself are questions about what was said or stands on the board already.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from trainer.cli.lines_in import TimedLines
from trainer.cli.output import invite, say
from trainer.cli.sentences import note_of, place, spoken, summary
from trainer.lines.read_out import read_part, read_position
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.service.today import report_today
from trainer.service.words import counted
from trainer.sitting.events import (
    Begin,
    Ended,
    Event,
    GoOn,
    HintWanted,
    MoveTyped,
    ShowWanted,
    Stop,
    UndoWanted,
)
from trainer.sitting.sitting import Card, Phase

HELP = (
    "Type a move, such as Nf3, exd5, O-O or g1f3.",
    "board: hear the whole position.",
    "e4? or e? or 4?: hear a square, a file or a rank.",
    "line: hear again how the position came about.",
    "note or why: hear the last note again.",
    "hint: hear which piece moves. The answer then counts as 3 at most.",
    "show: hear the move. The answer then counts as 0.",
    "undo: take the last answer back.",
    "stop or quit: end the sitting. Every answer is kept.",
    "An empty line repeats the question, or goes on where nothing is asked.",
    "The time to the first try counts, listening included; "
    "hesitation_seconds in the settings gives you more.",
    "In a long sitting rest your eyes on something far away now and then, and move your back.",
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

    def run(self) -> None:
        """Hold the sitting from the first prompt to the summary."""
        say("Type help to hear what can be typed.")
        try:
            self._hold()
        except KeyboardInterrupt:
            say("")
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
            say(*told)
        else:
            self._send(self._event(text.strip(), phase)(self._take_seconds()))

    def _take_seconds(self) -> float:
        """The time since the last event; lines that were none have cost theirs."""
        seconds, self._seconds = self._seconds, 0.0
        return seconds

    def _aside(self, text: str) -> list[str] | None:
        """The answer to a question that is none of the sitting's, or None."""
        prompt = self._practice.sitting.current
        if prompt is None:
            return None
        match text.lower():
            case "help":
                return list(HELP)
            case "line":
                return place(prompt.card)
            case "note" | "why":
                return self._note or ["There is no note yet."]
            case "board":
                return _position(prompt.card)
            case "" if self._practice.sitting.phase is Phase.ASKING:
                return place(prompt.card)
        return read_part(prompt.card.board, text.lower())

    def _event(self, text: str, phase: Phase) -> Callable[[float], Event]:
        if not text and phase is not Phase.ASKING:
            return GoOn
        return WISHES.get(text.lower(), partial(MoveTyped, text))

    def _send(self, event: Event) -> None:
        practice = self._practice
        effects = practice.send(event)
        for effect in effects:
            if isinstance(effect, Ended):
                say("", "The sitting is over.", *self._summary())
            else:
                self._note = note_of(effect) or self._note
                say(*spoken(effect, practice.sitting, self._study.today))
        if self._patient and practice.sitting.phase in (Phase.LOOKING, Phase.ANSWERED):
            say(GO_ON)

    def _summary(self) -> Iterator[str]:
        yield from summary(self._practice.sitting)
        report = report_today(self._study)
        if report.repeats:
            yield f"{counted(report.repeats, 'position')} still to be asked again today."
        yield f"Tomorrow: {counted(report.days_ahead[1].due, 'position')} due."


def _position(card: Card) -> list[str]:
    return read_position(card.board, card.last_move)
