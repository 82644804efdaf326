"""Adding a deck to the home: read, compared with the edition that is there, and kept.

The deck's files are copied into the home and compiled into the data file. Cards keep their
history by themselves: it belongs to position and move, not to a deck.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.findings import Finding, Severity, has_error
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.lines.graph import graph_to_data, split_card_key
from trainer.lines.idea import idea_to_data
from trainer.lines.played_out import played_out_to_data
from trainer.service.collection import collection_paused
from trainer.service.deck_files import forget_other_editions, keep_files
from trainer.service.study import Study
from trainer.store.database import transaction
from trainer.store.decks import (
    StoredCard,
    StoredChapter,
    StoredDeck,
    StoredExercise,
    put_deck,
    read_cards,
    read_edition,
)


@dataclass(frozen=True, slots=True)
class CardChanges:
    """What a new edition means for the cards of a deck."""

    kept: int
    new: int
    changed: int
    """Positions whose move is another one now; counted neither as new nor as withdrawn."""
    withdrawn: int


@dataclass(frozen=True, slots=True)
class AddedDeck:
    """The outcome of adding a deck."""

    deck: str
    title: str
    edition: int
    cards: CardChanges
    findings: tuple[Finding, ...]


class DeckRefused(TrainerError):
    """The deck was not added; the findings say why, where the fault is in its files."""

    def __init__(self, message: str, findings: Sequence[Finding] = ()) -> None:
        super().__init__(message)
        self.findings = tuple(findings)


def add_deck(study: Study, path: Path, side: str | None = None) -> AddedDeck:
    """Add the deck in a folder, or a single PGN file as a deck of one chapter.

    The same edition with the same content changes nothing.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :raises DeckRefused: the deck has errors, or its edition is not above the one here.
    """
    with collection_paused():
        return _add_deck(study, path, side)


def _add_deck(study: Study, path: Path, side: str | None) -> AddedDeck:
    read = read_deck(path, side)
    if read.deck is None:
        raise DeckRefused(_why_refused(path, read.findings), read.findings)
    deck = read.deck
    compiled = compile_deck(deck)
    findings = [*read.findings, *compiled.findings]
    if has_error(findings):
        raise DeckRefused(_why_refused(path, findings), findings)
    cards = _stored_cards(deck, compiled)
    lines = {side: graph_to_data(graph) for side, graph in compiled.graphs.items()}
    exercises = list(_exercises(deck, compiled))
    # One transaction from the look at the edition that is here to the one that takes its
    # place: two programs that add a deck together do so one after the other.
    with transaction(study.db):
        deck = _with_edition(deck, read_edition(study.db, deck.id), path)
        changes = _compare(read_cards(study.db, deck.id), cards)
        keep_files(study.home, deck, path)
        put_deck(study.db, _stored_deck(deck), cards, lines, exercises)
    forget_other_editions(study.home, deck)
    return AddedDeck(deck.id, deck.title, deck.edition, changes, tuple(findings))


def _why_refused(path: Path, findings: Sequence[Finding]) -> str:
    errors = [finding for finding in findings if finding.severity is Severity.ERROR]
    first = errors[0]
    place = first.file if first.line is None else f"{first.file}, line {first.line}"
    more = f" (and {len(errors) - 1} more)" if len(errors) > 1 else ""
    return f"{path}: not added: {place}: {first.message}{more}"


def _with_edition(deck: Deck, here: tuple[int, str] | None, path: Path) -> Deck:
    """Refuse an edition that is not above the one here; a PGN file's rises by itself.

    :param here: edition and digest of the deck on the shelf.
    """
    if here is None:
        return deck
    edition, digest = here
    if digest == deck.digest:
        return replace(deck, edition=edition)
    if path.is_file():
        return replace(deck, edition=edition + 1)
    if deck.edition < edition:
        raise DeckRefused(
            f"{path}: edition {deck.edition} of {deck.id!r} is older than edition "
            f"{edition}, which is here already; nothing was changed"
        )
    if deck.edition == edition:
        raise DeckRefused(
            f"{path}: edition {deck.edition} of {deck.id!r} is here already with other "
            "content; raise the edition in deck.toml"
        )
    return deck


def _stored_cards(deck: Deck, compiled: CompiledDeck) -> list[StoredCard]:
    """Lines in travel order, then ideas, then tactics; a card that chapters share once."""
    order = {chapter.id: place for place, chapter in enumerate(deck.chapters)}
    chapters: dict[str, tuple[str, set[str]]] = {}
    for card, side, found in _places_of_cards(deck, compiled):
        chapters.setdefault(card, (side, set()))[1].update(found)
    return [
        StoredCard(card, side, rank, tuple(sorted(found, key=order.__getitem__)))
        for rank, (card, (side, found)) in enumerate(chapters.items())
    ]


def _places_of_cards(
    deck: Deck, compiled: CompiledDeck
) -> Iterator[tuple[str, str, Iterable[str]]]:
    """Card, side and chapters."""
    for side, graph in compiled.graphs.items():
        for position in graph.cards:
            yield position.card, side, (place.chapter for place in position.places)
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            yield idea.key, idea.side, (chapter.id,)
    for chapter in deck.chapters:
        if chapter.kind is Kind.TACTICS:
            for tactic in compiled.played[chapter.id]:
                yield tactic.key, tactic.side, (chapter.id,)


def _exercises(deck: Deck, compiled: CompiledDeck) -> Iterator[StoredExercise]:
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            yield StoredExercise(chapter.id, idea.key, idea_to_data(idea))
        for played in compiled.played.get(chapter.id, ()):
            yield StoredExercise(chapter.id, played.key, played_out_to_data(played))


def _compare(old: Iterable[StoredCard], new: Iterable[StoredCard]) -> CardChanges:
    before = {card.card for card in old}
    after = {card.card for card in new}
    added = {split_card_key(card)[0] for card in after - before}
    dropped = {split_card_key(card)[0] for card in before - after}
    return CardChanges(
        kept=len(before & after),
        new=len(added - dropped),
        changed=len(added & dropped),
        withdrawn=len(dropped - added),
    )


def _stored_deck(deck: Deck) -> StoredDeck:
    facts: dict[str, Any] = {
        name: getattr(deck, name)
        for name in ("id", "edition", "digest", "title", "author", "language", "licence", "about")
    }
    return StoredDeck(**facts, chapters=tuple(_stored_chapter(c) for c in deck.chapters))


def _stored_chapter(chapter: Chapter) -> StoredChapter:
    return StoredChapter(
        chapter.id, chapter.title, chapter.kind.value, chapter.side, chapter.opens, chapter.after
    )
