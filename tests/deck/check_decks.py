"""A deck of all kinds of chapters in which the check finds nothing, and what is found in others."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from trainer.deck.check.check import check_whole
from trainer.deck.check.written import Written, find_written
from trainer.deck.compiled import compile_deck
from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.findings import Finding
from trainer.deck.reader import read_deck
from trainer.lines.tree import GameTree

Place = tuple[str, str, str, int | None, int | None]
"""Code, severity, file, game and line of a finding."""

TOML = """\
id = "sound"
title = "Sound"
edition = 1

[[chapter]]
file = "lines.pgn"
title = "Lines"
kind = "lines"
side = "white"

[[chapter]]
file = "tactics.pgn"
title = "Tactics"
kind = "tactics"

[[chapter]]
file = "games.pgn"
title = "Games"
kind = "games"
side = "black"

[[chapter]]
file = "ideas.toml"
title = "Ideas"
kind = "ideas"
after = "lines"
"""

LINES = """\
[Event "Main"]
[Result "*"]

1. e4 {Takes the centre.} e5
2. Nf3 {Hits e5.}
(2. Qh5? {Too early.} Nc6 3. Bc4 g6)
2... Nc6
3. Bb5 {Presses the knight.} *
"""

TACTICS = """\
[SetUp "1"]
[FEN "r5k1/5ppp/2n5/8/8/8/3Q1PPP/3R2K1 w - - 0 1"]
[Result "*"]

1. Qd8+ {The back rank is weak.}
(1. Qd7? Ne7)
1... Rxd8
(1... Nxd8 2. Rxd8+)
2. Rxd8+ *
"""

GAMES = """\
[White "?"]
[Black "?"]
[Result "0-1"]

1. f3 e5 2. g4 Qh4# 0-1
"""

IDEAS = """\
[[idea]]
id = "hit"
after = "1. e4 e5 2. Nf3"
ask = "Which pawn does the knight hit?"
squares = ["e5"]
why = "Nobody guards it yet."

[[idea]]
id = "develop"
after = "1. e4 e5"
ask = "Which move hits e5?"
move = "Nf3"
why = "It develops, too."
"""

SOUND: Mapping[str, str] = {
    "deck.toml": TOML,
    "lines.pgn": LINES,
    "tactics.pgn": TACTICS,
    "games.pgn": GAMES,
    "ideas.toml": IDEAS,
}


def changed(file: str, *changes: tuple[str, str]) -> dict[str, str]:
    """The sound deck with other text in one of its files."""
    text = SOUND[file]
    for old, new in changes:
        assert text.count(old) == 1, f"{file} has no single {old!r}"
        text = text.replace(old, new)
    return {**SOUND, file: text}


def write_files(folder: Path, files: Mapping[str, str]) -> Path:
    """A deck's folder with these files."""
    folder.mkdir(parents=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def found_in(folder: Path, files: Mapping[str, str]) -> list[Finding]:
    """Everything that is found in a deck of these files."""
    read = read_deck(write_files(folder, files))
    if read.deck is None:
        return list(read.findings)
    compiled = compile_deck(read.deck)
    findings = [*read.findings, *compiled.findings]
    findings += check_whole(read.deck, compiled, find_written(read.deck, compiled))
    return list(dict.fromkeys(findings))


def place(found: Finding) -> Place:
    """What of a finding a program relies on."""
    return found.code, found.severity.value, found.file, found.game, found.line


def deck_of(trees: Iterable[GameTree], side: str = "white") -> Deck:
    """A deck of one chapter of lines."""
    chapter = Chapter("c", "c.pgn", "C", Kind.LINES, side, None, None, tuple(trees))
    return Deck("d", "D", 1, "", "en", "", "", (chapter,), "")


def written_of(trees: Iterable[GameTree], side: str = "white") -> Written:
    """The lines of a deck of one chapter."""
    deck = deck_of(trees, side)
    (written,) = find_written(deck, compile_deck(deck))
    return written
