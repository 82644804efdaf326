"""A new deck's folder for a coach to write in: all of its files, or none."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from trainer.deck.ids import slug
from trainer.deck.starting import starting_files
from trainer.errors import TrainerError


@dataclass(frozen=True, slots=True)
class NewDeck:
    """The folder that was made."""

    folder: Path
    deck: str
    """The id, made of the folder's name."""
    files: tuple[str, ...]


def new_deck(folder: Path) -> NewDeck:
    """Make the folder, or fill an empty one.

    :raises TrainerError: it holds something, no id can be made of its name, or it cannot
        be written.
    """
    try:
        target = folder.resolve()
        if target.exists() and (not target.is_dir() or any(target.iterdir())):
            raise TrainerError(f"{folder}: holds something already; name a new folder")
        deck_id = slug(target.name)
        if not deck_id:
            raise TrainerError(
                f"{folder}: no id can be made of this name; use letters from a to z, or digits"
            )
        files = starting_files(deck_id)
        _write(target, files)
    except (OSError, ValueError, RuntimeError) as error:
        why = getattr(error, "strerror", None) or error
        raise TrainerError(f"{folder}: cannot be made ({why}); name another folder") from error
    return NewDeck(folder, deck_id, tuple(sorted(files)))


def _write(target: Path, files: Mapping[str, bytes]) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=target.parent, prefix=".new-deck-") as beside:
        filled = Path(beside) / "deck"
        filled.mkdir()
        for name, data in files.items():
            (filled / name).write_bytes(data)
        if target.exists():  # it may be where the coach stands, so it stays the same folder
            for name in files:
                (filled / name).rename(target / name)
        else:
            filled.rename(target)
