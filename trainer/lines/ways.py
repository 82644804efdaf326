"""Finds lines anew where some moves of a graph are gone: each place is to have one that holds.

A position keeps the places whose lines still lead to it. For the others a way is looked for
through positions of the same chapter, depth first as one travels through the lines.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from functools import cache

import chess

from trainer.lines.graph import BookMove, BookPosition, Place
from trainer.lines.position import position_key

Positions = Mapping[str, BookPosition]

_Way = tuple[str, BookMove] | None
"""The position before and the move from there; None where games start."""


def mended(
    positions: Positions, roots: tuple[str, ...], doubtful: Collection[str]
) -> dict[str, BookPosition]:
    """The positions, with lines that hold at each place of the doubtful ones.

    A chapter that no longer leads to a position loses its place there, unless none does:
    lines of several chapters together lead to it then, and its places get one of those.

    :param positions: all that the roots lead to.
    """
    search = _Search(positions, roots)
    found = dict(positions)
    for key in doubtful:
        found[key] = replace(positions[key], places=tuple(search.places(positions[key])))
    return found


class _Search:
    def __init__(self, positions: Positions, roots: tuple[str, ...]) -> None:
        self._positions = positions
        self._roots = roots
        self._ways: dict[str | None, dict[str, _Way]] = {}

    def places(self, position: BookPosition) -> Iterator[Place]:
        """The places of a position, with lines that hold."""
        within = [place for place in position.places if position.key in self._within(place.chapter)]
        for place in within or position.places:
            if self._holds(place):
                yield place
            else:
                yield self._led_to(position.key, place, place.chapter if within else None)

    def _within(self, chapter: str | None) -> dict[str, _Way]:
        """How positions of a chapter are reached through its positions; of all for None."""
        if chapter not in self._ways:
            self._ways[chapter] = dict(self._reached(chapter))
        return self._ways[chapter]

    def _reached(self, chapter: str | None) -> Iterator[tuple[str, _Way]]:
        waiting: list[tuple[str, _Way]] = [(root, None) for root in reversed(self._roots)]
        seen: set[str] = set()
        while waiting:
            key, way = waiting.pop()
            if key in seen or not _is_in(self._positions[key], chapter):
                continue
            seen.add(key)
            yield key, way
            moves = self._positions[key].book_moves
            waiting.extend((move.after, (key, move)) for move in reversed(moves))

    def _holds(self, place: Place) -> bool:
        """Whether all moves of the line are still there."""
        key = _key_of(place.start)
        for word in place.line.split():
            if word.endswith("."):
                continue
            here = self._positions.get(key)
            moves = here.book_moves if here else ()
            key = next((move.after for move in moves if move.san == word), "")
        return key in self._positions

    def _led_to(self, key: str, place: Place, chapter: str | None) -> Place:
        """The place with the line of the way that was found."""
        ways = self._within(chapter)
        sans: list[str] = []
        while (way := ways[key]) is not None:
            key, move = way
            sans.append(move.san)
        start, line = self._start(key)
        return replace(place, start=start, line=_movetext(start, line, sans[::-1]))

    def _start(self, root: str) -> tuple[str, str]:
        """From which FEN, by which line, a position is reached in which games start."""
        for place in self._positions[root].places:
            if self._holds(place):
                return place.start, place.line
        return f"{root} 0 1", ""


def _is_in(position: BookPosition, chapter: str | None) -> bool:
    return chapter is None or any(place.chapter == chapter for place in position.places)


@cache
def _key_of(fen: str) -> str:
    return position_key(chess.Board(fen))


def _movetext(start: str, line: str, sans: list[str]) -> str:
    """A line with more moves after it."""
    first = chess.Board(start).ply()
    words = line.split()
    ply = first + sum(1 for word in words if not word.endswith("."))
    for san in sans:
        if ply % 2 == 0:
            words.append(f"{ply // 2 + 1}.")
        elif not words:
            words.append(f"{ply // 2 + 1}...")
        words.append(san)
        ply += 1
    return " ".join(words)
