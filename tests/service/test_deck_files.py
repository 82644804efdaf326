"""The files of a deck in the home: those that were read, whole, or none."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.small_decks import FIRST, write_deck
from trainer.deck.deck import Deck
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.service.decks import shelving
from trainer.service.decks.files import forget_files_off_the_shelf, keep_files
from trainer.service.decks.report import list_decks
from trainer.service.decks.shelving import add_deck
from trainer.service.home import Home
from trainer.service.study import Study


@pytest.fixture
def at(tmp_path: Path) -> Home:
    return Home(tmp_path / "elsewhere")


def read(path: Path) -> Deck:
    deck = read_deck(path).deck
    assert deck is not None
    return deck


def tree(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


def test_files_that_changed_since_they_were_read_are_not_kept(at: Home, tmp_path: Path) -> None:
    path = write_deck(tmp_path / "deck", {"first": FIRST})
    deck = read(path)
    (path / "first.pgn").write_text(FIRST.replace("e4", "d3"))
    with pytest.raises(TrainerError, match="changed while they were read"):
        keep_files(at, deck, path)
    (path / "first.pgn").unlink()
    with pytest.raises(TrainerError, match="there is no file first"):
        keep_files(at, deck, path)
    assert not at.decks.exists()


def test_what_a_killed_program_left_is_taken_away(at: Home, tmp_path: Path) -> None:
    (at.decks / ".adding-x" / "copy").mkdir(parents=True)
    path = write_deck(tmp_path / "deck", {"first": FIRST})
    keep_files(at, read(path), path)
    names = ["deck.toml", "first.pgn"]
    inside = [f"small/edition-1/{name}" for name in names]
    assert tree(at.decks) == ["small", "small/edition-1", *inside]


def test_the_same_files_stay_where_they_are(at: Home, tmp_path: Path) -> None:
    path = write_deck(tmp_path / "deck", {"first": FIRST})
    keep_files(at, read(path), path)
    kept = at.decks / "small" / "edition-1"
    before = kept.stat().st_ino
    keep_files(at, read(path), kept)
    assert kept.stat().st_ino == before
    (kept / "first.pgn").write_text("changed by hand")
    keep_files(at, read(path), path)
    assert (kept / "first.pgn").read_text() == FIRST


def test_a_home_that_cannot_be_written(at: Home, tmp_path: Path) -> None:
    at.folder.mkdir()
    at.decks.write_text("in the way")
    path = write_deck(tmp_path / "deck", {"first": FIRST})
    with pytest.raises(TrainerError, match="nothing was added"):
        keep_files(at, read(path), path)


def test_only_what_is_on_the_shelf_stays(at: Home) -> None:
    for folder in ("a/edition-1", "a/edition-2", "b/edition-1"):
        (at.decks / folder).mkdir(parents=True)
    forget_files_off_the_shelf(at, [("a", 2)])
    assert tree(at.decks) == ["a", "a/edition-2"]


def test_an_adding_that_came_to_nothing_leaves_nothing_for_long(
    study: Study, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_arguments: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(shelving, "put_deck", stopped)
        with pytest.raises(KeyboardInterrupt):
            add_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    assert list_decks(study) == []
    add_deck(study, write_deck(tmp_path / "two", {"first": FIRST}, deck_id="other"))
    assert [path.name for path in study.home.decks.iterdir()] == ["other"]
