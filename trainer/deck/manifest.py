"""`deck.toml`: what a deck says of itself and of its chapters, checked key by key.

Opens no other file: whether a chapter's file is there, and what stands in it, is the
reader's business.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from trainer.deck.deck import Kind
from trainer.deck.findings import FindingList
from trainer.deck.ids import chapter_id
from trainer.deck.limits import CHAPTERS
from trainer.deck.paths import why_unsafe
from trainer.deck.toml_file import parse_toml
from trainer.deck.toml_places import Lines, lines_of_keys
from trainer.deck.toml_table import TomlTable

MANIFEST = "deck.toml"

_DECK_KEYS = ("id", "title", "edition", "author", "language", "licence", "about", "chapter")
_CHAPTER_KEYS = ("id", "file", "title", "kind", "side", "opens", "after")
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*")


@dataclass(frozen=True, slots=True)
class ChapterFacts:
    """What the manifest says of one chapter."""

    id: str
    file: str
    title: str
    kind: Kind
    side: str
    """`white`, `black`, or empty where the kind lets it be."""
    opens: date | None
    after: str | None
    line: int | None
    """Where in the manifest it stands."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a manifest says; where it has faults, stand-in values."""

    id: str
    title: str
    edition: int
    author: str
    language: str
    licence: str
    about: str
    chapters: tuple[ChapterFacts, ...]
    """Those whose file and kind are known."""


def read_manifest(data: bytes, findings: FindingList) -> Manifest | None:
    """The manifest, as far as it can be read; None where it is no TOML at all."""
    text, values = parse_toml(data, MANIFEST, findings)
    if values is None:
        return None
    lines = lines_of_keys(text)
    table = TomlTable(values, findings, lines)
    table.warn_of_unknown(_DECK_KEYS)
    return Manifest(
        id=table.id("id", required=True),
        title=table.text("title", required=True),
        edition=table.whole_number("edition"),
        author=table.text("author"),
        language=_language(table),
        licence=table.text("licence"),
        about=table.paragraphs("about"),
        chapters=tuple(_chapters(table, lines, findings)),
    )


def _language(table: TomlTable) -> str:
    language = table.text("language") or "und"
    if not _LANGUAGE.fullmatch(language):
        message = f'language must be a tag such as en or pt-BR, not "{language[:40]}"'
        table.error("bad-value", message, "language")
    return language


def _chapters(deck: TomlTable, lines: Lines, findings: FindingList) -> list[ChapterFacts]:
    if not deck.has("chapter", required=True):
        return []
    values = deck.values["chapter"]
    if not isinstance(values, list) or not all(isinstance(value, dict) for value in values):
        deck.wrong_type("chapter", "tables under [[chapter]], in two pairs of brackets")
        return []
    if not values:
        deck.error("missing-key", "the deck has no chapter; add one under [[chapter]]", "chapter")
    if len(values) > CHAPTERS:
        line = lines.get(("chapter", CHAPTERS, ""))
        findings.refuse(f"the deck has more than {CHAPTERS} chapters", line)
    tables = [
        TomlTable(value, findings, lines, ("chapter", place)) for place, value in enumerate(values)
    ]
    read = [(table, facts) for table in tables if (facts := _chapter(table))]
    _check_ids(read)
    _check_files(read)
    _check_order(read)
    return [facts for _, facts in read]


def _chapter(table: TomlTable) -> ChapterFacts | None:
    table.warn_of_unknown(_CHAPTER_KEYS)
    file = _file(table)
    kind = table.one_of("kind", tuple(Kind), required=True)
    facts = ChapterFacts(
        id=table.id("id", required=False) or chapter_id(file),
        file=file,
        title=table.text("title", required=True),
        kind=Kind(kind or Kind.LINES),
        side=table.one_of("side", ("white", "black"), required=kind in (Kind.LINES, Kind.GAMES)),
        opens=table.day("opens"),
        after=table.text("after") or None,
        line=table.line(),
    )
    if file and not facts.id:
        table.error("missing-key", f"no id can be made of the file name {file}; add an id")
    return facts if file and facts.id and kind else None


def _file(table: TomlTable) -> str:
    """The chapter's file name as written; empty where there is none that can be used."""
    shown = table.text("file", required=True)
    if not shown:
        return ""
    name = str(table.values["file"])
    if why := why_unsafe(name):
        table.error("unsafe-path", f'file "{shown[:60]}" {why}', "file")
        return ""
    return name


def _check_ids(chapters: list[tuple[TomlTable, ChapterFacts]]) -> None:
    seen: set[str] = set()
    for table, facts in chapters:
        if facts.id in seen:
            message = f"two chapters have the id {facts.id}; give this one another id"
            table.error("duplicate-chapter", message, "id")
        seen.add(facts.id)


def _check_files(chapters: list[tuple[TomlTable, ChapterFacts]]) -> None:
    """No file is asked twice in the same way: it would cost its time again, and mean nothing."""
    seen: dict[tuple[str, Kind, str], str] = {}
    for table, facts in chapters:
        earlier = seen.setdefault((facts.file, facts.kind, facts.side), facts.id)
        if earlier != facts.id:
            message = f"{facts.file} is the file of the chapter {earlier} already; name another"
            table.error("repeated-file", message, "file")


def _check_order(chapters: list[tuple[TomlTable, ChapterFacts]]) -> None:
    """Every `after` names a chapter, and no chapter waits for itself in the end."""
    waits_for = {facts.id: facts.after for _, facts in chapters}
    without_cards = {facts.id for _, facts in chapters if facts.kind is Kind.GAMES}
    for table, facts in chapters:
        if facts.after is None:
            continue
        if facts.after not in waits_for:
            message = f"there is no chapter {facts.after[:40]}; write the id of one in after"
            table.error("unknown-chapter", message, "after")
            continue
        if facts.after in without_cards:
            message = f"{facts.after} is a chapter of games, without cards to wait for"
            message += f": {facts.id} opens at once; name another chapter, or remove after"
            table.warn("opens-at-once", message, "after")
        passed: set[str] = set()
        waiting: str | None = facts.id
        while waiting is not None and waiting not in passed:
            passed.add(waiting)
            waiting = waits_for.get(waiting)
            waiting = None if waiting in without_cards else waiting
        if waiting is not None:
            message = f"the chapter {facts.id} can never open: in the end it waits for {waiting}"
            table.error("never-opens", f"{message}, which waits for itself", "after")
