"""Every mark has a shape of its own at every size and face, seen without its colour."""

from itertools import combinations

import pytest
from board_reading import PALETTE, sub_pixels_of, text_of

from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.painter import paint

DRAWN = [Size(6, 3), Size(6, 3, inside=True), Size(8, 4), Size(10, 5)]
CHIPS = [
    Size(5, 3, Face.CHIPS, inside=True),
    Size(5, 3, Face.CHIPS),
    Size(7, 3, Face.CHIPS),
    Size(9, 4, Face.CHIPS),
    Size(11, 5, Face.CHIPS),
]
WRITTEN = [
    Size(5, 2, Face.CHIPS),
    Size(5, 2, Face.PLAIN),
    Size(5, 3, Face.PLAIN, inside=True),
    Size(7, 3, Face.PLAIN),
    Size(9, 4, Face.PLAIN),
    Size(11, 5, Face.PLAIN),
]
PIECES = ["", "K", "q", "R", "b", "N", "p"]

ON_EMPTY = {Mark.GOAL}
"""Marks of empty squares only."""

COVERED = {
    *(frozenset({Mark.HELD, mark}) for mark in (Mark.CURSOR, Mark.CHOSEN, Mark.CAPTURE)),
    *(frozenset({Mark.HELD, mark}) for mark in (Mark.TO, Mark.FROM)),
    frozenset({Mark.CHOSEN, Mark.CAPTURE}),
    frozenset({Mark.TO, Mark.FROM}),
}
"""Pairs of which one covers the other. The frame is all round the square while a hand is on
it; the other pairs never meet: no square is chosen with a piece in hand, no move stays."""

NOT_WRITTEN = {
    frozenset({Mark.CAPTURE, Mark.ARROW_TO}),
    frozenset({Mark.CAPTURE, Mark.ARROW_FROM}),
    frozenset({Mark.ARROW_FROM, Mark.ARROW_TO}),
}
"""Pairs for which a square of letters has no room: the piece in hand comes first."""


def look(*marks, piece="", light=True):
    """A square with these marks, as the board would show it."""
    found = {mark for mark in marks if mark}
    return Look(
        light=light,
        piece=piece,
        letter=piece.upper(),
        marks=frozenset(found),
        stones=frozenset({(5, 2), (6, 2)} if found & {Mark.ARROW_TO, Mark.ARROW_FROM} else ()),
        note="G" if Mark.NOTED in found else "",
        arrow="G" if found & {Mark.ARROW_TO, Mark.ARROW_FROM} else "",
    )


def shape(looked, size):
    """What is told without colour: every inked sub-pixel alike, characters as they are."""
    painted = paint(looked, size, PALETTE)
    if not size.fine:
        return tuple(text_of(painted))
    rows = sub_pixels_of(painted)
    if looked.piece:
        # A mark has the colour that the piece has not: without the piece's own it is its shape.
        own = "W" if looked.white else "B"
        rows = [row.replace(own, ".").replace("_", ".") for row in rows]
    return tuple(row.replace("B", "#").replace("W", "#").replace("n", "#") for row in rows)


def marks_for(piece, size):
    """Every mark that such a square may have; an arrow is the same mark at either end."""
    marks = [mark for mark in Mark if not (piece and mark in ON_EMPTY)]
    return [mark for mark in marks if not (size.fine and mark is Mark.ARROW_FROM)]


@pytest.mark.parametrize("size", DRAWN + CHIPS + WRITTEN, ids=str)
@pytest.mark.parametrize("piece", PIECES)
@pytest.mark.parametrize("light", [True, False], ids=["light", "dark"])
def test_no_two_marks_share_a_shape(size, piece, light):
    shapes = {
        mark: shape(look(mark, piece=piece, light=light), size)
        for mark in (None, *marks_for(piece, size))
    }
    for one, other in combinations(shapes, 2):
        assert shapes[one] != shapes[other], (one, other)


@pytest.mark.parametrize("size", DRAWN + CHIPS + WRITTEN, ids=str)
@pytest.mark.parametrize("piece", PIECES)
def test_two_marks_on_a_square_are_not_taken_for_one(size, piece):
    left_out = COVERED if size.fine else NOT_WRITTEN
    single = {mark: shape(look(mark, piece=piece), size) for mark in marks_for(piece, size)}
    for pair in combinations(single, 2):
        if frozenset(pair) not in left_out:
            both = shape(look(*pair, piece=piece), size)
            assert both not in single.values(), pair


WRITTEN_PAIRS = [
    ("the cursor on the last move", look(Mark.TO, Mark.CURSOR, piece="N"), ">▐N▌]"),
    ("a king in check in hand", look(Mark.HELD, Mark.CHECK, piece="K"), "▌▐K▌+"),
    ("the cursor on a goal", look(Mark.GOAL, Mark.CURSOR), "> • <"),
    ("the cursor on a chosen square", look(Mark.CHOSEN, Mark.CURSOR), ">   }"),
    ("the last move where an arrow ends", look(Mark.TO, Mark.ARROW_TO, piece="N"), "[▐N▌G"),
    ("an arrow ends on a noted square", look(Mark.NOTED, Mark.ARROW_TO), "g   G"),
    ("an arrow begins", look(Mark.ARROW_FROM), "    G"),
    ("an arrow ends", look(Mark.ARROW_TO), "›   G"),
    ("a capture where an arrow ends", look(Mark.CAPTURE, Mark.ARROW_TO, piece="N"), "›▐N▌‹"),
]


@pytest.mark.parametrize(
    ("_name", "looked", "text"), WRITTEN_PAIRS, ids=[pair[0] for pair in WRITTEN_PAIRS]
)
def test_two_marks_share_the_places_of_a_token(_name, looked, text):
    # Worked by hand: the more urgent at the left, a letter at the right.
    assert text_of(paint(looked, Size(5, 2, Face.CHIPS), PALETTE)) == [text]


def test_arrows_of_several_letters_to_one_goal_show_each_or_say_how_many():
    goal = Look(light=True, marks=frozenset({Mark.ARROW_TO}), arrow="GRB")
    drawn = text_of(paint(goal, Size(8, 4), PALETTE))
    assert [row[-1] for row in drawn] == ["G", "R", "B", " "]
    assert text_of(paint(goal, Size(5, 2, Face.CHIPS), PALETTE)) == ["›   3"]


def test_all_four_letters_stand_beside_a_note_and_a_check():
    marks = frozenset({Mark.ARROW_TO, Mark.NOTED, Mark.CHECK})
    full = Look(light=True, piece="k", marks=marks, arrow="GRYB", note="Y")
    # Worked by hand: down the right edge between the sign of the check and the note's letter.
    rows = text_of(paint(full, Size(6, 3), PALETTE))
    assert [row[-1] for row in rows] == ["+", "G", "Y"]
    assert [row[-2] for row in rows] == ["R", "Y", "B"]


@pytest.mark.parametrize(
    ("piece", "ink"), [("N", "B"), ("n", "W"), ("", "W")], ids=["on White", "on Black", "alone"]
)
def test_a_mark_has_the_colour_that_the_piece_has_not(piece, ink):
    corner = sub_pixels_of(paint(look(Mark.TO, piece=piece), Size(8, 4), PALETTE))[0][0]
    assert corner == ink
