"""The README's pictures, made from the demo's home: `python -m demo.make_pictures`.

Plays a little on the real screens and paints their cells: block elements as rectangles, so
that no font tears the pieces, everything else in a monospaced font of this machine.
"""

from __future__ import annotations

import asyncio
import os
import re
import sys
from collections.abc import Sequence
from pathlib import Path

os.environ |= {"COLORTERM": "truecolor", "TRAINER_NOW": "2026-12-03T18:00:00+01:00"}

from PIL import Image, ImageDraw, ImageFont

from tests.app.screen_cells import Cell, read_cells
from trainer.app.app import TrainerApp
from trainer.service.demo import open_demo
from trainer.service.first_minute import note_introduced

FOLDER = Path(__file__).parent / "pictures"
WIDTH, HEIGHT = 10, 20
"""Pixels of a cell."""
FONTS = ("FiraCode-{}.ttf", "DejaVuSansMono-{}.ttf", "DejaVuSansMono.ttf", "Menlo.ttc")
PAPER = "#121212"

LINE = "e4 e5 Nc3 Nf6 f4 d5 fxe5 Nxe4"
PICTURES: dict[str, tuple[tuple[int, int], str, Sequence[str]]] = {
    "today": ((120, 40), "textual-dark", ()),
    "why": ((120, 40), "textual-dark", ["enter", *"Nc3", "enter"]),
    "mistake": ((80, 24), "nord", ["enter", *"Qh5", "enter"]),
    "lines": (
        (120, 40),
        "textual-light",
        ["l", "slash", *("space" if sign == " " else sign for sign in LINE), "enter", "escape"],
    ),
}
"""By name: the size of the terminal, the theme, and what is pressed."""

_EIGHTHS = "▁▂▃▄▅▆▇█"
_QUADRANTS = {
    "▀": "ab",
    "▄": "cd",
    "▌": "ac",
    "▐": "bd",
    "▘": "a",
    "▝": "b",
    "▖": "c",
    "▗": "d",
    "▚": "ad",
    "▞": "bc",
    "▛": "abc",
    "▜": "abd",
    "▙": "acd",
    "▟": "bcd",
}
"""Which quarters are full: a b above, c d below."""
_LINES = {"─": "lr", "━": "lr", "│": "tb", "├": "tbr", "└": "tr"}
"""Which arms a line sign has: left, right, top, bottom."""

Box = tuple[float, float, float, float]


def boxes(sign: str) -> list[Box]:
    """The full parts of a block or line sign as left, top, right, bottom in parts of a cell."""
    if sign in _EIGHTHS:
        return [(0, 1 - (_EIGHTHS.index(sign) + 1) / 8, 1, 1)]
    quarters = {"a": (0, 0), "b": (0.5, 0), "c": (0, 0.5), "d": (0.5, 0.5)}
    found = [quarters[part] for part in _QUADRANTS.get(sign, "")]
    thick = 0.1 if sign == "━" else 0.05
    across, down = thick, thick / 2  # a cell is about twice as high as wide
    arms = {
        "l": (0, 0.5 - down, 0.5 + across, 0.5 + down),
        "r": (0.5 - across, 0.5 - down, 1, 0.5 + down),
        "t": (0.5 - across, 0, 0.5 + across, 0.5 + down),
        "b": (0.5 - across, 0.5 - down, 0.5 + across, 1),
    }
    return [(x, y, x + 0.5, y + 0.5) for x, y in found] + [arms[a] for a in _LINES.get(sign, "")]


def paint(rows: Sequence[Sequence[Cell]]) -> Image.Image:
    """The picture of a screen."""
    image = Image.new("RGB", (len(rows[0]) * WIDTH, len(rows) * HEIGHT), PAPER)
    draw = ImageDraw.Draw(image)
    plain, bold = _font("Regular"), _font("Bold")
    for y, row in enumerate(rows):
        for x, cell in enumerate(row):
            left, top = x * WIDTH, y * HEIGHT
            if cell.paper:
                edge = (left + WIDTH - 1, top + HEIGHT - 1)
                draw.rectangle((left, top, *edge), fill=cell.paper)
        for x, cell in enumerate(row):
            _draw_sign(draw, x * WIDTH, y * HEIGHT, cell, bold if "bold" in cell.style else plain)
    return image


def _draw_sign(
    draw: ImageDraw.ImageDraw, left: int, top: int, cell: Cell, font: ImageFont.FreeTypeFont
) -> None:
    ink = re.search(r"fill: ?(#[0-9a-fA-F]{6})", cell.style)
    if cell.sign == " " or ink is None:
        return
    parts = boxes(cell.sign)
    for a, b, c, d in parts:
        x, y = left + round(a * WIDTH), top + round(b * HEIGHT)
        right, bottom = left + round(c * WIDTH) - 1, top + round(d * HEIGHT) - 1
        draw.rectangle((x, y, max(x, right), max(y, bottom)), ink[1])
    if not parts:
        draw.text((left, top + HEIGHT * 0.78), cell.sign, ink[1], font, anchor="ls")
    if "line-through" in cell.style:
        draw.line((left, top + HEIGHT // 2, left + WIDTH, top + HEIGHT // 2), ink[1])


def _font(weight: str) -> ImageFont.FreeTypeFont:
    """A monospaced font whose letters are as wide as a cell."""
    for name in FONTS:
        try:
            found = ImageFont.truetype(name.format(weight), 100)
        except OSError:
            continue
        return ImageFont.truetype(name.format(weight), 100 * WIDTH / found.getlength("M"))
    raise SystemExit(f"none of these fonts is installed: {', '.join(FONTS)}")


async def _picture(size: tuple[int, int], theme: str, keys: Sequence[str]) -> Image.Image:
    with open_demo() as study:
        note_introduced(study)
        app = TrainerApp(study)
        app.animation_level = "none"
        async with app.run_test(size=size) as pilot:
            app.theme = theme
            await pilot.pause()
            for key in keys:
                await pilot.press(key)
            await pilot.pause(1.2)  # a wrong try stays on the board for a second
            return paint(read_cells(app))


def main() -> None:
    """Make the pictures named on the command line, or all of them."""
    FOLDER.mkdir(exist_ok=True)
    for name in sys.argv[1:] or PICTURES:
        asyncio.run(_picture(*PICTURES[name])).save(FOLDER / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main()
