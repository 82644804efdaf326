"""`trainer deck pack`: a folder becomes one file, which `deck add` takes."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.cli.runs import document, run
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.cli import consent
from trainer.deck.reader import read_deck


@pytest.fixture
def small(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A deck in a folder with things that are not its own, in the present folder."""
    folder = write_deck(tmp_path / "here" / "our lines", {"first": FIRST, "second": SECOND})
    (folder / "notes.txt").write_text("not for students")
    (folder / ".git").mkdir()
    (folder / ".git" / "config").write_text("")
    monkeypatch.chdir(tmp_path / "here")
    return Path("our lines")


def test_a_deck_is_packed_here_under_its_folders_name(small: Path) -> None:
    packed = document("deck", "pack", str(small))
    file = Path("our lines.deck.zip")
    assert packed == {
        "deck": "small",
        "edition": 1,
        "file": str(file),
        "bytes": file.stat().st_size,
        "files": ["deck.toml", "first.pgn", "second.pgn"],
        "findings": [],
    }
    assert sorted(path.name for path in Path().iterdir()) == ["our lines", "our lines.deck.zip"]
    there, unpacked = read_deck(file).deck, read_deck(small).deck
    assert there is not None
    assert unpacked is not None
    assert (there.id, there.digest) == (unpacked.id, unpacked.digest)


def test_in_words(small: Path) -> None:
    result = run("deck", "pack", str(small))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == "our lines.deck.zip: Small (small), edition 1: 3 files, 2 kB.\n"


def test_the_same_deck_elsewhere_is_the_same_bytes(small: Path, tmp_path: Path) -> None:
    shutil.copytree(small, tmp_path / "copy")
    run("deck", "pack", ".." + "/copy", "--to", "one.deck.zip")
    run("deck", "pack", str(small), "--to", str(tmp_path))
    one, other = Path("one.deck.zip"), tmp_path / "our lines.deck.zip"
    assert one.read_bytes() == other.read_bytes()


def test_a_pack_is_added_as_its_folder_would_be(small: Path) -> None:
    run("deck", "pack", str(small))
    added = document("deck", "add", "our lines.deck.zip")
    assert (added["deck"], added["edition"], added["cards"]["new"]) == ("small", 1, 8)
    assert document("deck", "add", str(small))["cards"]["kept"] == 8


def test_a_packs_edition_does_not_rise_by_itself(small: Path) -> None:
    run("deck", "add", str(small))
    (small / "first.pgn").write_text(FIRST.replace("Takes the centre", "Takes room"))
    run("deck", "pack", str(small))
    refused = run("deck", "add", "our lines.deck.zip")
    assert refused.exit_code == 1
    assert "raise the edition" in refused.stderr


def test_an_earlier_pack_of_the_deck_is_replaced(small: Path) -> None:
    run("deck", "pack", str(small))
    before = Path("our lines.deck.zip").read_bytes()
    write_deck(small, {"first": FIRST}, edition=2)
    assert document("deck", "pack", str(small))["edition"] == 2
    assert Path("our lines.deck.zip").read_bytes() != before


@pytest.mark.parametrize("there", ["a text", "another deck"])
@pytest.mark.parametrize("as_json", [False, True])
def test_any_other_file_is_not_replaced_without_a_yes(
    there: str, as_json: bool, small: Path
) -> None:
    target = Path("x.deck.zip")
    if there == "a text":
        target.write_text("mine")
    else:
        write_deck(Path("other"), {"first": FIRST}, deck_id="other")
        run("deck", "pack", "other", "--to", str(target))
    before = target.read_bytes()
    arguments = ["deck", "pack", str(small), "--to", str(target), *(["--json"] if as_json else [])]
    refused = run(*arguments)
    assert (refused.exit_code, refused.stderr.count("\n")) == (1, 1)
    assert "--yes" in refused.stderr
    assert bool(refused.stdout) == as_json
    assert target.read_bytes() == before
    assert run(*arguments, "--yes").exit_code == 0
    assert read_deck(target).deck is not None


@pytest.mark.parametrize(("typed", "code"), [("y\n", 0), ("n\n", 1), ("\n", 1)])
def test_a_person_is_asked(
    typed: str, code: int, small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(consent, "sits_at_the_keyboard", lambda: True)
    Path("x.deck.zip").write_text("mine")
    result = run("deck", "pack", str(small), "--to", "x.deck.zip", typed=typed)
    assert result.exit_code == code
    assert "is there already and is no packed deck small. Replace it?" in result.stderr
    assert (Path("x.deck.zip").read_bytes() == b"mine") == bool(code)


def test_a_deck_with_errors_is_not_packed(small: Path) -> None:
    (small / "first.pgn").write_text(FIRST.replace("4. fxe5", "4. fxe6"))
    refused = run("deck", "pack", str(small), "--json")
    assert (refused.exit_code, refused.stderr.count("\n")) == (1, 1)
    assert refused.stderr.startswith("trainer: our lines: not packed: first.pgn, line 11: ")
    told = json.loads(refused.stdout)
    assert (told["deck"], told["file"]) == (None, None)
    assert [found["code"] for found in told["findings"]] == ["illegal-move"]
    assert not Path("our lines.deck.zip").exists()


def test_a_deck_whose_lines_contradict_each_other_is_not_packed(small: Path) -> None:
    (small / "second.pgn").write_text("1. e4 e5 2. Nf3 (2. Nc3? {No.} 2... Nf6) *\n")
    refused = run("deck", "pack", str(small))
    assert (refused.exit_code, run("deck", "add", str(small)).exit_code) == (1, 1)
    assert not Path("our lines.deck.zip").exists()


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (["nosuch"], "no folder"),
        (["our lines/first.pgn"], "no folder"),
        (["."], "there is no file deck.toml"),
        (["our lines", "--to", "x.pgn"], "ends in .deck.zip"),
        (["our lines", "--to", "nosuch/x.deck.zip"], "cannot be written"),
        (["our lines", "--to", f"{'x' * 300}.deck.zip"], "cannot be written"),
    ],
)
@pytest.mark.usefixtures("small")
def test_what_cannot_be_packed(arguments: list[str], why: str) -> None:
    refused = run("deck", "pack", *arguments)
    assert (refused.exit_code, refused.stdout, refused.stderr.count("\n")) == (1, "", 1)
    assert why in refused.stderr
    assert [path.name for path in Path().iterdir()] == ["our lines"]
