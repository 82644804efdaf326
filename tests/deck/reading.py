"""Reads PGN texts for the tests of this folder, and says in short what came of it."""

from __future__ import annotations

from trainer.deck.findings import Finding, Severity
from trainer.deck.pgn import read_pgn
from trainer.lines.position import PositionPool
from trainer.lines.tree import GameTree, MoveNode


def read(text: str) -> tuple[list[GameTree], list[Finding]]:
    """The games of a text and its findings."""
    return read_pgn(text, "test.pgn", PositionPool())


def only_game(text: str) -> GameTree:
    """The one game of a text without findings."""
    games, findings = read(text)
    assert findings == []
    assert len(games) == 1
    return games[0]


def places(text: str, *severities: Severity) -> list[tuple[str, int | None, int | None]]:
    """Code, line and column of the findings; of all severities where none is named."""
    _, findings = read(text)
    return [
        (found.code, found.line, found.column)
        for found in findings
        if not severities or found.severity in severities
    ]


def shape(game: GameTree) -> str:
    """A tree as moves and parentheses: `e4 (c4 c5) e5`. Not for deep trees."""
    return " ".join(_words(game.children))


def nodes(game: GameTree) -> list[MoveNode]:
    """All moves of a tree, in no particular order, however deep it is."""
    found: list[MoveNode] = []
    waiting = list(game.children)
    while waiting:
        node = waiting.pop()
        found.append(node)
        waiting.extend(node.children)
    return found


def _words(children: list[MoveNode]) -> list[str]:
    words = []
    while children:
        main, *others = children
        words.append(main.san)
        words += [f"({' '.join([other.san, *_words(other.children)])})" for other in others]
        children = main.children
    return words
