"""Squares that are written: tokens two rows high, and the plain board without colours.

A letter stands in the middle cell of an odd width, the signs of marks on either side of it.
Every colour comes from the palette; the plain board takes none.
"""

from __future__ import annotations

from trainer.app.widgets.board.cells import Cell
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.signs import signs

HATCH = "░"
"""Fills the dark squares of a plain board."""


def token_cells(look: Look, size: Size, palette: Palette) -> list[Cell]:
    """The one row of a halved square whose piece is a letter on a token."""
    paper = palette.light if look.light else palette.dark
    label = palette.black if look.light else palette.white
    row = _with_signs(look, size, Cell(" ", label, paper), plain=False)
    if Mark.HELD in look.marks and not look.white:
        row = [Cell(c.text, palette.white, paper) if c.text in "▌▐" else c for c in row]
    if look.piece:
        sides = (palette.white, palette.black)
        ink, letter_ink = sides if look.white else reversed(sides)
        middle = size.width // 2
        row[middle - 1 : middle + 2] = token(look.letter, ink, letter_ink, paper)
    return row


def token(letter: str, ink: str, letter_ink: str, paper: str) -> list[Cell]:
    """Three cells: the letter on its token. Two signs take the left edge as well."""
    right = Cell("▌", ink, paper)
    if len(letter) > 1:
        return [*(Cell(sign, letter_ink, ink, bold=True) for sign in letter[:2]), right]
    return [Cell("▐", ink, paper), Cell(letter, letter_ink, ink, bold=True), right]


def plain_cells(look: Look, size: Size) -> list[list[Cell]]:
    """The cells of a square that needs no colour: reverse for White, a hatch for dark."""
    blank = Cell(" " if look.light else HATCH)
    row = _with_signs(look, size, blank, plain=True)
    rows = [[blank] * size.width for _ in range(size.height)]
    letter_row = (size.height - 1) // 2
    rows[letter_row] = row
    if look.piece:
        letter = look.letter if look.white else look.letter.lower()
        _put_chip(rows, letter_row, letter, size, reverse=look.white)
    if look.rank:
        rows[0][0] = Cell(look.rank)
    if look.file:
        rows[-1][-1] = Cell(look.file)
    return rows


def _put_chip(
    rows: list[list[Cell]], letter_row: int, letter: str, size: Size, reverse: bool
) -> None:
    """Write a letter with blanks round it, more of them where the square is large."""
    middle, reach = size.width // 2, _reach(size)
    beside = slice(middle - reach, middle + reach + 1)
    written = letter.rjust(reach + 1).ljust(2 * reach + 1)
    rows[letter_row][beside] = [Cell(sign, reverse=reverse) for sign in written]
    if size.height > 4:
        for y in (letter_row - 1, letter_row + 1):
            rows[y][beside] = [Cell(" ", reverse=reverse)] * len(written)


def _reach(size: Size) -> int:
    """Cells of a chip on either side of its letter."""
    return 1 if size.width < 9 else 2


def _with_signs(look: Look, size: Size, blank: Cell, plain: bool) -> list[Cell]:
    """The row of the letter, with what its marks write into it."""
    row = [blank] * size.width
    middle, beside = size.width // 2, _reach(size) + 1
    places = (middle - beside, middle, middle + beside)
    for x, sign in zip(places, signs(look, plain), strict=True):
        if sign:
            row[x] = Cell(sign, blank.ink, blank.paper)
    return row
