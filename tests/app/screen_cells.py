"""The cells of a screen, read from Textual's own screenshot: sign, style and paper of each."""

from __future__ import annotations

import html
import re
from dataclasses import dataclass

from textual.app import App

CELL, ROW = 12.2, 24.4
"""The width and the height of a cell in a screenshot."""

_TEXT = re.compile(r'<text class="[^"]*?-(r\d+)" x="([\d.]+)" y="([\d.]+)"[^>]*>(.*?)</text>')
_PAPER = re.compile(r'<rect fill="([^"]+)" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"')
_STYLE = re.compile(r"\.[\w-]+?-(r\d+) \{ ?(.*?) ?\}")


@dataclass(frozen=True)
class Cell:
    """One cell."""

    sign: str = " "
    style: str = ""
    """Of the sign, as CSS: `fill: #c5c8c6;font-weight: bold`; empty where nothing stands."""
    paper: str = ""
    """The colour behind it; empty where the screenshot leaves it open."""


def read_cells(app: App[None]) -> list[list[Cell]]:
    """The rows of cells of an app's screen."""
    svg = app.export_screenshot()
    width, height = app.size
    styles = dict(_STYLE.findall(svg))
    signs = [[(" ", "")] * width for _ in range(height)]
    papers = [[""] * width for _ in range(height)]
    for name, x, y, text in _TEXT.findall(svg):
        for place, sign in enumerate(html.unescape(text).replace("\xa0", " ")):
            if sign != " ":
                signs[int(float(y) / ROW)][round(float(x) / CELL) + place] = sign, styles[name]
    for colour, x, y, length in _PAPER.findall(svg):
        row, start = int(float(y) / ROW + 0.5), round(float(x) / CELL)
        if row < height and start < width:
            end = min(width, start + round(float(length) / CELL))
            papers[row][start:end] = [colour] * (end - start)
    return [
        [Cell(*sign, paper) for sign, paper in zip(row, behind, strict=True)]
        for row, behind in zip(signs, papers, strict=True)
    ]
