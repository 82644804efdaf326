"""The arrows of a note as stepping stones and a head, in sub-pixels of the squares they cross.

Heads are stamps, because smooth lines look torn at this scale. It knows neither colours nor
pieces, only which squares are occupied, for a head stops short of those.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

import chess

from trainer.app.widgets.board.geometry import Size, place_of, square_at
from trainer.app.widgets.board.marks import SubPixels

_ARROW = re.compile(r"([GRYB])([a-h][1-8])([a-h][1-8])")
_SQUARE = re.compile(r"([GRYB])([a-h][1-8])")


@dataclass(frozen=True)
class Arrow:
    """An arrow of a note."""

    letter: str
    """Which of the standard's four colours was meant: G, R, Y or B."""
    tail: chess.Square
    """Where it begins."""
    head: chess.Square
    """Where it ends."""


def read_arrows(texts: Iterable[str]) -> tuple[Arrow, ...]:
    """Arrows as a `[%cal]` command writes them (`Gf1c4`); what is none is left out."""
    found = (_ARROW.fullmatch(text) for text in texts)
    return tuple(
        Arrow(match[1], chess.parse_square(match[2]), chess.parse_square(match[3]))
        for match in found
        if match and match[2] != match[3]
    )


def read_squares(texts: Iterable[str]) -> dict[chess.Square, str]:
    """Squares as a `[%csl]` command writes them (`Gd5`), each with its letter."""
    found = (_SQUARE.fullmatch(text) for text in texts)
    return {chess.parse_square(match[2]): match[1] for match in found if match}


def stones(
    arrows: Collection[Arrow], size: Size, flipped: bool, occupied: Collection[chess.Square]
) -> Mapping[chess.Square, SubPixels]:
    """The sub-pixels of all arrows, by the square they lie in."""
    found: defaultdict[chess.Square, set[tuple[int, int]]] = defaultdict(set)
    width, height = 2 * size.width, 2 * size.height
    taken = {*occupied, *_shared(arrows)}
    for arrow in arrows:
        for x, y in _arrow(arrow, size, flipped, taken):
            if 0 <= x < 8 * width and 0 <= y < 8 * height:
                square = square_at(x // width, y // height, flipped)
                found[square].add((x % width, y % height))
    return {square: frozenset(places) for square, places in found.items()}


def _shared(arrows: Iterable[Arrow]) -> set[chess.Square]:
    """Squares whose middle two arrows would want: each of them has its own side instead."""
    ends = {(arrow.tail, arrow.head) for arrow in arrows}
    tails, heads = {tail for tail, _ in ends}, Counter(head for _, head in ends)
    return {head for head, count in heads.items() if count > 1 or head in tails}


def _arrow(
    arrow: Arrow, size: Size, flipped: bool, occupied: Collection[chess.Square]
) -> set[tuple[int, int]]:
    """The sub-pixels of one arrow, from the top left of the board.

    It is laid out in units as wide as high: two sub-pixels by one. A square has `width` by
    twice `height` of them.
    """
    (column, row), (to_column, to_row) = (
        place_of(square, flipped) for square in (arrow.tail, arrow.head)
    )
    columns, rows = to_column - column, to_row - row
    dx, dy = columns * size.width, rows * 2 * size.height
    length = max(abs(dx), abs(dy))
    # The outermost rows of a halved square are shared and stay free.
    half = length // max(abs(columns), abs(rows)) // 2 + size.halved
    start = ((column + 0.5) * size.width, (row + 0.5) * 2 * size.height)

    def along(step: float) -> tuple[float, float]:
        return start[0] + dx * step / length, start[1] + dy * step / length

    first = half + 1 if arrow.tail in occupied else 1
    tip = length - half if arrow.head in occupied else length + 1
    direction, depth = _direction(columns, rows), 2 if size.height < 4 else 3
    places = {place for unit in _head(direction, depth) for place in _unit(along(tip), unit)}
    for step in range(tip - _reach(direction, depth) - 2, first - 1, -2):
        places |= _unit(along(step), (0, 0))
    return places


def _unit(centre: tuple[float, float], offset: tuple[int, int]) -> set[tuple[int, int]]:
    """The two sub-pixels of the unit that lies so many units from a centre."""
    x = round(2 * (centre[0] + offset[0])) - 1
    y = int(centre[1] + offset[1])
    return {(x, y), (x + 1, y)}


def _direction(dx: int, dy: int) -> tuple[int, int]:
    """The way the head points; a knight's arrow takes that of its longer leg."""
    if abs(dx) >= 2 * abs(dy):
        dy = 0
    elif abs(dy) >= 2 * abs(dx):
        dx = 0
    return (dx > 0) - (dx < 0), (dy > 0) - (dy < 0)


def _head(direction: tuple[int, int], depth: int) -> set[tuple[int, int]]:
    """The units of a head round its tip: a stepped wedge, or a right-angled corner."""
    dx, dy = direction
    if dx and dy:
        legs = range(depth + 1)
        return {(-dx * i, -dy * j) for i in legs for j in legs if i + j <= depth}
    wedge = {(back, side) for back in range(depth) for side in range(-back, back + 1)}
    return {(-dx * back + dy * side, -dy * back + dx * side) for back, side in wedge}


def _reach(direction: tuple[int, int], depth: int) -> int:
    """How many units of the line a head covers behind its tip."""
    return depth // 2 if all(direction) else depth - 1
