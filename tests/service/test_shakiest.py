"""What is known of one card, and which due card is the shakiest."""

from datetime import date
from pathlib import Path

import pytest

from tests.service.practising import play_all
from trainer.service.card_history import CardHistory, card_history
from trainer.service.decks.shelving import add_deck
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.shakiest import shakiest_due
from trainer.service.study import open_study

AFTER_NC3 = "1. e4 e5 2. Nc3 Nf6"


def practise(
    home: Path, small_deck: Path, day: str, monkeypatch: pytest.MonkeyPatch, miss: str
) -> None:
    monkeypatch.setenv("TRAINER_NOW", f"{day}T18:00:00+01:00")
    with open_study(home) as study:
        add_deck(study, small_deck)
        play_all(prepare_practice(study, Wish(fresh=20)), miss=frozenset({miss}))


def test_the_longest_unasked_for_its_interval(
    home: Path, small_deck: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Interval 1 for all but the card missed on the second day, whose others have 6 by then.

    On the ninth all are due: waited 7 days of 6, the missed one 7 of 1.
    """
    practise(home, small_deck, "2026-12-01", monkeypatch, "")
    practise(home, small_deck, "2026-12-02", monkeypatch, AFTER_NC3)
    monkeypatch.setenv("TRAINER_NOW", "2026-12-09T18:00:00+01:00")
    with open_study(home) as study:
        found = shakiest_due(study, prepare_practice(study, Wish()))
        assert found is not None
        assert found.card.line == AFTER_NC3
        assert found.history == CardHistory((5, 2), date(2026, 12, 2))
        assert (found.history.asked, found.history.missed) == (2, 1)


def test_nothing_due_and_nothing_asked(home: Path, small_deck: Path) -> None:
    with open_study(home) as study:
        add_deck(study, small_deck)
        practice = prepare_practice(study, Wish())
        assert shakiest_due(study, practice) is None
        assert card_history(study, practice.sitting.ahead[0].card.key) == CardHistory((), None)
