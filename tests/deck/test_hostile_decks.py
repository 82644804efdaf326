"""Decks made by an enemy: one clear line, within bounds, and nothing of them stays.

Each is added through the command line. What is refused leaves no deck, no file of it in the
home and none outside; the worst are added by a program of their own with little memory.
"""

from __future__ import annotations

import os
import socket
import stat
import subprocess
import sys
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.cli.runs import PROGRAM, document, run
from tests.deck.packs import FILES, MANIFEST, entry, pack
from tests.small_decks import FIRST
from trainer.deck.limits import PGN_BYTES
from trainer.deck.reader import read_deck

MB = 1024 * 1024
MEMORY = 1024 * MB
"""What a program that adds a deck may take, code and libraries included."""

Make = Callable[[Path], Path]


def folder(chapter: str | bytes = FIRST, manifest: str | bytes = MANIFEST) -> Make:
    """A deck's folder with one chapter."""

    def make(at: Path) -> Path:
        (at / "deck").mkdir()
        for name, data in (("deck.toml", manifest), ("first.pgn", chapter)):
            (at / "deck" / name).write_bytes(data if isinstance(data, bytes) else data.encode())
        return at / "deck"

    return make


def ideas(text: str) -> Make:
    """A deck's folder with one chapter of ideas."""
    return folder(text, MANIFEST.replace('"lines"', '"ideas"'))


def naming(name: str) -> Make:
    """A deck whose chapter lies in a file of that name (as TOML writes it)."""
    return folder(manifest=MANIFEST.replace("first.pgn", name))


def single(data: str | bytes) -> Make:
    """A PGN file alone."""

    def make(at: Path) -> Path:
        path = at / "lines.pgn"
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
        return path

    return make


def zipped(*names: str, mode: int = stat.S_IFREG, data: bytes = b"1. e4 *") -> Make:
    """A good packed deck with further entries of these names."""

    def make(at: Path) -> Path:
        return pack(at / "x.deck.zip", more=[(entry(name, mode | 0o644), data) for name in names])

    return make


def instead(what: str) -> Make:
    """A deck's folder in which something stands in the place of its chapter."""

    def make(at: Path) -> Path:
        deck = folder()(at)
        path = deck / "first.pgn"
        path.unlink()
        if what == "pipe":
            os.mkfifo(path)
        elif what == "socket":
            with socket.socket(socket.AF_UNIX) as listening:
                before = Path.cwd()
                os.chdir(deck)  # the names of sockets are short
                try:
                    listening.bind(path.name)
                finally:
                    os.chdir(before)
        elif what == "folder":
            path.mkdir()
        else:
            path.symlink_to(what)
        return deck

    return make


def manifest_instead(at: Path) -> Path:
    """A deck whose manifest is a folder."""
    (at / "deck" / "deck.toml").mkdir(parents=True)
    return at / "deck"


