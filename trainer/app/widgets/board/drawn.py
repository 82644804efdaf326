"""Squares with silhouettes: pieces, marks and arrows laid over each other, cell by cell."""

from __future__ import annotations

from trainer.app.widgets.board.cells import FOOT, Cell, Layer, Quad, block
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark, sub_pixels
from trainer.app.widgets.board.pieces import silhouette

Grid = list[list[Layer]]

_BEHIND_HEADS = {Mark.HELD, Mark.CHOSEN}
"""Marks whose upper bar leaves the head of the piece free: without it a queen is a rook."""


def cells(look: Look, size: Size, palette: Palette) -> list[list[Cell]]:
    """The cells of a square, row by row."""
    paper = palette.light if look.light else palette.dark
    ink = _inks(look, paper, palette)
    grid, drawing = _grid(look, size), _drawing(look, size)
    signs = _signs(look, size, grid)
    label = palette.black if look.light else palette.white

    def cell(x: int, y: int) -> Cell:
        quad = _quad(grid, x, y)
        if (x, y) in signs:
            return Cell(signs[x, y], label, paper)
        if _stands_on_foot(drawing, quad, x, y):
            return Cell(FOOT, paper, ink[Layer.PIECE])
        text, top, bottom = block(quad)
        return Cell(text, ink[top], ink[bottom])

    return [[cell(x, y) for x in range(size.width)] for y in range(size.height)]


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
    return silhouette(look.piece.upper(), size.height) if look.piece else ()


def _grid(look: Look, size: Size) -> Grid:
    """The layer of every sub-pixel of the square."""
    grid = [[Layer.SQUARE] * (2 * size.width) for _ in range(2 * size.height)]
    drawing = _drawing(look, size)
    notes = set(look.stones)
    if Mark.NOTED in look.marks:
        notes |= sub_pixels(Mark.NOTED, size.width, size.height)
    for x, y in notes:
        grid[y][x] = Layer.NOTE
    for y, row in enumerate(drawing):
        for x, dot in enumerate(row):
            if dot != ".":
                grid[y][x] = Layer.PIECE
    for mark in look.marks - {Mark.NOTED}:
        for x, y in sub_pixels(mark, size.width, size.height):
            if mark not in _BEHIND_HEADS or y or not _head_at(drawing, x):
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


def _signs(look: Look, size: Size, grid: Grid) -> dict[tuple[int, int], str]:
    """The characters written into the square, by cell: coordinates give way to any mark."""
    right, foot = size.width - 1, size.height - 1
    signs = {(0, 0): look.rank, (right, foot): look.file}
    for x, y in list(signs):
        if Layer.MARK in _quad(grid, x, y):
            del signs[x, y]
    if look.note:
        signs[right, foot] = look.note
    if look.arrow:
        signs[right, 0] = look.arrow
    if Mark.CHECK in look.marks:
        signs[0, 0] = signs[right, 0] = "+"
    return {place: text for place, text in signs.items() if text}
