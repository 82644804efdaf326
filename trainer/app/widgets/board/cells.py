"""One cell of the terminal, and how four sub-pixels are put into one.

A cell holds a block character and has two colours. Where more than two meet in it, the rule
here says which of them gives way. It knows layers, not what they show.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum


class Layer(IntEnum):
    """What a sub-pixel shows; the greater lies on top."""

    SQUARE = 0
    NOTE = 1
    PIECE = 2
    MARK = 3


Quad = tuple[Layer, Layer, Layer, Layer]
"""The four sub-pixels of a cell: top left, top right, bottom left, bottom right."""


@dataclass(frozen=True)
class Cell:
    """A character with its colours, `#rrggbb`; None leaves what the terminal has."""

    text: str
    ink: str | None = None
    paper: str | None = None
    reverse: bool = False
    bold: bool = False

    def covers(self, other: Cell) -> bool:
        """Whether the other one may be written in this one's style without a difference."""
        same_paper = self.paper == other.paper and self.reverse == other.reverse
        return same_paper and (other.text == " " or self.ink == other.ink)


_BLOCKS = " ▗▖▄▝▐▞▟▘▚▌▙▀▜▛█"
"""The block whose filled quarters are the bits of its place: top left 8, bottom right 1."""

FOOT = "▂"
"""The lowest quarter of a cell, filled: what stays free below the foot of a piece."""


def block(quad: Quad) -> tuple[str, Layer, Layer]:
    """The character for four sub-pixels, the layer of its ink and that of its paper."""
    quad = _two_layers(quad)
    top, bottom = max(quad), min(quad)
    if top == bottom == Layer.SQUARE:
        return " ", top, bottom
    if top == bottom:
        return "█", top, Layer.SQUARE
    filled = sum(8 >> place for place, layer in enumerate(quad) if layer is top)
    return _BLOCKS[filled], top, bottom


def _two_layers(quad: Quad) -> Quad:
    """Let the layers that matter least give way until two are left.

    An arrow goes before anything else. Of a piece and the square round it the one with
    fewer sub-pixels goes, at a tie the piece: a mark always stays.
    """
    while len(counts := Counter(quad)) > 2:
        if Layer.NOTE in counts:
            quad = _replace(quad, {Layer.NOTE: Layer.SQUARE})
        elif counts[Layer.PIECE] <= counts[Layer.SQUARE]:
            quad = _replace(quad, {Layer.PIECE: Layer.SQUARE})
        else:
            quad = _replace(quad, {Layer.SQUARE: Layer.PIECE})
    return quad


def _replace(quad: Quad, change: Mapping[Layer, Layer]) -> Quad:
    first, second, third, fourth = (change.get(layer, layer) for layer in quad)
    return first, second, third, fourth
