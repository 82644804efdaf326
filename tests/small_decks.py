"""Small decks, written to a folder, for tests above the reader."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

FIRST = """\
[Event "The gambit"]
[White "?"]
[Black "?"]
[Result "*"]

1. e4 {Takes the centre and frees the f1 bishop.} e5 2. Nc3 {Guards e4 before f2-f4.}
(2. Nf3 {Sound, but another course. [%aside]})
(2. Qh5? {The queen is chased: 2... Nc6 and 3... g6.} 2... Nc6 3. Bc4 g6)
2... Nf6 {[%share 60] Hits e4.} 3. f4 {Strikes at e5. [%cal Gf4e5] [%csl Re5]}
(3. Bc4 {Quieter, and right too.} 3... Nc6 4. d3 {Opens the c1 bishop's way to g5.})
3... d5 4. fxe5 {Opens the f-file.} Nxe4 5. Nf3 {Keeps the queen off h4.} *
"""

SECOND = """\
[Event "The quiet knight"]
[White "?"]
[Black "?"]
[Result "*"]

1. e4 e5 2. Nc3 Nc6 3. Bc4 {Looks at f7.} Nf6 4. d3 {Holds e4.} Bc5 5. Bg5 {Pins f6.} *
"""

BLACK = """\
[Event "An answer"]
[White "?"]
[Black "?"]
[Result "*"]

1. e4 c6 {Prepares d5.} 2. d4 d5 {Asks e4.} 3. Nc3 dxe4 {Gives the knight no rest.} *
"""

TOML = """\
id = "{id}"
title = "{title}"
edition = {edition}
author = "Nobody"
language = "en"
licence = "GPL-3.0-or-later"
about = "For tests."
"""

CHAPTER = """
[[chapter]]
id = "{id}"
file = "{id}.pgn"
title = "Chapter {id}"
kind = "lines"
side = "{side}"
{more}
"""


def write_deck(
    folder: Path,
    chapters: Mapping[str, str],
    *,
    deck_id: str = "small",
    title: str = "Small",
    edition: int = 1,
    sides: Mapping[str, str] | None = None,
    more: Mapping[str, str] | None = None,
) -> Path:
    """Write a deck of `lines` chapters.

    :param chapters: PGN text by chapter id.
    :param sides: the side of chapters that are not White's.
    :param more: further lines of a chapter's table.
    """
    folder.mkdir(parents=True, exist_ok=True)
    text = TOML.format(id=deck_id, title=title, edition=edition)
    for chapter, pgn in chapters.items():
        text += CHAPTER.format(
            id=chapter, side=(sides or {}).get(chapter, "white"), more=(more or {}).get(chapter, "")
        )
        (folder / f"{chapter}.pgn").write_text(pgn, encoding="utf-8")
    (folder / "deck.toml").write_text(text, encoding="utf-8")
    return folder
