"""The demo's throwaway home."""

from pathlib import Path

import pytest

from trainer.service.demo import open_demo
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.today import report_today
from trainer.service.upkeep import verify


def test_there_is_something_to_practise_at_once() -> None:
    with open_demo() as study:
        today = report_today(study)
        assert today.due > 5
        assert today.fresh_today > 0
        assert sum(1 for day in today.days_ahead if day.due) > 10
        assert verify(study).problems == ()
        # A stranger meets the first moves first, not the end of a line.
        lines = [prompt.card.line for prompt in prepare_practice(study, Wish()).sitting.ahead]
        assert all(len(line.split()) <= 9 for line in lines[:3])


def test_it_is_the_same_on_the_same_day_and_alike_on_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def due_days() -> list[int]:
        with open_demo() as study:
            return [day.due for day in report_today(study).days_ahead]

    first = due_days()
    assert due_days() == first
    monkeypatch.setenv("TRAINER_NOW", "2027-07-14T09:00:00-03:00")
    assert due_days() == first


def test_nothing_of_it_stays_behind(home: Path) -> None:
    with open_demo() as study:
        folder = study.home.folder
        assert folder.exists()
        assert folder != home
    assert not folder.exists()
    assert not home.exists()
