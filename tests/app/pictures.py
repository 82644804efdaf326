"""A screen as text: its signs, and under each row which style and which background they have.

The last lines say what the letters mean. Made from Textual's own screenshot, whose fonts and
frame are left out.
"""

from __future__ import annotations

import html
import os
import re
import string
from pathlib import Path

from textual.app import App

from tests.app.shelf import CELL, ROW

FOLDER = Path(__file__).parent / "pictures"
UPDATE = "TRAINER_UPDATE_PICTURES"
"""Set to anything, the tests write the pictures anew instead of comparing them."""

TEXT = re.compile(r'<text class="[^"]*?-(r\d+)" x="([\d.]+)" y="([\d.]+)"[^>]*>(.*?)</text>')
PAPER = re.compile(r'<rect fill="([^"]+)" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"')
STYLE = re.compile(r"\.[\w-]+?-(r\d+) \{ ?(.*?) ?\}")


def picture(app: App[None]) -> str:
    """The screen of an app."""
    svg = app.export_screenshot()
    width, height = app.size
    styles = dict(STYLE.findall(svg))
    signs, inks, papers = ([[" "] * width for _ in range(height)] for _ in range(3))
    letters: dict[str, str] = {}
    for name, x, y, text in TEXT.findall(svg):
        ink = _letter(letters, styles[name])
        for place, sign in enumerate(html.unescape(text).replace("\xa0", " ")):
            column = round(float(x) / CELL) + place
            if sign != " ":
                signs[int(float(y) / ROW)][column] = sign
                inks[int(float(y) / ROW)][column] = ink
    for colour, x, y, length in PAPER.findall(svg):
        row, start = int(float(y) / ROW + 0.5), round(float(x) / CELL)
        if row < height and start < width:
            end = min(width, start + round(float(length) / CELL))
            papers[row][start:end] = [_letter(letters, colour)] * (end - start)
    rows = [
        f"{mark} {''.join(row).rstrip()}".rstrip()
        for three in zip(signs, inks, papers, strict=True)
        for mark, row in zip("|:.", three, strict=True)
    ]
    legend = [f"{letter} = {style}" for style, letter in letters.items()]
    return "\n".join([*rows, *legend]) + "\n"


def check(app: App[None], name: str) -> None:
    """Compare a screen with the picture of this name."""
    path, now = FOLDER / f"{name}.txt", picture(app)
    if os.environ.get(UPDATE):
        FOLDER.mkdir(exist_ok=True)
        path.write_text(now, encoding="utf-8")
    then = path.read_text(encoding="utf-8")
    assert now == then, f"{name} looks otherwise; {UPDATE}=1 writes it anew: look at the change"


def _letter(letters: dict[str, str], style: str) -> str:
    signs = string.ascii_letters + string.digits
    return letters.setdefault(style, signs[len(letters)])
