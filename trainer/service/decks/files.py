"""The files of the added decks in the home, one folder a deck and edition.

A deck lies there as a folder of its own files alone, whatever it came from. All of this runs
while the data file is held for writing, so no other program adds a deck at the same time.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from trainer.deck.deck import Deck
from trainer.deck.paths import FileRefused
from trainer.deck.source import files_of
from trainer.errors import TrainerError
from trainer.service.home import Home

_BESIDE = ".adding-"
"""Begins the names of folders that are being filled, or that a killed program left."""


def keep_files(home: Home, deck: Deck, path: Path) -> None:
    """Copy the deck's files into the home: whole under their final name, or not at all.

    They are the files that were read, to the byte.

    :raises TrainerError: they cannot be copied, or have changed since.
    """
    try:
        files = files_of(deck, path)
        _forget_unfinished(home)
        _put(files, _folder(home, deck))
    except FileRefused as refused:
        raise TrainerError(f"{path}: not added: {refused.message}") from refused
    except OSError as error:
        raise TrainerError(
            f"{path}: its files could not be copied into the home ({error}); nothing was added"
        ) from error


def _put(files: Mapping[str, bytes], target: Path) -> None:
    if _holds(target, files):
        return
    decks = target.parent.parent
    decks.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(
        dir=decks, prefix=_BESIDE, ignore_cleanup_errors=True
    ) as beside:
        copy = Path(beside) / "copy"
        for name, data in files.items():
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            _write(copy / name, data)
        target.parent.mkdir(exist_ok=True)
        if target.exists():
            target.rename(Path(beside) / "before")
        copy.rename(target)


def _holds(folder: Path, files: Mapping[str, bytes]) -> bool:
    """Whether these files are there already; then what works is not taken away for a moment."""
    try:
        return all((folder / name).read_bytes() == data for name, data in files.items())
    except OSError:
        return False


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


def _folder(home: Home, deck: Deck) -> Path:
    return home.decks / deck.id / f"edition-{deck.edition}"
