"""The files of the added decks in the home, one folder a deck and edition."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from trainer.deck.deck import Deck
from trainer.errors import TrainerError
from trainer.service.home import Home


def keep_files(home: Home, deck: Deck, path: Path) -> None:
    """Copy the deck's files into the home: whole under their final name, or not at all.

    :raises TrainerError: they cannot be copied.
    """
    try:
        _copy(path, deck, _folder(home, deck))
    except OSError as error:
        raise TrainerError(
            f"{path}: its files could not be copied into the home ({error}); nothing was added"
        ) from error


def _copy(path: Path, deck: Deck, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=target.parent, prefix=".adding-") as beside:
        copy = Path(beside) / "copy"
        copy.mkdir()
        names = [chapter.file for chapter in deck.chapters]
        folder = path if path.is_dir() else path.parent
        for name in names if path.is_file() else ["deck.toml", *names]:
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(folder / name, copy / name)
        if target.exists():
            shutil.rmtree(target)
        copy.rename(target)


def forget_other_editions(home: Home, deck: Deck) -> None:
    """Remove the files of editions that are no longer on the shelf."""
    kept = _folder(home, deck)
    for folder in kept.parent.glob("edition-*"):
        if folder != kept:
            # What cannot be removed now, because another program reads it, goes next time.
            shutil.rmtree(folder, ignore_errors=True)


def _folder(home: Home, deck: Deck) -> Path:
    return home.decks / deck.id / f"edition-{deck.edition}"
