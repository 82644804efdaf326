"""Paints one square as lines of styled text, for every size and face.

Pure: a look, a size and a palette in, segments out, kept for the next time. It knows no
widget and no position; what a square shows is settled before it is called.
"""

from __future__ import annotations

from functools import lru_cache

from rich.color import Color
from rich.segment import Segment
from rich.style import Style

from trainer.app.widgets.board import drawn, letters
from trainer.app.widgets.board.cells import Cell
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.look import Look

Line = tuple[Segment, ...]


@lru_cache(maxsize=4096)
def paint(look: Look, size: Size, palette: Palette) -> tuple[Line, ...]:
    """The lines that belong to a square alone, top to bottom."""
    if size.fine:
        rows = drawn.cells(look, size, palette)
    elif size.face is Face.PLAIN:
        rows = letters.plain_cells(look, size)
    else:
        rows = [letters.token_cells(look, size, palette)]
    return tuple(merge(row) for row in rows)


@lru_cache(maxsize=64)
def paint_seam(above: bool | None, below: bool | None, width: int, palette: Palette) -> Line:
    """The line of a halved board in which two squares meet.

    :param above: whether the upper square is light; None beyond the edge of the board.
    :param below: the same for the lower square.
    """
    upper, lower = (
        None if light is None else palette.light if light else palette.dark
        for light in (above, below)
    )
    if upper is None:
        return merge([Cell("▄", lower, None)] * width)
    return merge([Cell("▀", upper, lower)] * width)


def merge(cells: list[Cell]) -> Line:
    """One segment for each stretch of one style; a blank takes the style before it."""
    runs: list[tuple[str, Cell]] = []
    for cell in cells:
        if runs and runs[-1][1].covers(cell):
            runs[-1] = (runs[-1][0] + cell.text, runs[-1][1])
        else:
            runs.append((cell.text, cell))
    return tuple(Segment(text, style(cell)) for text, cell in runs)


def style(cell: Cell) -> Style:
    """The style of a cell."""
    return _style(cell.ink, cell.paper, cell.reverse, cell.bold)


@lru_cache(maxsize=512)
def _style(ink: str | None, paper: str | None, reverse: bool, bold: bool) -> Style:
    return Style.from_color(
        Color.parse(ink) if ink else None, Color.parse(paper) if paper else None
    ) + Style(reverse=reverse or None, bold=bold or None)
