"""The list of entries of a packed deck: what must not be opened is refused before it is read."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
import unicodedata
import zipfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.packs import FILES, MANIFEST, changed, entry, pack
from trainer.deck import packed
from trainer.deck.packed import PackedFiles, is_packed
from trainer.deck.paths import FileRefused
from trainer.deck.reader import read_deck


def opened(path: Path) -> PackedFiles:
    return PackedFiles(path, path.name)


def refusal(path: Path) -> str:
    """Why the pack is refused; read whole, should its list be let pass."""
    with pytest.raises(FileRefused) as caught:
        files = opened(path)
        for name in FILES:
            files.read(name, 100_000)
    assert "\n" not in caught.value.message
    return f"{caught.value.code}: {caught.value.message}"


@pytest.mark.parametrize("top", ["", "vienna/", "Any name at all/"])
def test_the_files_lie_at_the_top_or_in_one_folder(top: str, tmp_path: Path) -> None:
    path = pack(tmp_path / "x.deck.zip", {top + name: data for name, data in FILES.items()})
    assert {name: opened(path).read(name, 10_000) for name in FILES} == FILES


@pytest.mark.skipif(shutil.which("zip") is None, reason="needs the zip program")
def test_a_zip_by_another_program_is_read(tmp_path: Path) -> None:
    # Agrees with Info-ZIP 3.0, run live.
    folder = tmp_path / "vienna"
    (folder / "Größe").mkdir(parents=True)
    for name, data in {**FILES, "Größe/ä.pgn": b"1. e4 *"}.items():
        (folder / name).write_bytes(data)
    subprocess.run(["zip", "-qr", "v.deck.zip", "vienna"], cwd=tmp_path, check=True)
    files = opened(tmp_path / "v.deck.zip")
    assert files.read("deck.toml", 10_000) == FILES["deck.toml"]
    assert files.read("Größe/ä.pgn", 10_000) == b"1. e4 *"


def test_a_name_that_a_system_has_taken_apart_is_found(tmp_path: Path) -> None:
    name = unicodedata.normalize("NFD", "Größe.pgn")
    path = pack(tmp_path / "x.zip", {**FILES, name: b"1. e4 *"})
    assert opened(path).read("Größe.pgn", 100) == b"1. e4 *"


def test_a_utf8_name_without_its_mark_is_found(tmp_path: Path) -> None:
    path = pack(tmp_path / "x.zip", {**FILES, "G__e.pgn": b"1. e4 *"})
    changed(path, b"G__e.pgn", "Gäe.pgn".encode())
    assert opened(path).read("Gäe.pgn", 100) == b"1. e4 *"


def test_what_lies_beside_the_deck_is_no_harm(tmp_path: Path) -> None:
    beside = {"__MACOSX/vienna/._deck.toml": b"\0\5", "vienna/.git/config": b"", "Thumbs.db": b"x"}
    files = {f"vienna/{name}": data for name, data in FILES.items()}
    path = pack(
        tmp_path / "x.zip", {**files, **beside}, [(entry("vienna/empty/", stat.S_IFDIR), b"")]
    )
    assert read_deck(path).findings == ()


# Source: PKWARE APPNOTE 6.3, 4.4.17 (no drive, no leading slash, forward slashes only); the
# names of devices: Microsoft, "Naming Files, Paths, and Namespaces".
@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../evil.txt", "leads out"),
        ("a/../../evil.txt", "leads out"),
        ("/abs.txt", "leads out"),
        ("a//b.txt", "leads out"),
        ("./a.txt", "leads out"),
        ("C:\\win.txt", "backslash"),
        ("C:win.txt", "colon"),
        ("a\\b.txt", "backslash"),
        ("first.pgn:stream", "colon"),
        ("CON", "device"),
        ("nul.pgn", "device"),
        ("part/Com1.pgn", "device"),
        ("LPT¹.toml", "device"),
        ("aux .pgn", "device"),
        ("a.pgn.", "a dot or a blank"),
        ("part /a.pgn", "a dot or a blank"),
        ("why?.pgn", "holds ?"),
        ("a\x1b[31m.pgn", "cannot be shown"),
        ("a\u202enpg.exe", "cannot be shown"),
        ("a\0.pgn", "cannot be shown"),
        ("", "leads out"),
        ("a" * 256, "a name of more than 255 signs"),
        ("a/" * 30_000 + "a", "a name of more than 255 signs"),
    ],
    ids=repr,
)
def test_names_that_no_deck_has(name: str, why: str, tmp_path: Path) -> None:
    told = refusal(pack(tmp_path / "x.zip", more=[(entry(name), b"x")]))
    assert told.startswith("unsafe-entry: x.zip holds ")
    assert why in told
    assert told.isprintable()


@pytest.mark.parametrize(
    "mode",
    [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR, stat.S_IFBLK, stat.S_IFSOCK, stat.S_IFDIR],
    ids=["link", "pipe", "character device", "block device", "socket", "folder without slash"],
)
def test_entries_that_are_no_plain_files(mode: int, tmp_path: Path) -> None:
    told = refusal(pack(tmp_path / "x.zip", more=[(entry("b.pgn", mode | 0o777), b"/etc/passwd")]))
    assert told.startswith('unsafe-entry: x.zip holds "b.pgn", which is a link, a device')


@pytest.mark.filterwarnings("ignore:Duplicate name")
@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("first.pgn", "twice"),
        ("FIRST.pgn", "one file on some systems"),
        ("first.pgn/", "twice"),
        ("first.pgn/a.pgn", "as a file and as a folder"),
    ],
)
def test_two_entries_for_one_file(name: str, why: str, tmp_path: Path) -> None:
    mode = stat.S_IFDIR if name.endswith("/") else stat.S_IFREG
    told = refusal(pack(tmp_path / "x.zip", more=[(entry(name, mode), b"")]))
    assert told.startswith("unsafe-entry")
    assert why in told


def test_two_names_that_differ_in_how_they_are_composed(tmp_path: Path) -> None:
    names = [unicodedata.normalize(form, "ä.pgn") for form in ("NFC", "NFD")]
    assert "twice" in refusal(pack(tmp_path / "x.zip", {**FILES, **dict.fromkeys(names, b"")}))


def test_an_encrypted_entry(tmp_path: Path) -> None:
    path = pack(tmp_path / "x.zip", method=zipfile.ZIP_STORED)
    data = bytearray(path.read_bytes())
    at = data.index(b"PK\x01\x02")
    data[at + 8] |= 1
    path.write_bytes(data)
    assert "is encrypted" in refusal(path)


@pytest.mark.parametrize("method", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_uncommon_compression(method: int, tmp_path: Path) -> None:
    assert "an uncommon way" in refusal(pack(tmp_path / "x.zip", method=method))


def test_more_entries_than_anybody_packs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packed, "PACK_ENTRIES", 3)
    path = pack(tmp_path / "x.zip", {**FILES, "a.txt": b""})
    assert set(FILES) == {name for name in FILES if opened(path).read(name, 10_000)}
    assert refusal(pack(path, {**FILES, "a.txt": b"", "b.txt": b""})).startswith("too-large")


def test_the_pack_is_larger_than_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = pack(tmp_path / "x.zip")
    monkeypatch.setattr(packed, "PACK_BYTES", path.stat().st_size - 1)
    assert refusal(path).startswith("too-large")


def test_what_comes_out_is_counted(tmp_path: Path) -> None:
    # Worked by hand: a limit of 100 kB, and 30 MB of zeros in 30 kB.
    path = pack(tmp_path / "x.zip", {**FILES, "first.pgn": bytes(30_000_000)})
    assert path.stat().st_size < 40_000
    assert refusal(path) == "too-large: first.pgn is larger than 97 kB"


def size_claimed(path: Path, size: int) -> Path:
    """The pack with another uncompressed size of each file in its list."""
    data = bytearray(path.read_bytes())
    at = -1
    while (at := data.find(b"PK\x01\x02", at + 1)) >= 0:
        data[at + 24 : at + 28] = size.to_bytes(4, "little")
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("method", [zipfile.ZIP_DEFLATED, zipfile.ZIP_STORED])
def test_a_size_that_is_claimed_too_small(method: int, tmp_path: Path) -> None:
    path = size_claimed(pack(tmp_path / "x.zip", method=method), 10)
    assert refusal(path).startswith("damaged-pack")


@pytest.mark.parametrize(
    ("before", "after"),
    [(b"1. e4", b"1. d4"), (FILES["deck.toml"][:30], b"x" * 30)],
    ids=["a chapter", "the manifest"],
)
def test_changed_contents_do_not_pass_their_checksum(
    before: bytes, after: bytes, tmp_path: Path
) -> None:
    path = changed(pack(tmp_path / "x.zip", method=zipfile.ZIP_STORED), before, after)
    assert refusal(path).startswith("damaged-pack")


@pytest.mark.parametrize("data", [b"", b"PK", b"PK\x03\x04" + bytes(50), b"1. e4 *", bytes(70_000)])
def test_what_is_no_zip(data: bytes, tmp_path: Path) -> None:
    path = tmp_path / "x.deck.zip"
    path.write_bytes(data)
    assert refusal(path).startswith("damaged-pack: x.deck.zip is no zip or is damaged")


def test_a_pack_cut_off_anywhere(tmp_path: Path) -> None:
    whole = pack(tmp_path / "x.zip").read_bytes()
    for length in range(0, len(whole), 7):
        (tmp_path / "x.zip").write_bytes(whole[:length])
        assert refusal(tmp_path / "x.zip").startswith("damaged-pack")


@given(st.lists(st.tuples(st.integers(0), st.integers(0, 255)), min_size=1, max_size=4))
def test_a_damaged_pack_is_the_deck_or_is_refused(
    tmp_path_factory: pytest.TempPathFactory, damage: list[tuple[int, int]]
) -> None:
    path = tmp_path_factory.mktemp("pack") / "x.zip"
    whole = read_deck(pack(path)).deck
    data = bytearray(path.read_bytes())
    for at, value in damage:
        data[at % len(data)] = value
    path.write_bytes(data)
    read = read_deck(path)
    assert whole is not None
    assert (read.deck is None) == any(found.severity == "error" for found in read.findings)
    assert read.deck is None or read.deck.digest == whole.digest


@pytest.mark.parametrize(
    ("files", "why"),
    [
        ({"a.txt": b""}, "holds no deck.toml"),
        ({"a/b/deck.toml": b""}, "holds no deck.toml"),
        ({"a/deck.toml": b"", "b/deck.toml": b""}, "holds several decks (a/ and b/)"),
        ({}, "holds no deck.toml"),
    ],
)
def test_where_no_deck_is(files: dict[str, bytes], why: str, tmp_path: Path) -> None:
    told = refusal(pack(tmp_path / "x.zip", files))
    assert told.startswith("not-a-deck")
    assert why in told


@pytest.mark.parametrize("name", ["second.pgn", "../deck.toml", "vienna/first.pgn", ""])
def test_a_file_that_is_not_there(name: str, tmp_path: Path) -> None:
    files = opened(pack(tmp_path / "x.zip", {f"vienna/{n}": data for n, data in FILES.items()}))
    with pytest.raises(FileRefused) as caught:
        files.read(name, 100)
    assert caught.value.code == "missing-file"


def test_a_pack_in_the_pack_is_no_chapter(tmp_path: Path) -> None:
    inner = pack(tmp_path / "inner.zip").read_bytes()
    manifest = MANIFEST.replace("first.pgn", "inner.deck.zip").encode()
    path = pack(tmp_path / "x.zip", {"deck.toml": manifest, "inner.deck.zip": inner})
    (found,) = read_deck(path).findings
    assert (found.code, found.file) == ("not-text", "deck.toml")
    assert found.message.startswith("inner.deck.zip is not text")


@pytest.mark.parametrize(
    ("name", "is_one"),
    [("x.deck.zip", True), ("X.ZIP", True), ("x.zip.pgn", False), ("x", False), ("zip", False)],
)
def test_a_pack_is_told_by_its_name(name: str, is_one: bool, tmp_path: Path) -> None:
    assert is_packed(tmp_path / name) is is_one
    (tmp_path / name).mkdir()
    assert not is_packed(tmp_path / name)


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "x.deck.zip")
    assert refusal(tmp_path / "x.deck.zip") == "not-a-file: x.deck.zip is not a plain file"
