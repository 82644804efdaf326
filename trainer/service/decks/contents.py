"""The contents of a deck: as they were just read, and as they stand on the shelf."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from typing import Any

from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Chapter, Deck, Kind
from trainer.errors import TrainerError
from trainer.lines.idea import Idea, idea_to_data
from trainer.lines.played_out import PlayedOut, played_out_to_data
from trainer.service.books import read_book
from trainer.service.decks.cards import Contents
from trainer.service.decks.named import read_kept
from trainer.service.exercises import made_of
from trainer.service.opening import read_shelf
from trainer.service.study import Study
from trainer.store.database import DataFileError
from trainer.store.decks import (
    StoredChapter,
    StoredDeck,
    StoredExercise,
    read_decks,
    read_exercises,
)
from trainer.store.preferences import read_preferences


def contents_of(
    deck: Deck, compiled: CompiledDeck, preferred: Mapping[str, Mapping[str, str]] | None = None
) -> Contents:
    """Of a deck that was read and compiled without an error."""
    return Contents(
        deck=deck.id,
        title=deck.title,
        edition=deck.edition,
        chapters=tuple(_stored_chapter(chapter) for chapter in deck.chapters),
        graphs=compiled.graphs,
        ideas={chapter.id: chapter.ideas for chapter in deck.chapters if chapter.ideas},
        tactics={
            chapter.id: compiled.played[chapter.id]
            for chapter in deck.chapters
            if chapter.kind is Kind.TACTICS
        },
        preferred=preferred or {},
    )


def shelved_contents(study: Study, deck_id: str) -> Contents | None:
    """Of a deck on the shelf; None where it is not there.

    :raises DataFileError: what was made of its files is missing or damaged.
    """
    deck = next((deck for deck in read_decks(study.db) if deck.id == deck_id), None)
    if deck is None:
        return None
    sides = dict.fromkeys(c.side for c in deck.chapters if c.kind == Kind.LINES)
    return Contents(
        deck=deck.id,
        title=deck.title,
        edition=deck.edition,
        chapters=deck.chapters,
        graphs={side: read_book(study, (deck.id, side)) for side in sides},
        ideas={
            chapter: tuple(one for one in found if isinstance(one, Idea))
            for chapter, found in _exercises(study, deck, Kind.IDEAS).items()
        },
        tactics={
            chapter: tuple(one for one in found if isinstance(one, PlayedOut))
            for chapter, found in _exercises(study, deck, Kind.TACTICS).items()
        },
        preferred=read_preferences(study.db, deck.id),
    )


def old_contents(study: Study, deck_id: str) -> Contents | None:
    """Of a deck that another edition is to replace; None where nothing of it can be read.

    Where what was made of its files is damaged, its files are read.
    """
    try:
        return shelved_contents(study, deck_id)
    except DataFileError:
        with suppress(TrainerError):
            deck = read_kept(study, read_shelf(study).find(deck_id))
            return contents_of(deck, compile_deck(deck), read_preferences(study.db, deck_id))
    return None


def _exercises(study: Study, deck: StoredDeck, kind: Kind) -> dict[str, list[Idea | PlayedOut]]:
    return {
        chapter.id: [
            made_of(kind, exercise, deck.id)
            for exercise in read_exercises(study.db, deck.id, chapter.id)
        ]
        for chapter in deck.chapters
        if chapter.kind == kind
    }


def stored_deck(deck: Deck) -> StoredDeck:
    """The facts of a deck as the shelf keeps them."""
    facts: dict[str, Any] = {
        name: getattr(deck, name)
        for name in ("id", "edition", "digest", "title", "author", "language", "licence", "about")
    }
    return StoredDeck(**facts, chapters=tuple(_stored_chapter(c) for c in deck.chapters))


def stored_exercises(deck: Deck, compiled: CompiledDeck) -> Sequence[StoredExercise]:
    """Tactics, ideas and model games as the shelf keeps them."""
    return [found for chapter in deck.chapters for found in _stored(chapter, compiled)]


def _stored(chapter: Chapter, compiled: CompiledDeck) -> Iterator[StoredExercise]:
    for idea in chapter.ideas:
        yield StoredExercise(chapter.id, idea.key, idea_to_data(idea))
    for played in compiled.played.get(chapter.id, ()):
        yield StoredExercise(chapter.id, played.key, played_out_to_data(played))


def _stored_chapter(chapter: Chapter) -> StoredChapter:
    return StoredChapter(
        chapter.id, chapter.title, chapter.kind.value, chapter.side, chapter.opens, chapter.after
    )
