"""Every mark has a shape of its own at every size, seen without its colour."""

from itertools import combinations

import pytest
from board_reading import PALETTE, sub_pixels_of, text_of

from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.painter import paint

DRAWN = [Size(6, 3), Size(8, 4), Size(10, 5)]
LETTERED = [Size(5, 2, Face.CHIPS), Size(7, 3, Face.CHIPS), Size(5, 3, Face.PLAIN)]
PIECES = ["", "K", "q", "R", "b", "N", "p"]


def look(mark, piece="", light=True):
    """A square with one mark, as the board would show it."""
    return Look(
        light=light,
        piece=piece,
        letter=piece.upper(),
        marks=frozenset({mark} if mark else ()),
        stones=frozenset({(5, 2), (6, 2)})
        if mark in (Mark.ARROW_TO, Mark.ARROW_FROM)
        else frozenset(),
        note="G" if mark is Mark.NOTED else "",
        arrow="G" if mark is Mark.ARROW_TO else "",
    )


def shape(painted):
    """What is told without colour: every inked sub-pixel alike, characters as they are."""
    return tuple(row.replace("B", "#").replace("W", "#").replace("n", "#") for row in painted)


@pytest.mark.parametrize("size", DRAWN, ids=str)
@pytest.mark.parametrize("light", [True, False])
def test_no_two_marks_share_a_shape_on_an_empty_square(size, light):
    shapes = {
        mark: shape(sub_pixels_of(paint(look(mark, light=light), size, PALETTE)))
        for mark in (None, *Mark)
    }
    for one, other in combinations(shapes, 2):
        if {one, other} != {Mark.ARROW_TO, Mark.ARROW_FROM}:
            assert shapes[one] != shapes[other], (one, other)


@pytest.mark.parametrize("size", DRAWN, ids=str)
@pytest.mark.parametrize("piece", PIECES[1:])
def test_no_two_marks_share_a_shape_round_a_piece(size, piece):
    # A mark has the colour that the piece has not: without the piece's own it is its shape.
    own = "W" if piece.isupper() else "B"
    marks = [mark for mark in Mark if mark not in (Mark.ARROW_TO, Mark.ARROW_FROM, Mark.GOAL)]
    shapes = {
        mark: tuple(
            row.replace(own, ".").replace("_", ".")
            for row in sub_pixels_of(paint(look(mark, piece), size, PALETTE))
        )
        for mark in (None, *marks)
    }
    assert len(set(shapes.values())) == len(shapes)


@pytest.mark.parametrize("size", LETTERED, ids=str)
@pytest.mark.parametrize("piece", PIECES)
def test_no_two_marks_share_their_signs_on_letter_boards(size, piece):
    marks = [mark for mark in Mark if mark is not Mark.ARROW_FROM]
    if piece:
        marks.remove(Mark.GOAL)
    texts = {
        mark: tuple(text_of(paint(look(mark, piece), size, PALETTE))) for mark in (None, *marks)
    }
    assert len(set(texts.values())) == len(texts)


def test_the_ends_of_an_arrow_are_told_apart_on_letter_boards():
    size = Size(5, 2, Face.CHIPS)
    tail = Look(light=True, marks=frozenset({Mark.ARROW_FROM}), arrow="G")
    head = Look(light=True, marks=frozenset({Mark.ARROW_TO}), arrow="G")
    assert text_of(paint(tail, size, PALETTE)) == ["    G"]
    assert text_of(paint(head, size, PALETTE)) == ["›   G"]


@pytest.mark.parametrize(
    ("piece", "ink"), [("N", "B"), ("n", "W"), ("", "W")], ids=["on White", "on Black", "alone"]
)
def test_a_mark_has_the_colour_that_the_piece_has_not(piece, ink):
    corner = sub_pixels_of(paint(look(Mark.TO, piece), Size(8, 4), PALETTE))[0][0]
    assert corner == ink


def test_marks_can_be_combined_and_the_more_urgent_has_the_place():
    size = Size(5, 2, Face.CHIPS)
    both = Look(light=True, piece="N", letter="N", marks=frozenset({Mark.TO, Mark.CURSOR}))
    assert text_of(paint(both, size, PALETTE)) == [">▐N▌<"]
    goal = Look(light=True, marks=frozenset({Mark.GOAL, Mark.CURSOR}))
    assert text_of(paint(goal, size, PALETTE)) == ["> • <"]
