"""Checking a deck where it lies: all that is wrong or doubtful, with games and an engine if asked.

Adds nothing to the home but an engine's answers. What a finding is belongs to `deck.check`.
"""

from __future__ import annotations

import codecs
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.deck.check.check import Reasons, check_whole, count_reasons
from trainer.deck.check.played_lines import PlayedLine, played_lines
from trainer.deck.check.played_out import tactics
from trainer.deck.check.unanswered import Followed, unanswered_replies
from trainer.deck.check.written import Written, find_written
from trainer.deck.clean import decode
from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, Severity
from trainer.deck.paths import FileRefused, read_plain
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.service.collection import collection_paused
from trainer.service.home import Home

if TYPE_CHECKING:
    from trainer.service.decks.engine_check import EngineChecked, EngineWish

GAMES_BYTES = 64 * 1024 * 1024
"""A file of played games; read whole, about 100,000 games."""


@dataclass(frozen=True, slots=True)
class DeckChecked:
    """The outcome of a check."""

    deck: str
    """The deck's id; empty where it cannot be read, as the next two."""
    title: str
    edition: int
    findings: tuple[Finding, ...]
    """By file and line; then those of played games, most frequent first; then the engine's."""
    reasons: Reasons | None
    """None where the deck cannot be read."""
    games: Followed | None
    engine: EngineChecked | None

    @property
    def errors(self) -> int:
        """How many findings keep the deck from being added."""
        return self._count(Severity.ERROR)

    @property
    def warnings(self) -> int:
        """How many findings a coach should look at."""
        return self._count(Severity.WARNING)

    @property
    def notes(self) -> int:
        """How many findings a coach may want to know."""
        return self._count(Severity.NOTE)

    def _count(self, severity: Severity) -> int:
        return sum(1 for finding in self.findings if finding.severity is severity)


def check_deck(
    home: Home,
    path: Path,
    side: str | None = None,
    games: Sequence[Path] = (),
    engine: EngineWish | None = None,
) -> DeckChecked:
    """Check the deck at a path; what needs a sound deck waits until the reader's errors are gone.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :param games: files of played games, whose replies the deck should answer.
    :raises TrainerError: a file of games cannot be read, or the engine not be used.
    """
    with collection_paused():
        read = read_deck(path, side)
        if read.deck is None:
            return DeckChecked("", "", 0, read.findings, None, None, None)
        compiled = compile_deck(read.deck)
        sides = find_written(read.deck, compiled)
        found = check_whole(read.deck, compiled, sides)
        found = _in_order(read.deck, [*read.findings, *compiled.findings, *found])
        reasons = count_reasons(read.deck, compiled, found)
        followed = unanswered_replies(sides, _games_in(games)) if games else None
    checked = _ask_engine(home, read.deck, compiled, sides, engine)
    return DeckChecked(
        read.deck.id,
        read.deck.title,
        read.deck.edition,
        (*found, *(followed.findings if followed else ()), *(checked.findings if checked else ())),
        reasons,
        followed,
        checked,
    )


def _ask_engine(
    home: Home,
    deck: Deck,
    compiled: CompiledDeck,
    sides: Sequence[Written],
    wish: EngineWish | None,
) -> EngineChecked | None:
    if wish is None:
        return None
    # Loaded where it is wanted: python-chess's client brings asyncio.
    from trainer.service.decks.engine_check import check_with_engine

    return check_with_engine(home, sides, list(tactics(deck, compiled)), wish)


def _in_order(deck: Deck, findings: Iterable[Finding]) -> list[Finding]:
    """Each once, by file as the deck lists them, and by line."""
    files = {chapter.file: place for place, chapter in enumerate(deck.chapters, 1)}
    return sorted(
        dict.fromkeys(findings),
        key=lambda found: (files.get(found.file, 0), found.line or 0, found.column or 0),
    )


def _games_in(paths: Iterable[Path]) -> Iterator[PlayedLine]:
    for path in paths:
        try:
            data = read_plain(path, str(path), GAMES_BYTES)
        except FileRefused as refused:
            raise TrainerError(refused.message) from refused
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            raise TrainerError(f"{path}: the file is UTF-16; save it as UTF-8")
        yield from played_lines(decode(data).text)
