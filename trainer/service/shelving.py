"""Adding a deck to the home: read, compared with the edition that is there, and kept.

The deck's files are copied into the home and compiled into the data file. Cards keep their
history by themselves: it belongs to position and move, not to a deck.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from trainer.deck.deck import Chapter, Deck
from trainer.deck.findings import Finding, Severity
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.lines.graph import LineGraph, graph_to_data, split_card_key
from trainer.lines.graph_builder import BuiltGraph, build_graph
from trainer.service.collection import collection_paused
from trainer.service.deck_files import forget_other_editions, keep_files
from trainer.service.study import Study
from trainer.store.database import transaction
from trainer.store.decks import (
    StoredCard,
    StoredChapter,
    StoredDeck,
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
    built = build_graphs(deck)
    findings = [*read.findings, *_contradictions(deck, built.values())]
    if any(finding.severity is Severity.ERROR for finding in findings):
        raise DeckRefused(_why_refused(path, findings), findings)
    cards = _stored_cards(deck, {side: graph.graph for side, graph in built.items()})
    lines = {side: graph_to_data(graph.graph) for side, graph in built.items()}
    # One transaction from the look at the edition that is here to the one that takes its
    # place: two programs that add a deck together do so one after the other.
    with transaction(study.db):
        deck = _with_edition(deck, read_edition(study.db, deck.id), path)
        changes = _compare(read_cards(study.db, deck.id), cards)
        keep_files(study.home, deck, path)
        put_deck(study.db, _stored_deck(deck), cards, lines)
    forget_other_editions(study.home, deck)
    return AddedDeck(deck.id, deck.title, deck.edition, changes, tuple(findings))


def build_graphs(deck: Deck) -> dict[str, BuiltGraph]:
    """The graphs of a deck by side, that of the first chapter's side first."""
    sides = dict.fromkeys(chapter.side for chapter in deck.chapters)
    return {
        side: build_graph(
            side,
            (
                (chapter.id, game)
                for chapter in deck.chapters
                if chapter.side == side
                for game in chapter.games
            ),
        )
        for side in sides
    }


def _contradictions(deck: Deck, graphs: Iterable[BuiltGraph]) -> list[Finding]:
    files = {chapter.id: chapter.file for chapter in deck.chapters}
    return [
        Finding(
            code=found.code,
            severity=(Severity.WARNING if found.code == "moves-disagree" else Severity.ERROR),
            file=files[found.chapter],
            game=found.game,
            line=found.line,
            column=found.column,
            message=found.message,
        )
        for graph in graphs
        for found in graph.contradictions
    ]


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


def _stored_cards(deck: Deck, graphs: dict[str, LineGraph]) -> list[StoredCard]:
    order = {chapter.id: place for place, chapter in enumerate(deck.chapters)}
    positions = [(side, position) for side, graph in graphs.items() for position in graph.cards]
    return [
        StoredCard(
            card=position.card,
            side=side,
            rank=rank,
            chapters=tuple(
                sorted((place.chapter for place in position.places), key=order.__getitem__)
            ),
        )
        for rank, (side, position) in enumerate(positions)
    ]


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
