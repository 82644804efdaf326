"""Where the trees of a side say what its graph of lines holds: file, game, line.

The graph joins all places of a position into one; a finding names the first of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import chess

from trainer.deck.check.spots import Spot
from trainer.deck.compiled import CompiledDeck
from trainer.deck.deck import Chapter, Deck, Kind
from trainer.lines.graph import BookMove, BookPosition, LineGraph, Standing
from trainer.lines.graph_builder import MISTAKE_NAGS
from trainer.lines.position import Position
from trainer.lines.tree import MoveNode


@dataclass(frozen=True)
class Written:
    """The lines of one side, and where they stand."""

    graph: LineGraph
    positions: Mapping[str, Position]
    """Those of the graph, with their boards, by key."""
    moves: Mapping[tuple[str, str], Spot]
    """The first place of each move of the graph, by position key and UCI."""
    arrivals: Mapping[str, Spot]
    """The first book move into a position; where none leads, the game that starts there."""

    @property
    def student(self) -> chess.Color:
        """Whose moves are asked."""
        return self.graph.side == "white"

    def to_move(self, color: chess.Color) -> Iterator[BookPosition]:
        """The positions in which this side is to move."""
        return (
            position
            for key, position in self.graph.positions.items()
            if self.positions[key].turn == color
        )

    def mistakes(self) -> Iterator[tuple[BookPosition, BookMove]]:
        """The student's moves that are marked as mistakes."""
        for position in self.to_move(self.student):
            for move in position.moves:
                if move.standing is Standing.MISTAKE:
                    yield position, move


def find_written(deck: Deck, compiled: CompiledDeck) -> tuple[Written, ...]:
    """The lines of a deck, side by side, with their places."""
    lines = [chapter for chapter in deck.chapters if chapter.kind is Kind.LINES]
    return tuple(
        _find(graph, [chapter for chapter in lines if chapter.side == side])
        for side, graph in compiled.graphs.items()
    )


def _find(graph: LineGraph, chapters: Sequence[Chapter]) -> Written:
    positions: dict[str, Position] = {}
    moves: dict[tuple[str, str], Spot] = {}
    arrivals: dict[str, Spot] = {}
    starts: dict[str, Spot] = {}
    student = graph.side == "white"
    for chapter in chapters:
        for game in chapter.games:
            positions.setdefault(game.start.key, game.start)
            starts.setdefault(game.start.key, Spot(chapter.file, game.number, game.line))
            waiting = [(game.start, game.children)]
            while waiting:
                here, children = waiting.pop()
                for node in children:
                    spot = Spot(chapter.file, game.number, node.line, node.column)
                    moves.setdefault((here.key, node.move.uci()), spot)
                book = [node for node in children if here.turn != student or _is_book(node)]
                for node in book:
                    spot = Spot(chapter.file, game.number, node.line, node.column)
                    positions.setdefault(node.after.key, node.after)
                    arrivals.setdefault(node.after.key, spot)
                waiting.extend((node.after, node.children) for node in reversed(book))
    return Written(graph, positions, moves, {**starts, **arrivals})


def _is_book(node: MoveNode) -> bool:
    return MISTAKE_NAGS.isdisjoint(node.nags) and not node.comment.aside
