"""What is written for the marks of a square where there is no room to draw them.

There are three places: left of the piece, its own, right of it. Two marks share them, the
more urgent at the left. Nothing here knows colours or sizes.
"""

from __future__ import annotations

from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark

Signs = tuple[str, str, str]
"""Left of the piece, in its place, right of it; empty for nothing."""

WRONG = "×"
"""On either side, where it is drawn at the foot of the square."""

_AROUND = {
    Mark.HELD: ("▌", "▐"),
    Mark.CURSOR: (">", "<"),
    Mark.CHOSEN: ("{", "}"),
    Mark.WRONG: (WRONG, WRONG),
    Mark.CAPTURE: ("›", "‹"),
    Mark.CHECK: ("+", "+"),
    Mark.TO: ("[", "]"),
    Mark.FROM: ("(", ")"),
}
"""A pair that stands on either side; the first of these is the most urgent."""

_PLAIN_HELD = ("»", "«")

GOAL = "•"
ARRIVES = "›"
"""Left of the letter of an arrow that ends here."""


def signs(look: Look, plain: bool) -> Signs:
    """What the square of a letter board writes for its marks."""
    pairs = [_pair(mark, plain) for mark in _AROUND if mark in look.marks]
    letters = _letters(look)
    middle = GOAL if Mark.GOAL in look.marks and not look.piece else ""
    if len(pairs) > 1:
        return pairs[0][0], middle, pairs[1][1]
    if pairs:
        left, right = pairs[0]
        # A capture with an arrow's letter would be read as the end of the arrow alone.
        alike = left == ARRIVES and look.arrow
        return left, middle, right if alike else letters[1] or right
    return letters[0], middle, letters[1]


def _pair(mark: Mark, plain: bool) -> tuple[str, str]:
    return _PLAIN_HELD if plain and mark is Mark.HELD else _AROUND[mark]


def _letters(look: Look) -> tuple[str, str]:
    """The letters of notes: an arrow's at the right, a square's there or, small, at the left."""
    note = look.note.lower()
    if not look.arrow:
        return "", note
    # Where arrows of several letters end there is room to say how many letters alone.
    arrow = look.arrow if len(look.arrow) == 1 else str(len(look.arrow))
    arrives = ARRIVES if Mark.ARROW_TO in look.marks else ""
    return note or arrives, arrow
