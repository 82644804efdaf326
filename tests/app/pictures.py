"""A screen as text: its signs, and under each row which style and which background they have.

The last lines say what the letters mean.
"""

from __future__ import annotations

import os
import string
from pathlib import Path

from textual.app import App

from tests.app.screen_cells import read_cells

FOLDER = Path(__file__).parent / "pictures"
UPDATE = "TRAINER_UPDATE_PICTURES"
"""Set to anything, the tests write the pictures anew instead of comparing them."""


def picture(app: App[None]) -> str:
    """The screen of an app."""
    letters: dict[str, str] = {}
    rows: list[str] = []
    for row in read_cells(app):
        rows.append("| " + "".join(cell.sign for cell in row))
        rows.append(": " + "".join(_letter(letters, cell.style) for cell in row))
        rows.append(". " + "".join(_letter(letters, cell.paper) for cell in row))
    legend = [f"{letter} = {style}" for style, letter in letters.items()]
    return "\n".join([*(row.rstrip() for row in rows), *legend]) + "\n"


def check(app: App[None], name: str) -> None:
    """Compare a screen with the picture of this name."""
    path, now = FOLDER / f"{name}.txt", picture(app)
    if os.environ.get(UPDATE):
        FOLDER.mkdir(exist_ok=True)
        path.write_text(now, encoding="utf-8")
    then = path.read_text(encoding="utf-8")
    assert now == then, f"{name} looks otherwise; {UPDATE}=1 writes it anew: look at the change"


def _letter(letters: dict[str, str], style: str) -> str:
    """The letter of a style, a blank for none."""
    signs = string.ascii_letters + string.digits
    return letters.setdefault(style, signs[len(letters)]) if style else " "
