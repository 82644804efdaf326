"""`trainer deck new`: a folder with a deck that can be practised at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.runs import document, run
from trainer.service.decks import new

FILES = ["01-first-moves.pgn", "02-tricks.pgn", "03-model-game.pgn", "04-ideas.toml", "deck.toml"]


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty present folder."""
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.mark.parametrize("name", ["decks/my-sicilian", "My Sicilian", "my_Sicilian/"])
def test_a_new_deck_is_checked_packed_and_added_as_it_is(name: str) -> None:
    assert document("deck", "new", name) == {
        "folder": name.rstrip("/"),
        "deck": "my-sicilian",
        "files": FILES,
    }
    assert names(Path(name)) == FILES
    assert document("deck", "check", name)["findings"] == []
    assert document("deck", "pack", name)["deck"] == "my-sicilian"
    added = document("deck", "add", name)
    # Worked by hand: twelve positions of the lines, three ideas and a tactic.
    assert (added["deck"], added["cards"]["new"], added["findings"]) == ("my-sicilian", 16, [])


def test_it_says_what_to_do_next() -> None:
    result = run("deck", "new", "my lines")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.splitlines()[2:] == [
        "  trainer deck check 'my lines'",
        "  trainer deck add 'my lines'",
    ]


def test_an_empty_folder_is_filled_and_stays_the_same_folder(here: Path) -> None:
    before = here.stat().st_ino
    assert document("deck", "new", ".")["deck"] == "here"
    assert (names(here), here.stat().st_ino) == (FILES, before)
    assert names(here.parent) == ["here"]


@pytest.mark.parametrize(
    ("path", "why"),
    [
        ("full", "holds something already"),
        ("full/a.txt", "holds something already"),
        ("full/a.txt/new", "cannot be made"),
        ("...", "no id can be made"),
        ("王", "no id can be made"),
        ("x" * 300, "cannot be made"),
    ],
)
def test_where_no_deck_can_be_made(path: str, why: str, here: Path) -> None:
    (here / "full").mkdir()
    (here / "full" / "a.txt").write_text("mine")
    refused = run("deck", "new", path)
    assert (refused.exit_code, refused.stdout, refused.stderr.count("\n")) == (1, "", 1)
    assert why in refused.stderr
    assert (names(here), names(here / "full")) == (["full"], ["a.txt"])


def test_nothing_is_left_where_a_file_cannot_be_written(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def too_many(deck_id: str) -> dict[str, bytes]:
        return {"a.pgn": b"", "x" * 300: b"", "deck.toml": deck_id.encode()}

    monkeypatch.setattr(new, "starting_files", too_many)
    refused = run("deck", "new", "new")
    assert (refused.exit_code, refused.stderr.count("\n")) == (1, 1)
    assert names(here) == []
