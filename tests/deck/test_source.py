"""A deck is the same deck whatever it lies in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.packs import FILES, MANIFEST, pack
from tests.small_decks import FIRST
from trainer.deck.paths import FileRefused, folded, why_unsafe
from trainer.deck.reader import read_deck
from trainer.deck.source import is_single, open_source

SHIPPED = Path(__file__).parents[2] / "decks" / "vienna"


def as_folder(at: Path, files: dict[str, bytes]) -> Path:
    for name, data in files.items():
        (at / "x" / name).parent.mkdir(parents=True, exist_ok=True)
        (at / "x" / name).write_bytes(data)
    return at / "x"


def as_pack(at: Path, files: dict[str, bytes]) -> Path:
    return pack(at / "x.deck.zip", files)


WAYS = pytest.mark.parametrize("way", [as_folder, as_pack], ids=["folder", "packed"])
Way = Callable[[Path, dict[str, bytes]], Path]


def test_a_folder_and_its_zip_are_the_same_deck(tmp_path: Path) -> None:
    files = {path.name: path.read_bytes() for path in SHIPPED.iterdir()}
    there = read_deck(SHIPPED)
    assert there.deck is not None
    for way in (as_folder, as_pack):
        read = read_deck(way(tmp_path, files))
        assert read.deck is not None
        assert read.findings == there.findings
        assert (read.deck.id, read.deck.digest) == (there.deck.id, there.deck.digest)
        assert [len(c.games) for c in read.deck.chapters] == [
            len(c.games) for c in there.deck.chapters
        ]


@WAYS
def test_files_in_folders_of_a_deck(way: Way, tmp_path: Path) -> None:
    manifest = MANIFEST.replace("first.pgn", "part one/Größe.pgn").encode()
    files = {"deck.toml": manifest, "part one/Größe.pgn": FIRST.encode()}
    assert read_deck(way(tmp_path, files)).findings == ()


@WAYS
@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"\x7fELF\2\1\1" + bytes(100), "not-text"),
        (FIRST.encode("utf-16-le"), "not-text"),
        (FIRST.encode("utf-16"), "wrong-encoding"),
        (FIRST.encode() + b"\0", None),
    ],
    ids=["a program", "UTF-16 without its mark", "UTF-16", "a stray zero"],
)
def test_chapters_are_text(way: Way, data: bytes, code: str | None, tmp_path: Path) -> None:
    read = read_deck(way(tmp_path, FILES | {"first.pgn": data}))
    assert [found.code for found in read.findings] == ([code] if code else [])


@WAYS
def test_two_chapters_whose_names_differ_by_case_alone(way: Way, tmp_path: Path) -> None:
    chapter = MANIFEST[MANIFEST.index("[[chapter]]") :]
    manifest = MANIFEST + chapter.replace("first.pgn", "First.pgn").replace(
        "title", 'id = "other"\ntitle'
    )
    files = FILES | {"deck.toml": manifest.encode(), "First.pgn": FIRST.encode()}
    (found,) = read_deck(way(tmp_path, files)).findings
    assert "one file on some systems" in found.message


@pytest.mark.parametrize(
    ("name", "single"),
    [("a.pgn", True), ("a.zip", False), ("a.deck.zip", False), ("missing", True), (".", False)],
)
def test_what_can_be_a_single_file_only(name: str, single: bool, tmp_path: Path) -> None:
    assert is_single(tmp_path / name) is single


def test_a_single_file_has_one_name_only(tmp_path: Path) -> None:
    (tmp_path / "a.pgn").write_bytes(FILES["first.pgn"])
    source = open_source(tmp_path / "a.pgn")
    assert source.read("a.pgn", 10_000) == FILES["first.pgn"]
    with pytest.raises(FileRefused, match="larger than"):
        source.read("a.pgn", 100)


def test_a_picture_is_called_no_deck(tmp_path: Path) -> None:
    (tmp_path / "board.png").write_bytes(b"\x89PNG" + bytes(100))
    (found,) = read_deck(tmp_path / "board.png", "white").findings
    assert found.code == "not-a-deck"
    assert "*.deck.zip" in found.message


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("01-first.pgn", ""),
        ("part one/Größe.pgn", ""),
        ("console.pgn", ""),
        ("com10.pgn", ""),
        (".hidden", ""),
        ("part/AUX", "device"),
        ("com1.tar.gz", "device"),
        ("trailing.", "dot or a blank"),
        (" a.pgn", "dot or a blank"),
        ('"a".pgn', 'holds "'),
    ],
)
def test_names_that_stand_on_every_system(name: str, why: str) -> None:
    assert why in why_unsafe(name)
    assert bool(why_unsafe(name)) == bool(why)


@given(st.text(max_size=8), st.text("abcxyz./0", max_size=8))
def test_names_that_are_one_on_some_system_fold_alike(name: str, plain: str) -> None:
    assert folded(folded(name)) == folded(name)
    assert folded(plain.upper()) == plain
