"""Squares with letters: chips on coloured squares, and the plain board without colours.

A letter stands in the middle cell of a square that is 5 or 7 wide; the signs of marks stand
on either side of it. It takes every colour from the palette, and the plain board none.
"""

from __future__ import annotations

from trainer.app.widgets.board.cells import Cell
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import LETTER, Mark, signs

HATCH = "░"
"""Fills the dark squares of a plain board."""


def chip_cells(look: Look, size: Size, palette: Palette) -> list[list[Cell]]:
    """The cells of a square whose piece is a letter on a chip; one row if it is halved."""
    paper = palette.light if look.light else palette.dark
    label = palette.black if look.light else palette.white
    sides = (palette.white, palette.black)
    ink, letter_ink = sides if look.white else reversed(sides)
    blank = Cell(" ", label, paper)
    row = _with_signs(look, size, blank, plain=False)
    if Mark.HELD in look.marks and not look.white:
        row[0], row[-1] = (Cell(side.text, palette.white, paper) for side in (row[0], row[-1]))
    if look.piece:
        middle = size.width // 2
        row[middle - 1] = Cell("▐", ink, paper)
        row[middle] = Cell(look.letter, letter_ink, ink)
        row[middle + 1] = Cell("▌", ink, paper)
    return [row] if size.halved else _with_coordinates(look, size, row, blank)


def plain_cells(look: Look, size: Size) -> list[list[Cell]]:
    """The cells of a square that needs no colour: reverse for White, a hatch for dark."""
    blank = Cell(" " if look.light else HATCH)
    row = _with_signs(look, size, blank, plain=True)
    if look.piece:
        middle = size.width // 2
        letter = look.letter if look.white else look.letter.lower()
        for x, text in ((middle - 1, " "), (middle, letter), (middle + 1, " ")):
            row[x] = Cell(text, reverse=look.white)
    return _with_coordinates(look, size, row, blank)


def _with_signs(look: Look, size: Size, blank: Cell, plain: bool) -> list[Cell]:
    """The middle row of a square, its marks written into it."""
    row = [blank] * size.width
    middle = size.width // 2
    places = (middle - 2, middle, middle + 2)
    for mark in sorted(look.marks, key=lambda mark: -mark.value):
        for x, sign in zip(places, signs(mark, plain), strict=True):
            if sign:
                row[x] = Cell(
                    _letter(look, mark) if sign == LETTER else sign, blank.ink, blank.paper
                )
    return row


def _letter(look: Look, mark: Mark) -> str:
    return look.note.lower() if mark is Mark.NOTED else look.arrow


def _with_coordinates(look: Look, size: Size, row: list[Cell], blank: Cell) -> list[list[Cell]]:
    """The whole square round its middle row, with the coordinates that stand inside."""
    rows = [[blank] * size.width for _ in range(size.height)]
    rows[(size.height - 1) // 2] = row
    if look.rank:
        rows[0][0] = Cell(look.rank, blank.ink, blank.paper)
    if look.file:
        rows[-1][-1] = Cell(look.file, blank.ink, blank.paper)
    return rows
