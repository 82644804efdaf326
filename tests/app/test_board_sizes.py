"""Which squares a terminal has room for, and the way from a cell to a square and back."""

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.app.widgets.board.geometry import (
    Face,
    Size,
    choose_size,
    place_of,
    rows_of,
    square_under,
)

# Source: the table of sizes that the screens are laid out for.
TABLE = [
    ("a wide terminal", (160, 50), Size(10, 5), (83, 41)),
    ("the least for 10x5", (124, 44), Size(10, 5), (83, 41)),
    ("one row short of it", (124, 43), Size(8, 4), (67, 33)),
    ("120x40", (120, 40), Size(8, 4), (67, 33)),
    ("one column short of 8x4", (99, 40), Size(6, 3), (51, 25)),
    ("100x30", (100, 30), Size(6, 3), (51, 25)),
    ("the usual 80x24", (80, 24), Size(6, 3, inside=True), (48, 24)),
    ("wide but low", (200, 24), Size(6, 3, inside=True), (48, 24)),
    ("a status line below", (80, 23), Size(5, 2, Face.CHIPS), (43, 18)),
    ("the smallest", (73, 20), Size(5, 2, Face.CHIPS), (43, 18)),
]

SIZES = [size for _, _, size, _ in TABLE] + [
    Size(9, 4, Face.CHIPS),
    Size(11, 5, Face.PLAIN),
    Size(7, 3, Face.PLAIN),
    Size(5, 3, Face.PLAIN, inside=True),
    Size(5, 2, Face.PLAIN),
]


@pytest.mark.parametrize(("_name", "terminal", "size", "room"), TABLE, ids=[t[0] for t in TABLE])
def test_a_terminal_gets_the_largest_squares_it_has_room_for(_name, terminal, size, room):
    assert choose_size(*terminal) == size
    assert (size.board_width, size.board_height) == room


@pytest.mark.parametrize("terminal", [(72, 20), (73, 19), (72, 50), (300, 10)])
def test_a_small_terminal_gets_no_board(terminal):
    assert choose_size(*terminal) is None
    assert choose_size(*terminal, face=Face.PLAIN) is None


@pytest.mark.parametrize("face", list(Face))
@given(width=st.integers(1, 250), height=st.integers(1, 80))
def test_the_board_leaves_room_for_the_desk(face, width, height):
    size = choose_size(width, height, face=face)
    if size:
        assert size.board_height <= height
        assert width - size.board_width >= 30


@pytest.mark.parametrize(
    ("terminal", "cells"),
    [
        ((160, 50), (11, 5)),
        ((120, 40), (9, 4)),
        ((100, 30), (7, 3)),
        ((84, 27), (5, 3)),
        ((80, 24), (5, 3)),
        ((76, 21), (5, 2)),
    ],
)
@pytest.mark.parametrize("face", [Face.CHIPS, Face.PLAIN])
def test_letters_have_a_middle_cell(terminal, cells, face):
    size = choose_size(*terminal, face=face)
    assert size is not None
    assert (size.width, size.height) == cells
    assert size.width % 2 == 1


def test_a_setting_can_only_make_the_squares_smaller():
    assert choose_size(160, 50, tallest=3) == Size(6, 3)
    assert choose_size(80, 24, tallest=5) == Size(6, 3, inside=True)
    assert choose_size(160, 50, tallest=2) == Size(5, 2, Face.CHIPS)
    assert choose_size(160, 50, face=Face.CHIPS, tallest=4) == Size(9, 4, Face.CHIPS)


@given(square=st.sampled_from(chess.SQUARES), flipped=st.booleans(), size=st.sampled_from(SIZES))
def test_every_cell_of_a_square_belongs_to_it(square, flipped, size):
    column, row = place_of(square, flipped)
    for y in rows_of(row, size):
        for x in range(size.width):
            under = square_under(size.margin + column * size.width + x, y, size, flipped)
            assert under == square


@pytest.mark.parametrize(
    ("_name", "x", "y", "size"),
    [
        ("rank digits", 2, 5, Size(6, 3)),
        ("file letters", 10, 24, Size(6, 3)),
        ("right of the board", 48, 5, Size(6, 3, inside=True)),
        ("above", 10, -1, Size(6, 3)),
    ],
)
def test_no_square_lies_beside_the_board(_name, x, y, size):
    assert square_under(x, y, size, flipped=False) is None


def test_flipping_turns_the_board_round():
    # Worked by hand: Black at the bottom has h1 at the top left and a8 at the bottom right.
    assert place_of(chess.H1, flipped=True) == (0, 0)
    assert place_of(chess.A8, flipped=True) == (7, 7)
    assert place_of(chess.A8, flipped=False) == (0, 0)
