"""Reads painted segments back into sub-pixels and text, so that tests see what a reader sees."""

from trainer.app.widgets.board.cells import FOOT
from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.painter import Line

PALETTE = Palette("#555555", "#888888", "#fdfdfd", "#0a0a0a", "#ffdd99")
"""Five colours that are told apart at a glance."""

SIGNS = {"#555555": ".", "#888888": ".", "#fdfdfd": "W", "#0a0a0a": "B", "#ffdd99": "n"}
"""How a sub-pixel of each colour is written."""

_BLOCKS = " ▗▖▄▝▐▞▟▘▚▌▙▀▜▛█"


def text_of(lines: tuple[Line, ...]) -> list[str]:
    """The characters alone, a line each."""
    return ["".join(segment.text for segment in line) for line in lines]


def sub_pixels_of(lines: tuple[Line, ...]) -> list[str]:
    """Two rows for each line: `W` and `B` for white and black, `n` a note, `.` the square.

    A written character stands for itself in all four places; below a foot there is nothing,
    and it is written `_`.
    """
    rows = []
    for line in lines:
        upper, lower = "", ""
        for segment in line:
            ink, paper = (SIGNS[str(c.name)] for c in (segment.style.color, segment.style.bgcolor))
            for character in segment.text:
                quad = _quad(character, ink, paper)
                upper, lower = upper + quad[:2], lower + quad[2:]
        rows += [upper, lower]
    return rows


def _quad(character: str, ink: str, paper: str) -> str:
    if character == FOOT:
        return 2 * paper + "__"
    if character not in _BLOCKS:
        return 4 * character
    filled = _BLOCKS.index(character)
    return "".join(ink if filled & bit else paper for bit in (8, 4, 2, 1))
