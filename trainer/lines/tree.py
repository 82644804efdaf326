"""A game of a deck as its author wrote it: a tree of moves with their comments.

These are plain records. The deck reader makes them, the graph of lines reads them;
neither chapters nor cards are known here. Trees may be thousands of variations deep, so
nothing that walks them may recurse.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import chess

from trainer.lines.position import Position


@dataclass(frozen=True, slots=True)
class Comment:
    """What an author says about a move, its bracket commands already taken out."""

    text: str = ""
    """Clean text, paragraphs separated by newlines; never markup."""
    squares: tuple[str, ...] = ()
    """From `[%csl]`: colour letter and square, such as `Gd5`; colours G, R, Y, B."""
    arrows: tuple[str, ...] = ()
    """From `[%cal]`: colour letter, from and to, such as `Gf1c4`."""
    themes: tuple[str, ...] = ()
    """From `[%theme]`."""
    aside: bool = False
    """`[%aside]`: sound, but not a move of this deck."""
    share: float | None = None
    """From `[%share]`: the part of opponents who choose this reply, 0 to 1."""
    unknown: tuple[str, ...] = ()
    """Other bracket commands, kept whole and not shown."""


NO_COMMENT = Comment()


@dataclass(slots=True, eq=False, repr=False)
class MoveNode:
    """One move at one place of a tree."""

    move: chess.Move
    san: str
    """Standard notation as the PGN standard writes it on export."""
    after: Position
    """The position after the move."""
    line: int
    """The line of the file on which the move stands, from 1."""
    column: int
    """The column of its first character, from 1."""
    nags: tuple[int, ...] = ()
    comment: Comment = NO_COMMENT
    children: list[MoveNode] = field(default_factory=list)
    """The continuations in file order: the main one first."""


@dataclass(slots=True, eq=False, repr=False)
class GameTree:
    """One game of a PGN chapter."""

    number: int
    """The place of the game in its file, from 1."""
    line: int
    """The line on which the game starts, from 1."""
    tags: Mapping[str, str]
    start: Position
    start_fen: str
    """Six FEN fields of the position in which the game starts."""
    introduction: Comment = NO_COMMENT
    """The comment before the first move."""
    children: list[MoveNode] = field(default_factory=list)
