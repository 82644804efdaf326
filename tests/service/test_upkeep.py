"""Verifying, rebuilding and exporting."""

from pathlib import Path

import pytest

from tests.service.practising import play_all
from trainer.errors import TrainerError
from trainer.service.decks.shelving import add_deck
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study
from trainer.service.upkeep import export, rebuild, verify
from trainer.store.database import transaction


def test_a_sound_home_has_no_problems(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=8)))
    found = verify(study)
    assert (found.ok, found.answers, found.cards) == (True, 8, 8)


def test_a_state_that_the_log_does_not_give_is_found_and_mended(
    study: Study, small_deck: Path
) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=8)))
    with transaction(study.db):
        study.db.execute("UPDATE card_state SET e_factor = 999 WHERE card LIKE '%e2e4'")
    found = verify(study)
    assert not found.ok
    assert "trainer data rebuild" in found.problems[0]
    assert rebuild(study) == 1
    assert verify(study).ok


def test_the_export_has_the_whole_log_and_all_cards(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=1)), seconds=3.0)
    data = export(study)
    (answer,) = data["answers"]
    assert len(answer.pop("id")) == 32
    assert answer == {
        "card": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - e2e4",
        "asked_at": "2026-12-03T17:00:00.000Z",
        "day": "2026-12-03",
        "quality": 5,
        "seconds": 3.0,
        "looked": 0.0,
        "tries": [{"san": "e4", "verdict": "in book"}],
        "hint": False,
        "shown": False,
        "source": "day",
        "repeat": False,
        "deck": "small",
        "chapter": "first",
        "edition": 1,
        "rules": 1,
        "part_credit": True,
    }
    assert len(data["cards"]) == 8
    assert data["cards"][0] == {
        "card": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - e2e4",
        "fen": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        "move": "e4",
        "decks": ["small"],
        "repetition": 1,
        "interval": 1,
        "e_factor": 2.6,
        "due": "2026-12-04",
    }
    assert data["cards"][1]["due"] is None


@pytest.mark.parametrize(
    ("damage", "said", "mended"),
    [
        ("UPDATE card_state SET due = 'garbage'", "trainer data rebuild", True),
        (
            "INSERT INTO card_state SELECT 'zzz', repetition, interval, e_factor, due, first_day, "
            "last_day, 5, 5, 5, last_asked_at FROM card_state LIMIT 1",
            "trainer data rebuild",
            True,
        ),
        ("UPDATE chapter SET opens = 'xx'", "chapter 'first'", False),
        ("UPDATE lines SET graph = '{}'", "add the deck again", False),
        ("DELETE FROM lines", "add the deck again", False),
        ("DELETE FROM deck_card WHERE rank = 0", "add it again", False),
    ],
    ids=["state", "extra state", "chapter", "lines", "no lines", "card"],
)
def test_damage_is_named_and_can_be_mended(
    study: Study, small_deck: Path, damage: str, said: str, mended: bool
) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=3)))
    with transaction(study.db):
        study.db.execute(damage)
    found = verify(study)
    assert not found.ok
    assert said in found.problems[0]
    if mended:
        rebuild(study)
    else:
        add_deck(study, small_deck)
    assert verify(study).problems == ()


def test_a_damaged_log_is_named_and_never_replaced(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=3)))
    with transaction(study.db):
        study.db.execute("DROP TRIGGER answer_no_update")
        study.db.execute("UPDATE answer SET day = 'xx' WHERE number = 2")
    found = verify(study)
    assert "cannot be read" in found.problems[0]
    with pytest.raises(TrainerError, match="cannot be read"):
        rebuild(study)
    with pytest.raises(TrainerError, match="cannot be read"):
        export(study)