def bomb(at: Path) -> Path:
    """A pack of 600 MB of zeros in 0.6 MB."""
    with zipfile.ZipFile(at / "x.deck.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("deck.toml", MANIFEST)
        with archive.open("first.pgn", "w") as file:
            for _ in range(600):
                file.write(bytes(MB))
    return at / "x.deck.zip"


def pack_in_pack(at: Path) -> Path:
    """A packed deck as a chapter of another."""
    inner = pack(at / "inner.zip").read_bytes()
    (at / "inner.zip").unlink()
    return pack(at / "x.deck.zip", FILES | {"first.pgn": inner})


def broken_in_the_middle(at: Path) -> Path:
    """A pack of which only half has come over the line."""
    path = pack(at / "x.deck.zip")
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    return path


def wrong_checksum(at: Path) -> Path:
    """A pack whose chapter was changed inside."""
    path = pack(at / "x.deck.zip", method=zipfile.ZIP_STORED)
    path.write_bytes(path.read_bytes().replace(b"Takes the centre", b"takes the centre"))
    return path


MANY = "".join(f'[[idea]]\nask = "{n}"\n' for n in range(2100))

# Source of the first rows: PKWARE APPNOTE 6.3, 4.4.17; the limits are those of limits.py.
HOSTILE: dict[str, tuple[Make, str]] = {
    "zip slip": (zipped("../../evil.pgn"), "leads out of the deck"),
    "zip with an absolute name": (zipped("/tmp/evil.pgn"), "leads out of the deck"),
    "zip with a drive": (zipped("C:evil.pgn"), "a backslash or a colon"),
    "zip with backslashes": (zipped("..\\evil.pgn"), "a backslash or a colon"),
    "zip with a link": (zipped("a", mode=stat.S_IFLNK, data=b"/etc/passwd"), "is a link"),
    "zip with a device": (zipped("a", mode=stat.S_IFCHR), "is a link, a device"),
    "zip with CON": (zipped("CON.pgn"), "a device on some systems"),
    "zip with names that differ by case": (zipped("First.pgn"), "one file on some systems"),
    "zip with an escape in a name": (zipped("a\x1b]0;x\x07.pgn"), "cannot be shown"),
    "zip with a turned name": (zipped("a\u202engp.exe"), "cannot be shown"),
    "zip bomb": (bomb, "first.pgn is larger than 8192 kB"),
    "zip of many entries": (zipped(*(f"{n}" for n in range(5001))), "more than 5000 entries"),
    "zip with a long path": (zipped("a/" * 30_000 + "a"), "more than 255 signs"),
    "zip in a zip": (pack_in_pack, "first.pgn is not text"),
    "half a zip": (broken_in_the_middle, "is no zip or is damaged"),
    "zip with a wrong checksum": (wrong_checksum, "first.pgn does not come out whole"),
    "pipe": (instead("pipe"), "not a plain file"),
    "socket": (instead("socket"), "not a plain file"),
    "folder": (instead("folder"), "not a plain file"),
    "link out of the deck": (instead("/etc/passwd"), "a link that leads out of the deck"),
    "link to a device": (instead("/dev/zero"), "a link that leads out of the deck"),
    "link in a circle": (instead("first.pgn"), "cannot be read"),
    "manifest that is a folder": (manifest_instead, "deck.toml is not a plain file"),
    "path out of the deck": (naming("../../etc/passwd"), "leads out of the deck"),
    "absolute path": (naming("/etc/passwd"), "leads out of the deck"),
    "device of another system": (naming("nul.pgn"), "a device on some systems"),
    "escape in a path": (naming("a\\u001b[2J.pgn"), "cannot be shown"),
    "turned path": (naming("a\\u202engp.exe"), "cannot be shown"),
    "comment of 5 MB": (folder("1. e4 {" + "a " * (5 * MB // 2) + "} *"), "20000 characters"),
    "tag of a megabyte": (folder(f'[Event "{"a" * MB}"]\n\n1. e4 *'), "2000 characters"),
    "comment without an end": (folder("1. e4 {" + "a " * MB), "never closed"),
    "8 MB and a byte": (folder(b"a" * (PGN_BYTES + 1)), "larger than 8192 kB"),
    "open brackets": (folder("1. e4 " + "(" * MB), "stands behind the move"),
    "nested variations": (folder("1. e4 " + "(1. e4 " * 100_000), "218 moves"),
    "tags without a game": (folder('[A "b"]\n' * 100_000), "stands twice"),
    "binary chapter": (folder(bytes(range(256)) * 100), "is not text"),
    "binary manifest": (folder(manifest=bytes(range(256)) * 100), "is not text"),
    "UTF-16": (folder(FIRST.encode("utf-16")), "save it as UTF-8"),
    "nested TOML": (folder(manifest="a = " + "[" * 100_000), "nested too deeply"),
    "nested tables": (folder(manifest="a = " + "{a=" * 50_000), "nested too deeply"),
    "dotted TOML": (folder(manifest="a." * 3_000 + "a = 1"), "nested too deeply"),
    "dotted header": (folder(manifest="[" + "a." * 3_000 + "a]"), "nested too deeply"),
    "endless number": (folder(manifest="edition = " + "1" * 100_000), "the TOML is broken"),
    "too many chapters": (folder(manifest=MANIFEST + "[[chapter]]\n" * 10_000), "200 chapters"),
    "too large a manifest": (folder(manifest=MANIFEST + "#" * MB), "larger than 256 kB"),
    "a million ideas": (ideas("[[idea]]\n" * 1_000_000), "larger than 1024 kB"),
    "too many ideas": (ideas(MANY), "more than 500 ideas"),
    "nested ideas": (ideas("a = " + "[" * 100_000), "nested too deeply"),
    "PGN that is a zip": (single(b"PK\x03\x04" + bytes(3_000)), "is not text"),
    "PGN that is a picture": (single(b"\x89PNG\r\n\x1a\n" + bytes(3_000)), "is not text"),
    "PGN of escapes": (single("\x1b]0;x\x07" * 10_000), "lines.pgn, line 1"),
    "PGN that is empty": (single(""), "holds no game"),
}


def everything(at: Path) -> set[Path]:
    """All there is below a folder, but for the home's own files."""
    return {path for path in at.rglob("*") if path.name not in ("trainer.db", "home")}


@pytest.fixture
def sealed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder for the deck, which is the present one as well; a home without a deck."""
    assert document("deck", "list") == {"decks": []}
    (tmp_path / "enemy").mkdir()
    monkeypatch.chdir(tmp_path / "enemy")
    yield tmp_path / "enemy"
    assert document("deck", "list") == {"decks": []}


def lines_of(message: str) -> list[str]:
    return message.removesuffix("\n").split("\n")


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_deck_is_refused_in_one_line(name: str, sealed: Path) -> None:
    make, why = HOSTILE[name]
    path = make(sealed)
    before = everything(sealed.parent)
    result = run("deck", "add", str(path), *(["--side", "white"] if path.suffix == ".pgn" else []))
    assert result.exit_code == 1, result.output
    (line,) = lines_of(result.stderr)
    assert line.startswith("trainer: ")
    assert why in line
    assert line.isprintable()
    assert len(line) < 700
    assert all(told.isprintable() for told in lines_of(result.stdout))
    assert len(lines_of(result.stdout)) < 500
    assert everything(sealed.parent) == before


@pytest.mark.parametrize("way", [folder, single], ids=["folder", "file"])
def test_markup_and_controls_are_read_cleaned(way: Callable[[str], Make], tmp_path: Path) -> None:
    said = "1. e4 {[/b][@click=app.quit]x[/] \x1b[31mred\x9b2J \u202eturned\u2066 a\0b\x07} *"
    path = way(said)(tmp_path)
    sides = ["--side", "white"] if path.is_file() else []
    assert run("deck", "add", str(path), *sides).exit_code == 0
    deck = read_deck(path, "white" if sides else None).deck
    assert deck is not None
    comment = deck.chapters[0].games[0].children[0].comment
    assert comment.text == "[/b][@click=app.quit]x[/] [31mred2J turned ab"


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is forbidden to root")
def test_a_deck_that_may_not_be_read(sealed: Path) -> None:
    path = folder()(sealed)
    (path / "first.pgn").chmod(0)
    result = run("deck", "add", str(path))
    assert result.exit_code == 1
    assert "first.pgn cannot be read: permission denied" in result.stderr


BIG: dict[str, Make] = {
    "8 MB of opening brackets": folder("1. e4 " + "(" * (8 * MB - 6)),
    "8 MB of square brackets": folder("[" * (8 * MB)),
    "8 MB of results": folder("* " * (4 * MB)),
    "8 MB of comments between games": folder("1. e4 *\n" + ";\n" * (4 * MB - 8)),
    "8 MB of one word": folder("N" * (8 * MB)),
    "8 MB of combining signs": folder("1. e4 {" + "a\u0301\u0323" * MB + "} *"),
    "600 MB in a zip": bomb,
    "a megabyte of tables": ideas("[[idea]]\n" * (MB // 9)),
    "a quarter megabyte of dots": folder(manifest="a." * 120_000 + "a = 1"),
}


@pytest.mark.skipif(sys.platform == "win32", reason="needs limits for a process")
@pytest.mark.parametrize("name", BIG)
def test_the_worst_need_little_memory(name: str, sealed: Path) -> None:
    import resource

    path = BIG[name](sealed)
    done = subprocess.run(
        [*PROGRAM, "deck", "add", str(path)],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY)),
    )
    assert done.returncode == 1
    assert done.stderr.startswith("trainer: ")
    assert len(lines_of(done.stderr)) == 1
