"""Packing a deck: its own files, and no others, into one file that `deck add` takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from trainer.deck.compiled import compile_deck
from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, has_error
from trainer.deck.pack import packed_bytes
from trainer.deck.packed import SUFFIX, is_packed
from trainer.deck.paths import FileRefused, is_folder
from trainer.deck.reader import read_deck
from trainer.deck.source import files_of
from trainer.errors import TrainerError
from trainer.service.decks.refusal import first_error
from trainer.service.whole_file import write_whole


@dataclass(frozen=True, slots=True)
class PackedDeck:
    """The outcome of packing a deck."""

    deck: str
    title: str
    edition: int
    file: Path
    """Where it was written."""
    bytes: int
    files: tuple[str, ...]
    """The names inside the deck, the manifest first."""
    findings: tuple[Finding, ...]
    """Warnings and notes alone; a deck with an error is not packed."""


class NotPacked(TrainerError):
    """The deck was not packed; the findings say why, where the fault is in its files."""

    def __init__(self, message: str, findings: Sequence[Finding] = ()) -> None:
        super().__init__(message)
        self.findings = tuple(findings)


class InTheWay(NotPacked):
    """There is a file under that name which is no pack of this deck."""


def pack_deck(folder: Path, to: Path | None = None, over_others: bool = False) -> PackedDeck:
    """Write the deck in a folder as a packed deck; an earlier pack of it is replaced.

    :param to: the file, or the folder for it; else the present folder. The file is called
        after the deck's folder where no name is given.
    :param over_others: whether any other file under that name is replaced as well.
    :raises InTheWay: there is one, and it is not to be replaced.
    :raises NotPacked: the deck has errors, or cannot be written.
    """
    deck, findings = _without_errors(folder)
    target = _target(folder, to)
    try:
        if not over_others and target.exists() and not _is_of(deck.id, target):
            raise InTheWay(f"{target} is there already and is no packed deck {deck.id}")
        files = files_of(deck, folder)
        data = packed_bytes(deck.id, files)
        write_whole(target, data)
    except FileRefused as refused:
        raise NotPacked(f"{folder}: not packed: {refused.message}") from refused
    except OSError as error:
        raise NotPacked(f"{target}: cannot be written ({error.strerror}); name another") from error
    return PackedDeck(
        deck.id, deck.title, deck.edition, target, len(data), tuple(files), tuple(findings)
    )


def _without_errors(folder: Path) -> tuple[Deck, list[Finding]]:
    if not is_folder(folder):
        raise NotPacked(f"{folder}: no folder; name the folder of a deck")
    read = read_deck(folder)
    findings = [*read.findings, *(compile_deck(read.deck).findings if read.deck else ())]
    if read.deck is None or has_error(findings):
        raise NotPacked(f"{folder}: not packed: {first_error(findings)}", findings)
    return read.deck, findings


def _target(folder: Path, to: Path | None) -> Path:
    name = f"{folder.resolve().name}{SUFFIX}"
    if to is None:
        return Path(name)
    target = to / name if is_folder(to) else to
    if not is_packed(target):
        raise NotPacked(f"{target}: the name of a packed deck ends in {SUFFIX}; name it so")
    return target


def _is_of(deck_id: str, target: Path) -> bool:
    """Whether there is a pack of this deck, of whatever edition."""
    there = read_deck(target).deck
    return there is not None and there.id == deck_id
