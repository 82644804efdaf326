"""Reads a deck from its folder, packed or not, or from a single PGN file, with everything that
is wrong.

All files are read in one run, so that a coach mends all faults at once; a deck with an
error is not handed out at all.
"""

from __future__ import annotations

import codecs
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from trainer.deck.allowance import Allowance
from trainer.deck.clean import decode
from trainer.deck.deck import Chapter, Deck, Kind, digest_of
from trainer.deck.findings import Finding, FindingList, Severity, StopReading, has_error
from trainer.deck.ideas import read_ideas
from trainer.deck.ids import slug
from trainer.deck.limits import DECK_BYTES, ID_CHARS, IDEAS_BYTES, MANIFEST_BYTES, PGN_BYTES
from trainer.deck.manifest import MANIFEST, ChapterFacts, read_manifest
from trainer.deck.paths import FileRefused, folded
from trainer.deck.pgn import read_pgn
from trainer.deck.source import DeckSource, is_single, open_source, shown_name
from trainer.lines.idea import Idea
from trainer.lines.position import PositionPool
from trainer.lines.tree import GameTree

_SIDES = ("white", "black")


@dataclass(frozen=True)
class ReadDeck:
    """The outcome of reading a deck."""

    deck: Deck | None
    """None as soon as one finding is an error: nothing is half loaded."""
    findings: tuple[Finding, ...]


def read_deck(path: Path, side: str | None = None) -> ReadDeck:
    """Read the deck in a folder, a packed deck, or a PGN file as a deck of one `lines` chapter.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    """
    try:
        source = open_source(path)
    except FileRefused as refused:
        findings = FindingList(shown_name(path))
        findings.error(refused.code, refused.message)
        return ReadDeck(None, tuple(findings.finished()))
    if is_single(path):
        return _read_single(source, shown_name(path), side)
    return _read_all(source, side)


def _read_all(source: DeckSource, side: str | None) -> ReadDeck:
    reader = _DeckReader(source)
    deck = None
    with suppress(StopReading):
        if side is not None:
            message = "the side is for a single PGN file; the chapters of this deck name theirs"
            reader.findings.warn("unneeded-side", message)
        deck = reader.read()
    found = (*reader.findings.finished(), *reader.in_chapters)
    return ReadDeck(None if has_error(found) else deck, found)


