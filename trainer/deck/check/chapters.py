"""Chapters that wait for one in which nothing is asked, and so wait for nothing."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.deck.compiled import CompiledDeck
from trainer.deck.deck import Deck, Kind
from trainer.deck.findings import Finding, Severity
from trainer.deck.manifest import MANIFEST


def waits_for_nothing(deck: Deck, compiled: CompiledDeck) -> Iterator[Finding]:
    """Of chapters of games the manifest tells that by itself; here it is told of the others."""
    asked = {
        place.chapter
        for graph in compiled.graphs.values()
        for position in graph.cards
        for place in position.places
    }
    silent = {c.id for c in deck.chapters if c.kind is Kind.LINES and c.id not in asked}
    for chapter in deck.chapters:
        if chapter.after in silent:
            message = (
                f"the chapter {chapter.id} opens at once: {chapter.after}, for which it waits, "
                "has no card; name another"
            )
            yield Finding("opens-at-once", Severity.WARNING, MANIFEST, None, None, None, message)
