"""A diagram as SVG, black on white: hatched dark squares, our own pieces, marks as outlines.

What all diagrams share stands once in a page, in `definitions`; each one refers to it. A
mark's colour is told by its stroke: green is solid, red broken long, yellow broken short,
blue dotted.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from math import hypot

import chess

from trainer.deck.handout.pages import Diagram
from trainer.deck.handout.svg_pieces import DETAILS, OUTLINES, PIECE
from trainer.lines.read_out import read_position

EDGE = 16
"""What the ranks' and files' names take at the left and below."""

_BOARD = 8 * PIECE
_STEP = 3.5
"""From one line of the hatching to the next, along an edge."""

_DASHES = {"G": "", "R": "9 4", "Y": "4.5 3.5", "B": "1.5 3.5"}
"""The strokes of the four colours in which marks come."""

STYLE = (
    ".hatch{stroke:#000;stroke-width:.55}"
    ".rim,.square{fill:none;stroke:#000;stroke-width:2}"
    ".w{fill:#fff}.w,.w .in{stroke:#000;stroke-width:1.7;stroke-linejoin:round}"
    ".b{fill:#000;stroke:#fff;stroke-width:3;stroke-linejoin:round;paint-order:stroke}"
    ".in{fill:none;stroke-linecap:round}.b .in{stroke:#fff;stroke-width:1.5}"
    ".names{font:12px serif;fill:#000;text-anchor:middle}"
    ".square{stroke-width:3}.arrow{fill:none;stroke:#000;stroke-width:3.4}"
    ".head{fill:#000}.halo{fill:none;stroke:#fff;stroke-width:7}"
)
"""The rules that diagrams need, for the page's style sheet."""


def definitions() -> str:
    """What all diagrams of a page refer to; it takes no room."""
    pieces = "".join(
        f'<g id="{colour}{kind}" class="{colour}"><path d="{outline}"/>'
        f'<path class="in" d="{DETAILS[kind]}"/></g>'
        for colour in "wb"
        for kind, outline in OUTLINES.items()
    )
    return (
        '<svg class="definitions" width="0" height="0" aria-hidden="true"><defs>'
        f'<path id="hatch" class="hatch" d="{_hatching()}"/>{pieces}</defs></svg>'
    )


def svg(diagram: Diagram) -> str:
    """One diagram; its label reads the position out."""
    board = chess.Board(diagram.fen)
    label = " ".join([diagram.caption, *read_position(board)])
    parts = [
        f'<use href="#hatch" x="{EDGE}"/>',
        *_squares(diagram),
        *_arrows(diagram, board),
        *_pieces(diagram, board),
        f'<rect class="rim" x="{EDGE}" y="1" width="{_BOARD}" height="{_BOARD}"/>',
        *_names(diagram),
    ]
    return (
        f'<svg class="board" viewBox="0 0 {_BOARD + EDGE + 2} {_BOARD + EDGE + 2}" role="img" '
        f'aria-label="{escape(label)}">{"".join(parts)}</svg>'
    )


def _corner(square: chess.Square, side: str) -> tuple[int, int]:
    """The upper left corner of a square, as a side sees it."""
    column, row = chess.square_file(square), 7 - chess.square_rank(square)
    if side == "black":
        column, row = 7 - column, 7 - row
    return EDGE + column * PIECE, 1 + row * PIECE


def _middle(square: chess.Square, side: str) -> tuple[float, float]:
    x, y = _corner(square, side)
    return x + PIECE / 2, y + PIECE / 2


def _hatching() -> str:
    """Lines from lower left to upper right in each dark square; either side sees the same."""
    strokes = []
    for place in range(64):
        column, row = place % 8, place // 8
        if (column + row) % 2:
            x, y = column * PIECE, 1 + row * PIECE
            for number in range(1, int(2 * PIECE / _STEP) + 1):
                reach = number * _STEP
                inside, over = min(reach, PIECE), max(0.0, reach - PIECE)
                strokes.append(f"M{x + over:g} {y + inside:g}L{x + inside:g} {y + over:g}")
    return "".join(strokes)


def _pieces(diagram: Diagram, board: chess.Board) -> Iterator[str]:
    for square, piece in board.piece_map().items():
        x, y = _corner(square, diagram.side)
        colour = "w" if piece.color == chess.WHITE else "b"
        yield f'<use href="#{colour}{piece.symbol().upper()}" x="{x}" y="{y}"/>'


def _squares(diagram: Diagram) -> Iterator[str]:
    for mark in diagram.squares:
        x, y = _corner(chess.parse_square(mark[1:]), diagram.side)
        place = f'x="{x + 3}" y="{y + 3}" width="{PIECE - 6}" height="{PIECE - 6}"'
        yield f'<rect class="halo" {place}/><rect class="square" {place}{_dashed(mark)}/>'


def _arrows(diagram: Diagram, board: chess.Board) -> Iterator[str]:
    for mark in diagram.arrows:
        start, goal = chess.parse_square(mark[1:3]), chess.parse_square(mark[3:])
        if start != goal:
            stop = 17 if board.piece_at(goal) else 4
            yield _arrow(mark, _middle(start, diagram.side), _middle(goal, diagram.side), stop)


def _arrow(mark: str, start: tuple[float, float], goal: tuple[float, float], stop: float) -> str:
    """A shaft and a head.

    :param stop: so far from the middle of its goal the point stands.
    """
    length = hypot(goal[0] - start[0], goal[1] - start[1])
    x, y = (goal[0] - start[0]) / length, (goal[1] - start[1]) / length

    def at(along: float, beside: float = 0) -> str:
        return f"{start[0] + x * along - y * beside:.1f} {start[1] + y * along + x * beside:.1f}"

    point = length - stop
    shaft = f"M{at(13)}L{at(point - 10)}"
    head = f"M{at(point)}L{at(point - 13, 7)}L{at(point - 10)}L{at(point - 13, -7)}z"
    return (
        f'<path class="halo" d="{shaft}{head}"/><path class="arrow" d="{shaft}"{_dashed(mark)}/>'
        f'<path class="head" d="{head}"/>'
    )


def _dashed(mark: str) -> str:
    dashes = _DASHES[mark[0]]
    return f' stroke-dasharray="{dashes}"' if dashes else ""


def _names(diagram: Diagram) -> Iterator[str]:
    files, ranks = "abcdefgh", "87654321"
    if diagram.side == "black":
        files, ranks = files[::-1], ranks[::-1]
    words = []
    for place, (file, rank) in enumerate(zip(files, ranks, strict=True)):
        middle = place * PIECE + PIECE // 2
        words.append(f'<text x="{EDGE + middle}" y="{_BOARD + EDGE - 2}">{file}</text>')
        words.append(f'<text x="7" y="{middle + 5}">{rank}</text>')
    yield f'<g class="names" aria-hidden="true">{"".join(words)}</g>'
