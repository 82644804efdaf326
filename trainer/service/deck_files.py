"""The files of the added decks in the home, one folder a deck and edition.

A deck lies there as a folder of its own files alone, whatever it came from. All of this runs
while the data file is held for writing, so no other program adds a deck at the same time.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from trainer.deck.deck import Deck, digest_of
from trainer.deck.limits import PGN_BYTES
from trainer.deck.manifest import MANIFEST
from trainer.deck.paths import FileRefused
from trainer.deck.source import is_single, open_source
from trainer.errors import TrainerError
from trainer.service.home import Home

_BESIDE = ".adding-"
"""Begins the names of folders that are being filled, or that a killed program left."""


def keep_files(home: Home, deck: Deck, path: Path) -> None:
    """Copy the deck's files into the home: whole under their final name, or not at all.

    They are the files that were read, to the byte.

    :raises TrainerError: they cannot be copied, or have changed since.
    """
    files = _files_of(deck, path)
    try:
        _forget_unfinished(home)
        _put(files, _folder(home, deck))
    except OSError as error:
        raise TrainerError(
            f"{path}: its files could not be copied into the home ({error}); nothing was added"
        ) from error


def _files_of(deck: Deck, path: Path) -> dict[str, bytes]:
    chapters = dict.fromkeys(chapter.file for chapter in deck.chapters)
    names = [*chapters] if is_single(path) else [MANIFEST, *chapters]
    try:
        source = open_source(path)
        files = {name: source.read(name, PGN_BYTES) for name in names}
    except FileRefused as refused:
        raise TrainerError(f"{path}: not added: {refused.message}") from refused
    if digest_of(files) != deck.digest:
        raise TrainerError(
            f"{path}: its files changed while they were read; nothing was added, try again"
        )
    return files


def _put(files: dict[str, bytes], target: Path) -> None:
    target.parent.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=target.parent.parent, prefix=_BESIDE) as beside:
        copy = Path(beside) / "copy"
        for name, data in files.items():
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            _write(copy / name, data)
        target.parent.mkdir(exist_ok=True)
        if target.exists():
            target.rename(Path(beside) / "before")
        copy.rename(target)


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _forget_unfinished(home: Home) -> None:
    for left in home.decks.glob(f"{_BESIDE}*"):
        shutil.rmtree(left, ignore_errors=True)


def forget_files_off_the_shelf(home: Home, shelf: Iterable[tuple[str, int]]) -> None:
    """Remove the files of every other deck and edition: of earlier ones, and of those whose
    adding came to nothing after they were copied.

    :param shelf: id and edition of the decks that are there.
    """
    kept = {home.decks / deck / f"edition-{edition}" for deck, edition in shelf}
    for folder in home.decks.glob("*/edition-*"):
        if folder not in kept:
            # What cannot be removed now, because another program reads it, goes next time.
            shutil.rmtree(folder, ignore_errors=True)
            with suppress(OSError):
                folder.parent.rmdir()


def forget_other_editions(home: Home, deck: Deck) -> None:
    """Remove the files of editions that are no longer on the shelf."""
    kept = _folder(home, deck)
    for folder in kept.parent.glob("edition-*"):
        if folder != kept:
            # What cannot be removed now, because another program reads it, goes next time.
            shutil.rmtree(folder, ignore_errors=True)


def _folder(home: Home, deck: Deck) -> Path:
    return home.decks / deck.id / f"edition-{deck.edition}"
