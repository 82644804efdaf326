"""A deck's moves put to an engine, with the answers kept in the home."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from trainer.deck.check.opinion import Question, Scored, engine_findings, positions_to_ask
from trainer.deck.check.played_out import Tactic
from trainer.deck.check.written import Written
from trainer.deck.findings import Finding
from trainer.service.decks.engine.process import Engine
from trainer.service.home import Home
from trainer.store.engine_cache import EngineCache, engine_cache

ENGINE_FILE = "engine.db"
"""In the home."""

Progress = Callable[[int, int], None]
"""Told how many positions are done, and of how many."""


@dataclass(frozen=True, slots=True)
class EngineWish:
    """Which engine is to look at a deck, and for how long."""

    path: str
    nodes: int
    """Of each search."""
    progress: Progress
    patience: float | None = None
    """Seconds to wait for any answer; None for what suits the nodes."""


@dataclass(frozen=True, slots=True)
class EngineChecked:
    """What came of it."""

    engine: str
    """What the engine calls itself."""
    positions: int
    searches: int
    """Those of this run; the other answers were known."""
    findings: tuple[Finding, ...]


def check_with_engine(
    home: Home, sides: Sequence[Written], tactics: Sequence[Tactic], wish: EngineWish
) -> EngineChecked:
    """Let the engine look at every move that the deck gives the student.

    :raises TrainerError: the engine cannot be used, or its answers not be kept.
    """
    total, done = positions_to_ask(sides, tactics), 0

    def step() -> None:
        nonlocal done
        done += 1
        wish.progress(done, total)

    with (
        Engine(wish.path, wish.nodes, wish.patience) as engine,
        engine_cache(home.folder / ENGINE_FILE, engine.name, wish.nodes) as cache,
    ):
        asked = _Asked(engine, cache)
        found = tuple(engine_findings(sides, tactics, asked.ask, step))
    return EngineChecked(engine.name, total, asked.searches, found)


class _Asked:
    """Asks what is not known yet."""

    def __init__(self, engine: Engine, cache: EngineCache) -> None:
        self._engine = engine
        self._cache = cache
        self.searches = 0

    def ask(self, question: Question) -> Scored:
        """The answer, from the file or from the engine."""
        moves = " ".join(question.moves)
        if known := self._cache.get(question.position, moves):
            return Scored(*known)
        scored = self._engine.ask(question)
        self.searches += 1
        self._cache.put(question.position, moves, scored.uci, scored.score)
        return scored
