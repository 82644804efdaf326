"""A deck that a command names: by its id on the shelf, or by a path.

What stands on the shelf comes first; a name that is on no shelf and looks like a path, or
has something at it, is one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, has_error
from trainer.deck.manifest import MANIFEST
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.service.collection import collection_paused
from trainer.service.decks.refusal import first_error
from trainer.service.opening import OpenDeck, read_shelf
from trainer.service.study import Study


class DeckUnreadable(TrainerError):
    """The deck at a path has errors; the findings say which."""

    def __init__(self, message: str, findings: Sequence[Finding]) -> None:
        super().__init__(message)
        self.findings = tuple(findings)


def on_shelf(study: Study, name: str) -> OpenDeck | None:
    """The deck with this id; None where the name is a path.

    :raises TrainerError: it is neither.
    """
    shelf = read_shelf(study)
    known = any(entry.deck.id == name for entry in shelf.decks)
    return None if not known and _is_path(name) else shelf.find(name)


def read_at(path: Path, side: str | None) -> tuple[Deck, CompiledDeck]:
    """The deck at a path.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :raises DeckUnreadable: it has errors.
    """
    with collection_paused():
        read = read_deck(path, side)
        compiled = compile_deck(read.deck) if read.deck else None
    findings = [*read.findings, *(compiled.findings if compiled else ())]
    if read.deck is None or compiled is None or has_error(findings):
        raise DeckUnreadable(f"{path}: {first_error(findings)}", findings)
    return read.deck, compiled


def read_kept(study: Study, entry: OpenDeck) -> Deck:
    """The trees of a deck on the shelf, from its files in the home.

    :raises TrainerError: they are missing or damaged.
    """
    kept = entry.deck
    folder = study.home.decks / kept.id / f"edition-{kept.edition}"
    single = not (folder / MANIFEST).is_file()
    path = next(iter(sorted(folder.glob("*.[pP][gG][nN]"))), folder) if single else folder
    with collection_paused():
        read = read_deck(path, kept.chapters[0].side if single else None)
    if read.deck is None or read.deck.id != kept.id:
        raise TrainerError(
            f"the files of deck {kept.id!r} in the home are missing or damaged; add the deck again"
        )
    return replace(read.deck, edition=kept.edition)


def _is_path(name: str) -> bool:
    """Whether a name that is on no shelf means a path."""
    if "/" in name or "\\" in name or name.lower().endswith((".pgn", ".zip")):
        return True
    try:
        return Path(name).exists()
    except (OSError, ValueError):
        return False
