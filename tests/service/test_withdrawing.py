"""Taking a deck off the shelf, and putting it back."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.deck.packs import pack
from tests.service.practising import play_all
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.errors import TrainerError
from trainer.service.decks.preferences import choice_at, prefer
from trainer.service.decks.report import list_decks
from trainer.service.decks.shelving import add_deck
from trainer.service.decks.withdrawing import Withdrawal, prepare_withdrawal, withdraw_deck
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study
from trainer.service.today import report_today
from trainer.service.upkeep import verify
from trainer.store.answers import read_log, read_states


def test_a_deck_goes_and_comes_back_with_all_that_is_remembered(
    study: Study, small_deck: Path
) -> None:
    add_deck(study, small_deck)
    prefer(study, "small", "1. e4 e5 2. Nc3 Nf6", "Bc4")
    play_all(prepare_practice(study, Wish(fresh=4)))
    known, log = read_states(study.db), list(read_log(study.db))
    assert withdraw_deck(study, "small") == Withdrawal("small", "Small", cards=6, remembered=4)
    assert (list_decks(study), report_today(study).decks) == ([], ())
    assert not (study.home.decks / "small").exists()
    assert (read_states(study.db), list(read_log(study.db))) == (known, log)
    assert verify(study).ok
    added = add_deck(study, small_deck)
    assert [change.what for change in added.account.changes] == ["returned"] * 4
    assert report_today(study).decks[0].known == 4
    assert choice_at(study, "small", "1. e4 e5 2. Nc3 Nf6").kept == "Bc4"


def test_a_card_that_another_deck_asks_stays_in_practice(study: Study, tmp_path: Path) -> None:
    add_deck(study, write_deck(tmp_path / "a", {"first": FIRST}, deck_id="a"))
    add_deck(study, write_deck(tmp_path / "b", {"second": SECOND}, deck_id="b"))
    play_all(prepare_practice(study, Wish(fresh=99)))
    # The start, 1...e5 and 4. d3 stand in both.
    planned = prepare_withdrawal(study, "b")
    assert (planned.cards, planned.remembered) == (5, 2)
    withdraw_deck(study, "b")
    assert [deck.id for deck in list_decks(study)] == ["a"]
    assert (study.home.decks / "a" / "edition-1").is_dir()


def test_nothing_is_changed_beforehand(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    prepare_withdrawal(study, "small")
    assert len(list_decks(study)) == 1


@pytest.mark.parametrize("form", ["folder", "packed", "id"])
def test_a_deck_is_named_by_id_or_path(
    study: Study, small_deck: Path, tmp_path: Path, form: str
) -> None:
    add_deck(study, small_deck)
    files = {file.name: file.read_bytes() for file in small_deck.iterdir()}
    packed = pack(tmp_path / "any.deck.zip", files)
    name = {"folder": str(small_deck), "packed": str(packed), "id": "small"}[form]
    assert prepare_withdrawal(study, name).deck == "small"


def test_a_pgn_file_is_named_by_its_path_where_one_side_is_here(
    study: Study, tmp_path: Path
) -> None:
    file = tmp_path / "My lines.pgn"
    file.write_text(FIRST, encoding="utf-8")
    add_deck(study, file, "white")
    assert prepare_withdrawal(study, str(file)).deck == "my-lines-white"
    add_deck(study, file, "black")
    with pytest.raises(TrainerError, match="my-lines-white and as my-lines-black; name one"):
        prepare_withdrawal(study, str(file))
    withdraw_deck(study, "my-lines-white")
    assert prepare_withdrawal(study, str(file)).deck == "my-lines-black"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("nosuch", "no deck 'nosuch'; the decks are: small"),
        ("other", "no deck 'other'"),
        ("empty", "name the deck by its id"),
        ("missing/folder", "no deck"),
        ("broken.deck.zip", "name the deck by its id"),
    ],
)
def test_what_is_not_here_is_refused(
    study: Study,
    small_deck: Path,
    tmp_path: Path,
    name: str,
    said: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    add_deck(study, small_deck)
    write_deck(tmp_path / "other", {"first": FIRST}, deck_id="other")
    (tmp_path / "empty").mkdir()
    (tmp_path / "broken.deck.zip").write_bytes(b"PK")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(TrainerError, match=said):
        prepare_withdrawal(study, name)
    assert len(list_decks(study)) == 1
