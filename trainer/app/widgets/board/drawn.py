"""Squares in sub-pixels: pieces, marks and arrows laid over each other, cell by cell.

A piece is a silhouette, or a chip with the reader's letter on it.
"""

from __future__ import annotations

from trainer.app.widgets.board.cells import FOOT, Cell, Layer, Quad, block
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark, sub_pixels
from trainer.app.widgets.board.pieces import chip, silhouette
from trainer.app.widgets.board.signs import WRONG

Grid = list[list[Layer]]
Place = tuple[int, int]
"""Column and row of a cell in its square."""

_BEHIND_HEADS = {Mark.HELD, Mark.CHOSEN}
"""Marks whose upper bar leaves the head of the piece free: without it a queen is a rook."""


def cells(look: Look, size: Size, palette: Palette) -> list[list[Cell]]:
    """The cells of a square, row by row."""
    paper = palette.light if look.light else palette.dark
    ink = _inks(look, paper, palette)
    drawing = _drawing(look, size)
    grid = _grid(look, size, drawing)
    label = palette.black if look.light else palette.white
    signs = {
        place: Cell(text, label, paper) for place, text in _signs(look, size, grid).items()
    } | _letter(look, size, ink)

    def cell(x: int, y: int) -> Cell:
        quad = _quad(grid, x, y)
        if (x, y) in signs:
            return signs[x, y]
        if _stands_on_foot(drawing, quad, x, y):
            return Cell(FOOT, paper, ink[Layer.PIECE])
        text, top, bottom = block(quad)
        return Cell(text, ink[top], ink[bottom])

    return [[cell(x, y) for x in range(size.width)] for y in range(size.rows)]


def _inks(look: Look, paper: str, palette: Palette) -> dict[Layer, str]:
    """The colour of each layer: a mark has the colour that the piece has not."""
    on_white = bool(look.piece) and look.white
    return {
        Layer.SQUARE: paper,
        Layer.NOTE: palette.note,
        Layer.PIECE: palette.white if on_white else palette.black,
        Layer.MARK: palette.black if on_white else palette.white,
    }


def _drawing(look: Look, size: Size) -> tuple[str, ...]:
    if not look.piece:
        return ()
    if size.face is Face.CHIPS:
        return chip(size.width, size.rows)
    return silhouette(look.piece.upper(), size.height)


def _grid(look: Look, size: Size, drawing: tuple[str, ...]) -> Grid:
    """The layer of every sub-pixel of the square."""
    grid = [[Layer.SQUARE] * (2 * size.width) for _ in range(2 * size.rows)]
    # The half rows above and below a halved square are not its own: what lies there is lost.
    notes = {(x, y - size.halved) for x, y in look.stones}
    if Mark.NOTED in look.marks:
        notes |= sub_pixels(Mark.NOTED, size.width, size.rows)
    for x, y in notes:
        if 0 <= y < len(grid):
            grid[y][x] = Layer.NOTE
    for y, row in enumerate(drawing):
        for x, dot in enumerate(row):
            if dot != ".":
                grid[y][x] = Layer.PIECE
    for mark in look.marks - {Mark.NOTED}:
        behind = mark in _BEHIND_HEADS and size.face is Face.DRAWN
        for x, y in sub_pixels(mark, size.width, size.rows):
            if not behind or y or not _head_at(drawing, x):
                grid[y][x] = Layer.MARK
    return grid


def _head_at(drawing: tuple[str, ...], x: int) -> bool:
    """Whether a bar along the upper edge would spoil the head of the piece in its cell."""
    if not drawing or not 1 < x < len(drawing[0]) - 2:
        return False
    upper, lower = (row[x & ~1 : (x & ~1) + 2] for row in drawing[:2])
    return "#" in upper or lower in {".#", "#."}


def _quad(grid: Grid, x: int, y: int) -> Quad:
    upper, lower = grid[2 * y], grid[2 * y + 1]
    return upper[2 * x], upper[2 * x + 1], lower[2 * x], lower[2 * x + 1]


def _stands_on_foot(drawing: tuple[str, ...], quad: Quad, x: int, y: int) -> bool:
    """Whether the cell is full of the piece and its last quarter is to stay free."""
    full = all(layer is Layer.PIECE for layer in quad)
    return full and drawing[2 * y + 1][2 * x : 2 * x + 2] == "__"


def _letter(look: Look, size: Size, ink: dict[Layer, str]) -> dict[Place, Cell]:
    """The reader's letter on its chip; the second of two signs stands right of the middle."""
    if not look.piece or size.face is not Face.CHIPS:
        return {}
    x, y = size.width // 2 - (len(look.letter) - 1), size.rows // 2
    return {
        (x + place, y): Cell(sign, ink[Layer.MARK], ink[Layer.PIECE], bold=True)
        for place, sign in enumerate(look.letter)
    }


def _signs(look: Look, size: Size, grid: Grid) -> dict[Place, str]:
    """The characters written into the square, by cell: coordinates give way to any mark."""
    right, foot = size.width - 1, size.rows - 1
    signs = {(0, 0): look.rank, (right, foot): look.file}
    for x, y in list(signs):
        if Layer.MARK in _quad(grid, x, y):
            del signs[x, y]
    signs = {place: text for place, text in signs.items() if text}
    if Mark.CHECK in look.marks:
        signs[0, 0] = signs[right, 0] = "+"
    if Mark.WRONG in look.marks:
        signs[0, foot] = signs[right, foot] = WRONG
    if look.note:
        signs[right, foot] = look.note
    # Down the right edge first: pieces are slim there.
    free = [(x, y) for x in (right, right - 1) for y in range(size.rows) if (x, y) not in signs]
    return signs | dict(zip(free, look.arrow, strict=False))
