"""A deck of every kind of chapter, put together in memory for the handout's tests."""

from __future__ import annotations

from dataclasses import replace

import chess

from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.pgn import read_pgn
from trainer.lines.idea import Form, Idea
from trainer.lines.position import PositionPool

POOL = PositionPool()
"""As in a deck that is read: what is the same position in two chapters is one object."""

LINES = """\
[Event "The gambit"]

{We strike early.} 1. e4 {Takes the centre.} e5 2. Nc3 {Guards e4. [%cal Gf2f4]}
(2. Nf3 {Sound. [%aside]}) (2. Qh5? {Chased.} 2... Nc6 3. Bc4 g6 (3... Nf6? 4. Qxf7#))
2... Nf6 {[%share 60] Hits e4.} 3. f4 (3. Bc4 {Quieter.} 3... Nc6 4. d3) 3... d5 4. fxe5 *

[Event "By another road"]

1. e4 e5 2. f4 $18 Nf6 3. Nc3 *
"""

TACTICS = """\
[Event "The loose bishop"]
[SetUp "1"]
[FEN "rn1qkbnr/ppp1pppp/3p4/8/2B1P1b1/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4"]

{Is the knight pinned?} 4. Bxf7+ {Draws the king out.} Kxf7 (4... Kd7 5. Ng5)
5. Ng5+ (5. d3? {Too slow.}) 5... Ke8 6. Qxg4 *

[SetUp "1"]
[FEN "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3"]

3... Nf6? 4. Qxf7# *
"""

GAMES = """\
[Event "A club match"]
[Site "?"]
[Date "1999.10.??"]
[White "Ann"]
[Black "Bert"]
[Result "1-0"]

1. e4 e5 2. Nf3 d6 3. Bc4 Bg4 {Loose.} 4. Nc3 g6? (4... Nf6) 5. Nxe5 Bxd1 6. Bxf7+ Ke7 7. Nd5# 1-0
"""


def idea(form: Form, **answer: object) -> Idea:
    """An idea after 1. e4."""
    facts: dict[str, object] = {"squares": (), "move": "", "choices": ()}
    return Idea(
        key="idea x",
        start=chess.STARTING_FEN,
        line="1. e4",
        side="black",
        ask="What now?",
        form=form,
        why="Because.",
        place=1,
        file_line=1,
        **{**facts, **answer},  # type: ignore[arg-type]
    )


IDEAS = (
    idea(Form.SQUARES, squares=("d5", "f5")),
    idea(Form.MOVE, move="e7e5"),
    idea(Form.CHOOSE, choices=("the centre", "An attack", "nothing")),
)


def chapter(kind: Kind, pgn: str = "", side: str = "white", **more: object) -> Chapter:
    """A chapter called after its kind."""
    games = tuple(read_pgn(pgn, "test.pgn", POOL)[0]) if pgn else ()
    plain = Chapter(kind.value, f"{kind}.pgn", f"The {kind}", kind, side, None, None, games)
    return replace(plain, **more)  # type: ignore[arg-type]


def deck(*chapters: Chapter, **facts: object) -> Deck:
    """A deck of these chapters."""
    plain = Deck("all", "All of it", 2, "Nobody", "en", "CC-BY-4.0", "For tests.", chapters, "")
    return replace(plain, **facts)  # type: ignore[arg-type]


def whole_deck(**facts: object) -> Deck:
    """A chapter of every kind."""
    return deck(
        chapter(Kind.LINES, LINES),
        chapter(Kind.TACTICS, TACTICS),
        chapter(Kind.GAMES, GAMES),
        chapter(Kind.IDEAS, ideas=IDEAS),
        **facts,
    )
