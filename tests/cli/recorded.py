"""One recorded sitting, and how a student's hands give it to each face.

A face that can hold it adds a function to `FACES` in `test_faces.py`; all faces must leave
the same log behind.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from typing import Any

from trainer.service.practice import Practice
from trainer.service.preparation import Wish
from trainer.service.study import Study
from trainer.sitting.sitting import Phase
from trainer.store.answers import read_log, read_states


@dataclass(frozen=True)
class Step:
    """One thing the student does where a card is asked."""

    kind: str
    """`move`, `hint`, `show`, `undo` or `stop`."""
    text: str = ""
    """The move as typed."""
    seconds: float = 1.0
    """Since the last event."""


def move(text: str, seconds: float = 1.0) -> Step:
    """The student types a move."""
    return Step("move", text, seconds)


WISH = Wish(fresh=3)
"""Of the small deck: 1. e4, 2. Nc3 and 3. f4, each shown and then asked."""

RECORDED = (
    move("e4", 2.0),
    # 2. Nc3 after rubbish, a known mistake, a sound move that is not ours, and a hint
    move("rubbish", 0.5),
    move("Qh5", 3.25),
    move("Nf3"),
    Step("hint"),
    move("Nc3"),
    # 3. f4 is shown, taken back while 2. Nc3 is asked again, and answered by the other move
    Step("show"),
    move("f4"),
    Step("undo"),
    move("e5", 0.5),
    move("Bc4", 8.0),
    # 2. Nc3 again, given up before it is answered
    move("Qh5"),
    Step("stop"),
)

QUALITIES = [(5, False), (1, False), (0, True), (4, False)]
"""Worked by hand from the table of qualities: quality, and whether it was taken back."""


class Typist(io.BytesIO):
    """Standard input of the recorded student: Enter where nothing is asked, else the next step."""

    def __init__(
        self, practice: Practice, steps: tuple[Step, ...], written: Callable[[Step], str]
    ) -> None:
        super().__init__()
        self.now = 0.0
        """A clock that each step moves on."""
        self._practice = practice
        self._steps: Iterator[Step] = iter(steps)
        self._written = written

    def readline(self, _size: int | None = -1, /) -> bytes:
        """The next line."""
        if self._practice.sitting.phase is not Phase.ASKING:
            return b"\n"
        step = next(self._steps, None)
        if step is None:
            return b""
        self.now += step.seconds
        return f"{self._written(step)}\n".encode()


def log_of(study: Study) -> list[dict[str, Any]]:
    """The answer log but for ids and instants, and the states that it came to."""
    answers = [
        {**asdict(entry.answer), "asked_at": "", "withdrawn": entry.withdrawn}
        for entry in read_log(study.db)
    ]
    return [*answers, read_states(study.db)]
