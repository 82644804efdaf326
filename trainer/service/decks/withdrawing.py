"""Taking a deck off the shelf: its cards leave practice, every answer stays.

Added again, the deck finds its history and the moves that the student kept.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from trainer.deck.findings import FindingList, StopReading
from trainer.deck.ids import slug
from trainer.deck.limits import ID_CHARS, MANIFEST_BYTES
from trainer.deck.manifest import MANIFEST, read_manifest
from trainer.deck.paths import FileRefused
from trainer.deck.source import is_single, open_source
from trainer.errors import TrainerError
from trainer.service.decks.named import on_shelf
from trainer.service.decks.shelving import forget_old_files
from trainer.service.opening import OpenDeck, Shelf, read_shelf
from trainer.service.study import Study
from trainer.store.database import transaction
from trainer.store.decks import decks_of_cards, remove_deck


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """What leaves practice with a deck."""

    deck: str
    title: str
    cards: int
    """All its cards, those of closed chapters too."""
    remembered: int
    """Those that were answered and that no other deck asks."""


def prepare_withdrawal(study: Study, name: str) -> Withdrawal:
    """What taking a deck off the shelf would mean; nothing is changed.

    :param name: its id, or the path of a folder, a packed deck or a PGN file.
    :raises TrainerError: there is no such deck on the shelf.
    """
    entry = on_shelf(study, name) or _at(read_shelf(study), Path(name))
    return _withdrawal(study, entry.deck.id)


def withdraw_deck(study: Study, deck_id: str) -> Withdrawal:
    """Take a deck off the shelf; its files in the home go once that is committed.

    :raises TrainerError: it is not there.
    """
    with transaction(study.db):
        withdrawn = _withdrawal(study, deck_id)
        remove_deck(study.db, deck_id)
    forget_old_files(study)
    return withdrawn


def _withdrawal(study: Study, deck_id: str) -> Withdrawal:
    shelf = read_shelf(study)
    deck = shelf.find(deck_id).deck
    cards = {card: decks for card, decks in decks_of_cards(study.db).items() if deck_id in decks}
    alone = [card for card, decks in cards.items() if len(decks) == 1]
    answered = [card for card in alone if card in shelf.states and not shelf.states[card].fresh]
    return Withdrawal(deck.id, deck.title, len(cards), len(answered))


def _at(shelf: Shelf, path: Path) -> OpenDeck:
    """The deck on the shelf that has the id of the one at a path."""
    ids = _ids_of_single(path) if is_single(path) else [_id_at(path)]
    here = [entry for entry in shelf.decks if entry.deck.id in ids]
    if len(here) > 1:
        raise TrainerError(f"{path}: was added as {' and as '.join(ids)}; name one of the two")
    return here[0] if here else shelf.find(ids[0])


def _ids_of_single(path: Path) -> list[str]:
    """What a PGN file is called as a deck; it tells no side."""
    stem = slug(path.name.rsplit(".", 1)[0], ID_CHARS - len("-white")) or "lines"
    return [f"{stem}-white", f"{stem}-black"]


def _id_at(path: Path) -> str:
    manifest = None
    with suppress(FileRefused, StopReading):
        data = open_source(path).read(MANIFEST, MANIFEST_BYTES)
        manifest = read_manifest(data, FindingList(MANIFEST))
    if manifest is None or not manifest.id:
        raise TrainerError(f"{path}: no deck whose {MANIFEST} can be read; name the deck by its id")
    return manifest.id
