"""The chapters of a deck that are no lines: its tactics, ideas and model games, as they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from trainer.service.coming import coming
from trainer.service.exercises import GameProgress, games_of
from trainer.service.lines_report import Counts, Tally
from trainer.service.opening import OpenDeck, read_shelf
from trainer.service.study import Study
from trainer.store.decks import read_decks


@dataclass(frozen=True, slots=True)
class ExerciseChapter:
    """A chapter of tactics, ideas or model games."""

    deck: str
    id: str
    title: str
    kind: str
    """`tactics`, `ideas` or `games`."""
    when: str
    """`opens on Friday 1 January`, where it is closed still; empty where it is open."""
    counts: Counts
    """Of its cards; of games there are none."""
    next_due: date | None
    """The first day to come on which a card of it falls due; None where none will."""
    games: tuple[GameProgress, ...]
    """In file order; none of them while it is closed."""

    @property
    def asks(self) -> bool:
        """Whether there is something to ask now."""
        return not self.when and bool(self.games or self.counts.due or self.counts.fresh)


def report_exercises(study: Study, deck: str) -> tuple[ExerciseChapter, ...]:
    """The chapters of a deck that are no lines, in deck order.

    :raises TrainerError: there is no such deck, or a game of it is damaged.
    """
    stored = (found for found in read_decks(study.db) if found.id == deck)
    kinds = {chapter.kind for found in stored for chapter in found.chapters}
    if kinds <= {"lines"}:
        return ()  # nothing to look for, and the cards of lines may be many
    return tuple(_chapters(study, read_shelf(study).find(deck)))


def _chapters(study: Study, entry: OpenDeck) -> Iterator[ExerciseChapter]:
    closed = {chapter.chapter: chapter.when for chapter in coming(entry, study.today)}
    for chapter in entry.deck.chapters:
        if chapter.kind == "lines":
            continue
        states = [card.state for card in entry.cards if chapter.id in card.chapters]
        days = [state.due for state in states if state.due and not state.is_due(study.today)]
        shown = chapter.kind == "games" and chapter.id not in closed
        yield ExerciseChapter(
            deck=entry.deck.id,
            id=chapter.id,
            title=chapter.title,
            kind=chapter.kind,
            when=closed.get(chapter.id, ""),
            counts=Tally(states, study.today).of(range(len(states))),
            next_due=min(days, default=None),
            games=tuple(games_of(study, entry.deck.id, chapter.id)) if shown else (),
        )
