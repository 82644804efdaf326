"""The lines of a side as a student practises them who keeps one of several right moves.

The deck's own graph stays what it is; from it comes one in which the kept move is the move
asked for, the other right moves are sound but set aside, and what only they lead to is gone.
Who prefers what is kept elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from trainer.lines.graph import BookMove, BookPosition, LineGraph, Standing
from trainer.lines.ways import mended

_RIGHT = (Standing.DECK, Standing.ACCEPTED)


def right_moves(position: BookPosition | None) -> tuple[BookMove, ...]:
    """The moves among which a student may choose, the deck's first; none at other turns."""
    return tuple(move for move in position.moves if move.standing in _RIGHT) if position else ()


def asleep(graph: LineGraph, preferred: Mapping[str, str]) -> tuple[str, ...]:
    """The positions (keys) whose preferred move is not among the right ones there."""
    return tuple(
        key
        for key, uci in preferred.items()
        if all(move.uci != uci for move in right_moves(graph.get(key)))
    )


def with_preferences(graph: LineGraph, preferred: Mapping[str, str]) -> LineGraph:
    """The lines with one right move kept in each of these positions.

    A preference for a move that is not among the right ones changes nothing. `lines` stays
    what the trees have as written, whatever is set aside. A place whose line came through a
    move set aside gets another line of its chapter; a chapter that no longer leads to a
    position has no place there.

    :param preferred: the kept move (UCI) by position key.
    """
    kept: dict[str, BookPosition] = {}
    set_aside: list[str] = []
    for key, uci in preferred.items():
        right = right_moves(graph.get(key))
        if len(right) > 1 and any(move.uci == uci for move in right):
            kept[key] = _keeping(graph.positions[key], uci)
            set_aside += [move.after for move in right if move.uci != uci]
    if not kept:
        return graph
    positions = {key: kept.get(key, position) for key, position in graph.positions.items()}
    reached = set(_travel(positions, graph.roots))
    positions = {key: position for key, position in positions.items() if key in reached}
    # Only what follows a move set aside can have a line through it.
    doubtful = reached.intersection(_travel(graph.positions, set_aside))
    return replace(graph, positions=mended(positions, graph.roots, doubtful))


def _keeping(position: BookPosition, uci: str) -> BookPosition:
    """The position with this move as the deck's and first, the other right ones set aside."""
    own = next(move for move in position.moves if move.uci == uci)
    others = (
        replace(
            move,
            standing=Standing.ASIDE,
            after="",
            note="\n".join(filter(None, (f"You keep {own.san} here.", move.note))),
        )
        if move.standing in _RIGHT
        else move
        for move in position.moves
        if move is not own
    )
    return replace(position, moves=(replace(own, standing=Standing.DECK), *others))


def _travel(positions: Mapping[str, BookPosition], starts: Iterable[str]) -> Iterator[str]:
    """The keys of all that can follow, the starts included."""
    waiting = list(starts)
    seen: set[str] = set()
    while waiting:
        key = waiting.pop()
        if key not in seen:
            seen.add(key)
            yield key
            waiting.extend(move.after for move in positions[key].book_moves)
