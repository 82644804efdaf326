"""What a deck would change, told beforehand. Worked by hand from tests/small_decks.py."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.deck.packs import pack
from tests.service.practising import play_all
from tests.small_decks import FIRST, write_deck
from trainer.errors import TrainerError
from trainer.service.decks.against import account_against, contents_at, contents_here
from trainer.service.decks.editions import CardChanges
from trainer.service.decks.preferences import prefer
from trainer.service.decks.shelving import add_deck
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study

BETTER = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3")
CHANGES = CardChanges(kept=5, new=0, changed=1, withdrawn=0)


def test_two_paths_are_compared_whatever_their_form(tmp_path: Path) -> None:
    old = write_deck(tmp_path / "old", {"first": FIRST})
    new = write_deck(tmp_path / "new", {"first": BETTER}, edition=2)
    files = {file.name: file.read_bytes() for file in old.iterdir()}
    for path in (old, pack(tmp_path / "old.deck.zip", files)):
        account = account_against(contents_at(path, None), contents_at(new, None))
        assert (account.before, account.edition, account.cards) == (1, 2, CHANGES)


def test_pgn_files_need_no_common_name(tmp_path: Path) -> None:
    (tmp_path / "a.pgn").write_text(FIRST, encoding="utf-8")
    (tmp_path / "b.pgn").write_text(BETTER, encoding="utf-8")
    old, new = (contents_at(tmp_path / name, "white") for name in ("a.pgn", "b.pgn"))
    assert account_against(old, new).cards == CHANGES


def test_an_added_deck_counts_as_it_was_issued(study: Study, tmp_path: Path) -> None:
    add_deck(study, write_deck(tmp_path / "old", {"first": FIRST}))
    prefer(study, "small", "1. e4 e5 2. Nc3 Nf6", "Bc4")
    play_all(prepare_practice(study, Wish(fresh=99)))
    new = contents_at(write_deck(tmp_path / "new", {"first": BETTER}, edition=2), None)
    account = account_against(contents_here(study, "small"), new)
    assert (account.cards, account.at_stake) == (CHANGES, frozenset())
    with pytest.raises(TrainerError, match="no deck 'nosuch'; the decks are: small"):
        contents_here(study, "nosuch")


def test_two_decks_are_not_compared(tmp_path: Path) -> None:
    old = contents_at(write_deck(tmp_path / "a", {"first": FIRST}, deck_id="a"), None)
    new = contents_at(write_deck(tmp_path / "b", {"first": FIRST}, deck_id="b"), None)
    with pytest.raises(TrainerError, match="'a' and 'b' are two decks"):
        account_against(old, new)
