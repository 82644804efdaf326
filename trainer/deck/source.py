"""Where a deck's bytes come from: its folder, a packed deck, or a single PGN file.

Whatever it is, its files are read by their names inside the deck, each within a limit and
only if it is text. What stands in them is the reader's business.
"""

from __future__ import annotations

import codecs
from abc import ABC, abstractmethod
from pathlib import Path

from trainer.deck.clean import clean_line
from trainer.deck.deck import Deck, digest_of
from trainer.deck.limits import PGN_BYTES
from trainer.deck.manifest import MANIFEST
from trainer.deck.packed import PackedFiles, is_packed
from trainer.deck.paths import FileRefused, is_folder, read_inside, read_plain


class DeckSource(ABC):
    """The files of one deck."""

    def read(self, name: str, most: int) -> bytes:
        """The bytes of a file.

        :param name: a name inside the deck that `paths.why_unsafe` lets pass.
        :param most: the largest size that is read.
        :raises FileRefused: there is no such file, or it cannot be read, is too large, no text.
        """
        data = self._bytes(name, most)
        if _is_binary(data):
            message = f"{name} is not text; a deck holds PGN and TOML, saved as UTF-8"
            raise FileRefused("not-text", message)
        return data

    @abstractmethod
    def _bytes(self, name: str, most: int) -> bytes: ...


class _Folder(DeckSource):
    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def _bytes(self, name: str, most: int) -> bytes:
        return read_inside(self._folder, name, most)


class _Packed(DeckSource):
    def __init__(self, path: Path) -> None:
        self._files = PackedFiles(path, shown_name(path))

    def _bytes(self, name: str, most: int) -> bytes:
        return self._files.read(name, most)


class _Single(DeckSource):
    """A PGN file alone; whatever name it is asked for, there is no other."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def _bytes(self, name: str, most: int) -> bytes:
        try:
            data = read_plain(self._path, name, most)
        except FileRefused as refused:
            if refused.code != "missing-file":
                raise
            message = "there is nothing of that name; look at the path"
            raise FileRefused(refused.code, message) from refused
        if self._path.suffix.lower() != ".pgn":
            message = (
                f"{name} is no deck: name a folder with {MANIFEST}, a packed deck (*.deck.zip) "
                "or a file ending in .pgn"
            )
            raise FileRefused("not-a-deck", message)
        return data


def open_source(path: Path) -> DeckSource:
    """The files of the deck at a path.

    :raises FileRefused: it is a packed deck that cannot be read.
    """
    if is_single(path):
        return _Single(path)
    return _Packed(path) if is_packed(path) else _Folder(path)


def is_single(path: Path) -> bool:
    """Whether this can be a single PGN file only: no folder and no packed deck.

    Such a deck has no manifest: it needs a side, and its edition rises by itself.
    """
    return not is_folder(path) and not is_packed(path)


def files_of(deck: Deck, path: Path) -> dict[str, bytes]:
    """The files of a deck that was read from this path, the manifest first, then as it lists them.

    :raises FileRefused: they are no longer what was read.
    """
    source = open_source(path)
    names = [] if is_single(path) else [MANIFEST]
    names += [chapter.file for chapter in deck.chapters]
    files = {name: source.read(name, PGN_BYTES) for name in dict.fromkeys(names)}
    if digest_of(files) != deck.digest:
        message = f"the files of {shown_name(path)} changed while they were read; try again"
        raise FileRefused("changed", message)
    return files


def shown_name(path: Path) -> str:
    """What messages call the file or folder."""
    return clean_line(path.name) or "the file"


def _is_binary(data: bytes) -> bool:
    """Whether zeros are common; a stray one is cleaned out of the text later.

    UTF-16 is full of them too, and is refused later by a better word.
    """
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return False
    return data.count(0) > 4 + len(data) // 1000
