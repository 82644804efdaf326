"""Packed decks for tests: ordinary ones, and entries such as only an enemy writes."""

from __future__ import annotations

import stat
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path

from tests.small_decks import FIRST, TOML

MANIFEST = (
    TOML.format(id="small", title="Small", edition=1)
    + '[[chapter]]\nfile = "first.pgn"\ntitle = "First"\nkind = "lines"\nside = "white"\n'
)
FILES = {"deck.toml": MANIFEST.encode(), "first.pgn": FIRST.encode()}
"""A small deck without a fault."""


def pack(
    path: Path,
    files: Mapping[str, bytes] = FILES,
    more: Iterable[tuple[zipfile.ZipInfo, bytes]] = (),
    method: int = zipfile.ZIP_DEFLATED,
) -> Path:
    """A zip of these files, and of entries that are written as they are."""
    with zipfile.ZipFile(path, "w", method) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
        for entry, data in more:
            archive.writestr(entry, data)
    return path


def entry(name: str, mode: int = stat.S_IFREG | 0o644) -> zipfile.ZipInfo:
    """An entry with any name and any kind of file."""
    made = zipfile.ZipInfo("x")
    made.filename = made.orig_filename = name
    made.create_system = 3
    made.external_attr = mode << 16
    return made


def changed(path: Path, before: bytes, after: bytes) -> Path:
    """The file with some of its bytes changed, wherever they stand."""
    data = path.read_bytes()
    assert before in data
    path.write_bytes(data.replace(before, after))
    return path