class _DeckReader:
    """Reads one deck: each file once, into positions that all share."""

    def __init__(self, source: DeckSource) -> None:
        self.findings = FindingList(MANIFEST)
        """What is wrong with the manifest, and with the files that it names."""
        self.in_chapters: list[Finding] = []
        """What is wrong in those files."""
        self._source = source
        self._files: dict[str, bytes] = {}
        self._pool = PositionPool()
        self._allowance = Allowance()
        self._games: dict[str, tuple[GameTree, ...]] = {}

    def read(self) -> Deck | None:
        """The deck, complete only where there are no errors; None without a manifest."""
        data = self._bytes_of(MANIFEST, MANIFEST_BYTES, None)
        manifest = None if data is None else read_manifest(data, self.findings)
        if manifest is None:
            return None
        return Deck(
            id=manifest.id,
            title=manifest.title,
            edition=manifest.edition,
            author=manifest.author,
            language=manifest.language,
            licence=manifest.licence,
            about=manifest.about,
            chapters=tuple(self._chapter(facts, manifest.id) for facts in manifest.chapters),
            digest=digest_of(self._files),
        )

    def _chapter(self, facts: ChapterFacts, deck: str) -> Chapter:
        is_ideas = facts.kind is Kind.IDEAS
        return Chapter(
            id=facts.id,
            file=facts.file,
            title=facts.title,
            kind=facts.kind,
            side=facts.side,
            opens=facts.opens,
            after=facts.after,
            games=() if is_ideas else self._games_of(facts),
            ideas=self._ideas_of(facts, deck) if is_ideas else (),
        )

    def _ideas_of(self, facts: ChapterFacts, deck: str) -> tuple[Idea, ...]:
        data = self._bytes_of(facts.file, IDEAS_BYTES, facts.line)
        if data is None:
            return ()
        findings = FindingList(facts.file)
        ideas: tuple[Idea, ...] = ()
        with suppress(StopReading):
            most = self._allowance.ideas
            ideas = read_ideas(data, facts.file, deck, facts.side, findings, most)
        self._allowance.ideas -= len(ideas)
        self.in_chapters += findings.finished()
        return ideas

    def _games_of(self, facts: ChapterFacts) -> tuple[GameTree, ...]:
        if facts.file in self._games:
            return self._games[facts.file]
        data = self._bytes_of(facts.file, PGN_BYTES, facts.line)
        if data is None:
            return ()
        games, findings = _read_games(data, facts.file, self._pool, self._allowance)
        self._games[facts.file] = tuple(games)
        self.in_chapters += findings
        return self._games[facts.file]

    def _bytes_of(self, name: str, most: int, line: int | None) -> bytes | None:
        try:
            data = self._source.read(name, most)
        except FileRefused as refused:
            self.findings.error(refused.code, refused.message, line)
            return None
        self._check_name(name, line)
        self._files[name] = data
        if sum(map(len, self._files.values())) > DECK_BYTES:
            size = f"{DECK_BYTES // 1024**2} MB"
            self.findings.refuse(f"the deck's files are larger than {size} together", line)
        return data

    def _check_name(self, name: str, line: int | None) -> None:
        for other in self._files:
            if other != name and folded(other) == folded(name):
                message = f"{name} and {other} are one file on some systems; rename one"
                self.findings.error("same-name", message, line)


def _read_single(source: DeckSource, name: str, side: str | None) -> ReadDeck:
    findings = FindingList(name)
    try:
        data = source.read(name, PGN_BYTES)
    except FileRefused as refused:
        findings.error(refused.code, refused.message)
        return ReadDeck(None, tuple(findings.finished()))
    if side not in _SIDES:
        message = "a single PGN file does not tell whose moves are asked; say white or black"
        findings.error("missing-side", message)
    games, in_games = _read_games(data, name, PositionPool(), Allowance())
    found = (*findings.finished(), *in_games)
    if has_error(found) or side is None:
        return ReadDeck(None, found)
    return ReadDeck(_single_deck(name, side, tuple(games), data), found)


def _single_deck(name: str, side: str, games: tuple[GameTree, ...], data: bytes) -> Deck:
    stem = name.rsplit(".", 1)[0]
    stem_id = slug(stem, ID_CHARS - len("-white")) or "lines"
    chapter = Chapter(
        id=stem_id,
        file=name,
        title=stem,
        kind=Kind.LINES,
        side=side,
        opens=None,
        after=None,
        games=games,
    )
    return Deck(
        id=f"{stem_id}-{side}",
        title=stem,
        edition=1,
        author="",
        language="und",
        licence="",
        about="",
        chapters=(chapter,),
        digest=digest_of({name: data}),
    )


def _read_games(
    data: bytes, name: str, pool: PositionPool, allowance: Allowance
) -> tuple[list[GameTree], list[Finding]]:
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        message = "the file is UTF-16; save it as UTF-8"
        return [], [Finding("wrong-encoding", Severity.ERROR, name, None, None, None, message)]
    text, line = decode(data)
    games, findings = read_pgn(text, name, pool, allowance)
    # Where a bracket is missing its own line comes before those that it leads astray.
    findings.sort(key=lambda found: (found.line is None, found.line or 0, found.column or 0))
    if line is not None:
        message = (
            "the file is not UTF-8 and was read as Latin-1; if letters look wrong, save it anew"
        )
        findings.insert(0, Finding("latin-1", Severity.NOTE, name, None, line, None, message))
    return games, findings
