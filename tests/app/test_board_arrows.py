"""The arrows of a note: read, laid out in sub-pixels, turned with the board."""

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.app.widgets.board.arrows import Arrow, read_arrows, read_squares, stones
from trainer.app.widgets.board.geometry import Face, Size, place_of

SIZES = [
    Size(6, 3),
    Size(8, 4),
    Size(10, 5),
    Size(7, 3, Face.CHIPS),
    Size(9, 4, Face.CHIPS),
    Size(11, 5, Face.CHIPS),
]
SQUARES = st.sampled_from(chess.SQUARES)


def laid(text, size=SIZES[0], flipped=False, occupied=()):
    return stones(read_arrows([text]), size, flipped, occupied)


def rows(places, size=SIZES[0]):
    """A square as text, to compare with a drawing."""
    w, h = 2 * size.width, 2 * size.height
    return ["".join("#" if (x, y) in places else "." for x in range(w)) for y in range(h)]


def test_what_a_command_writes_is_read():
    assert read_arrows(("Gf1c4", "Rd1d8")) == (
        Arrow("G", chess.F1, chess.C4),
        Arrow("R", chess.D1, chess.D8),
    )
    assert read_squares(("Gd5", "Yh8")) == {chess.D5: "G", chess.H8: "Y"}


@pytest.mark.parametrize("text", ["", "Gf1", "Gf1f1", "Xf1c4", "Gf1c9", "gf1c4", "Gf1c4 ", "♘f1c4"])
def test_what_is_no_arrow_is_left_out(text):
    assert read_arrows((text,)) == ()


def test_a_wedge_points_along_the_file():
    # Worked by hand: the tip lies one unit beyond the middle of d4, and widens by one unit a row.
    assert rows(laid("Gd2d4")[chess.D4]) == [
        "............",
        "............",
        ".....##.....",
        "...######...",
        "............",
        ".....##.....",
    ]


def test_a_diagonal_has_a_right_angled_corner():
    # Worked by hand: the right angle of the stamp looks up and to the right, towards h5.
    assert rows(laid("Gd1g4")[chess.G4])[2:5] == ["...######...", ".....####...", ".......##..."]


def test_a_knights_arrow_takes_the_wedge_of_its_longer_leg():
    head = rows(laid("Gg1f3")[chess.F3])
    # Worked by hand: a tip of one unit above a row of three, as for a file.
    tip = next(y for y, row in enumerate(head) if "#" in row)
    assert head[tip].count("#") == 2
    assert head[tip + 1].count("#") == 6


@given(tail=SQUARES, head=SQUARES, size=st.sampled_from(SIZES), flipped=st.booleans())
def test_a_head_stops_short_of_an_occupied_square(tail, head, size, flipped):
    if tail == head:
        return
    lying = stones([Arrow("G", tail, head)], size, flipped, {tail, head})
    middle = {(x, y) for x in range(4, 2 * size.width - 4) for y in range(2, 2 * size.height - 2)}
    assert not lying.get(head, frozenset()) & middle
    assert any(lying.values())


@given(tail=SQUARES, head=SQUARES, size=st.sampled_from(SIZES))
def test_an_arrow_lies_on_its_way_only(tail, head, size):
    if tail == head:
        return
    (left, top), (right, bottom) = place_of(tail, False), place_of(head, False)
    columns, ranks = sorted((left, right)), sorted((top, bottom))
    for square in stones([Arrow("G", tail, head)], size, False, ()):
        column, row = place_of(square, False)
        # A head is wider than the line, and may reach into the next file or rank.
        assert columns[0] - 1 <= column <= columns[1] + 1
        assert ranks[0] - 1 <= row <= ranks[1] + 1


def test_two_arrows_to_one_goal_come_from_their_own_sides():
    lying = stones(read_arrows(["Gd2d4", "Rb4d4"]), SIZES[1], False, ())
    # Worked by hand: the heads stand before d4, in d3 and c4; a tip may touch its very edge.
    assert all(x == 0 or y == 7 for x, y in lying.get(chess.D4, ()))
    for square in (chess.D3, chess.C4):
        assert max(row.count("#") for row in rows(lying[square], SIZES[1])) >= 4


def test_arrows_that_follow_each_other_do_not_meet_in_the_middle():
    lying = stones(read_arrows(["Gd2d4", "Gd4d6"]), SIZES[1], False, ())
    assert chess.D4 not in lying
    assert "######" in "".join(rows(lying[chess.D6], SIZES[1]))


def test_flipping_turns_an_arrow():
    upright, turned = laid("Gd2d4"), laid("Gd2d4", flipped=True)
    assert upright.keys() == turned.keys()
    assert [row.count("#") for row in rows(upright[chess.D4])] == [0, 0, 2, 6, 0, 2]
    assert [row.count("#") for row in rows(turned[chess.D4])] == [0, 2, 0, 6, 2, 0]


def test_the_line_begins_outside_the_square_of_its_piece():
    assert chess.A2 not in laid("Ga2a7", occupied={chess.A2})
