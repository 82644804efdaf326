"""The same recorded sitting through every face leaves the same log."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.recorded import QUALITIES, RECORDED, WISH, Step, Typist, log_of
from tests.small_decks import FIRST, write_deck
from trainer.cli import sitting_json
from trainer.cli.lines_in import TimedLines
from trainer.cli.sitting_plain import PlainSitting
from trainer.lines.letters import ENGLISH
from trainer.service.decks.shelving import add_deck
from trainer.service.preparation import prepare_practice
from trainer.service.study import Study, open_study


def as_json(step: Step) -> str:
    """The answer of a program."""
    if step.kind == "move":
        return json.dumps({"move": step.text, "seconds": step.seconds})
    return json.dumps({step.kind: True, "seconds": step.seconds})


def as_text(step: Step) -> str:
    """What a person types."""
    return step.text or step.kind


def hold_json(study: Study) -> None:
    """The JSON face; the program tells its seconds."""
    practice = prepare_practice(study, WISH, ENGLISH)
    sitting_json.sit(practice, TimedLines(Typist(practice, RECORDED, as_json)))


def hold_json_by_the_clock(study: Study) -> None:
    """The JSON face with bare moves; the clock tells the seconds."""
    practice = prepare_practice(study, WISH, ENGLISH)
    typist = Typist(practice, RECORDED, lambda step: step.text or json.dumps({step.kind: True}))
    sitting_json.sit(practice, TimedLines(typist, clock=lambda: typist.now))


def hold_plain(study: Study, patient: bool = False) -> None:
    """The plain face."""
    practice = prepare_practice(study, WISH)
    typist = Typist(practice, RECORDED, as_text)
    lines = TimedLines(typist, clock=lambda: typist.now)
    PlainSitting(study, practice, lines, patient).run()


def hold_plain_at_a_terminal(study: Study) -> None:
    """The plain face where a person presses Enter between prompts."""
    hold_plain(study, patient=True)


# Each is compared with `hold_json`.
FACES: dict[str, Callable[[Study], None]] = {
    "JSON by the clock": hold_json_by_the_clock,
    "plain": hold_plain,
    "plain at a terminal": hold_plain_at_a_terminal,
}


@contextmanager
def study_of(folder: Path) -> Iterator[Study]:
    """A home of its own with the first chapter of the small deck."""
    with open_study(folder / "home") as study:
        add_deck(study, write_deck(folder / "small", {"first": FIRST}))
        yield study


@pytest.mark.parametrize("face", FACES)
def test_every_face_leaves_the_log_that_a_program_leaves(face: str, tmp_path: Path) -> None:
    with study_of(tmp_path / "one") as wanted, study_of(tmp_path / "two") as held:
        hold_json(wanted)
        FACES[face](held)
        assert log_of(held) == log_of(wanted)


def test_the_recorded_sitting_comes_to_these_qualities(tmp_path: Path) -> None:
    with study_of(tmp_path) as study:
        hold_json(study)
        *answers, _states = log_of(study)
    assert [(row["schedule"]["quality"], row["withdrawn"]) for row in answers] == QUALITIES
    assert [row["seconds"] for row in answers] == [2.0, 6.75, 2.0, 8.5]
    assert answers[1]["tries"] == [
        ("Qh5", "known mistake"),
        ("Nf3", "out of book"),
        ("Nc3", "in book"),
    ]
