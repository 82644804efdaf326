"""How squares are painted: silhouettes, letters, the half row, what gives way in a full cell."""

import pytest
from board_reading import PALETTE, sub_pixels_of, text_of

from trainer.app.widgets.board.cells import Layer, block
from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.look import Look
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.painter import paint, paint_seam
from trainer.app.widgets.board.pieces import ORDER, silhouette

S, N, P, M = Layer.SQUARE, Layer.NOTE, Layer.PIECE, Layer.MARK
SMALL = Size(6, 3)
ALL = [
    SMALL,
    Size(8, 4),
    Size(10, 5),
    Size(5, 2, Face.CHIPS),
    Size(5, 3, Face.CHIPS, inside=True),
    Size(7, 3, Face.CHIPS),
    Size(9, 4, Face.CHIPS),
    Size(11, 5, Face.CHIPS),
    Size(9, 4, Face.PLAIN),
    Size(5, 3, Face.PLAIN, inside=True),
    Size(5, 2, Face.PLAIN),
]


def test_a_white_knight():
    # Source: the silhouette in pieces.py, whose last row stands on a free quarter.
    assert sub_pixels_of(paint(Look(light=False, piece="N"), SMALL, PALETTE)) == [
        "....WW......",
        "...WWWWWW...",
        ".WWW.WWWWW..",
        ".WW..WWWWW..",
        "..WWWWWWWW..",
        "..________..",
    ]


def test_a_piece_in_hand_has_a_frame_that_leaves_its_head_free():
    look = Look(light=True, piece="q", marks=frozenset({Mark.HELD}))
    assert sub_pixels_of(paint(look, SMALL, PALETTE)) == [
        "WW...BB...WW",
        "WB.B.BB.B.BW",
        "W.BBBBBBBB.W",
        "W..BBBBBB..W",
        "W.BBBBBBBB.W",
        "WWWWWWWWWWWW",
    ]


def test_arrows_lie_under_pieces():
    line = frozenset((x, y) for x in range(12) for y in (2, 5))
    rows = sub_pixels_of(paint(Look(light=True, piece="p", stones=line), SMALL, PALETTE))
    # Worked by hand: where pawn, arrow and square would meet in one cell, the arrow goes.
    assert rows[2:] == ["nnnnBBBBnnnn", ".....BB.....", "...BBBBBB...", "nn..nnnn..nn"]


@pytest.mark.parametrize(
    ("_name", "look", "text"),
    [
        ("White", Look(light=True, piece="N", letter="N"), " ▐N▌ "),
        ("Black, reader's letter", Look(light=False, piece="n", letter="S"), " ▐S▌ "),
        ("a king of two signs", Look(light=True, piece="K", letter="Кр"), " Кр▌ "),
        ("empty", Look(light=False), "     "),
    ],
    ids=["White", "Black", "two signs", "empty"],
)
def test_chips(_name, look, text):
    assert text_of(paint(look, Size(5, 2, Face.CHIPS), PALETTE)) == [text]


def test_a_chip_has_the_colour_of_its_piece_and_the_letter_the_other():
    line = paint(Look(light=True, piece="n", letter="N"), Size(5, 2, Face.CHIPS), PALETTE)[0]
    letter = next(segment for segment in line if "N" in segment.text)
    assert (letter.style.color.name, letter.style.bgcolor.name) == (PALETTE.white, PALETTE.black)


@pytest.mark.parametrize(
    ("size", "row"), [(Size(7, 3, Face.CHIPS), 1), (Size(9, 4, Face.CHIPS), 1)], ids=str
)
def test_a_larger_chip_has_its_letter_in_the_middle(size, row):
    lines = paint(Look(light=True, piece="n", letter="S"), size, PALETTE)
    text = text_of(lines)
    assert text[row].index("S") == size.width // 2
    assert len(text) == 2 * row + 1
    letter = next(segment for segment in lines[row] if "S" in segment.text)
    assert (letter.style.color.name, letter.style.bgcolor.name) == (PALETTE.white, PALETTE.black)
    assert letter.style.bold


def test_arrows_on_a_halved_square_leave_its_shared_rows_alone():
    stones = frozenset((x, y) for x in (8, 9) for y in range(8))
    rows = sub_pixels_of(paint(Look(light=True, stones=stones), Size(9, 4, Face.CHIPS), PALETTE))
    assert rows == ["........nn........"] * 6


def test_squares_of_two_rows_meet_in_a_seam():
    line = paint_seam(True, False, 5, PALETTE)
    assert text_of((line,)) == ["▀▀▀▀▀"]
    assert line[0].style.color.name == PALETTE.light
    assert line[0].style.bgcolor.name == PALETTE.dark


@pytest.mark.parametrize(("above", "below", "text"), [(None, True, "▄▄▄"), (True, None, "▀▀▀")])
def test_half_a_row_of_the_desk_lies_above_and_below_the_board(above, below, text):
    line = paint_seam(above, below, 3, PALETTE)
    assert text_of((line,)) == [text]
    assert line[0].style.color.name == PALETTE.light
    assert line[0].style.bgcolor is None


PLAIN = [
    ("a white piece on a dark square", Look(light=False, piece="N", letter="N"), "░ N ░", True),
    ("a black piece on a light one", Look(light=True, piece="n", letter="N"), "  n  ", False),
    ("a black piece on a dark one", Look(light=False, piece="n", letter="N"), "░ n ░", False),
    ("a king of two signs", Look(light=False, piece="k", letter="Кр"), "░кр ░", False),
]


@pytest.mark.parametrize(("_name", "look", "middle", "reverse"), PLAIN, ids=[p[0] for p in PLAIN])
def test_the_plain_board_needs_no_colour(_name, look, middle, reverse):
    lines = paint(look, Size(5, 3, Face.PLAIN), PALETTE)
    edge = "     " if look.light else "░░░░░"
    assert text_of(lines) == [edge, middle, edge]
    styles = [segment.style for line in lines for segment in line]
    assert all(style.color is None and style.bgcolor is None for style in styles)
    assert any(style.reverse for style in styles) is reverse


def test_a_large_plain_square_has_a_large_chip():
    lines = paint(Look(light=False, piece="N", letter="N"), Size(11, 5, Face.PLAIN), PALETTE)
    assert text_of(lines) == ["░" * 11, "░░░     ░░░", "░░░  N  ░░░", "░░░     ░░░", "░" * 11]
    reverse = [segment.text for line in lines for segment in line if segment.style.reverse]
    assert reverse == ["     ", "  N  ", "     "]


def test_coordinates_inside_stand_in_two_corners_and_give_way_to_marks():
    look = Look(light=True, piece="R", rank="1", file="a")
    text = text_of(paint(look, SMALL, PALETTE))
    assert (text[0][0], text[-1][-1]) == ("1", "a")
    ticked = Look(light=True, piece="R", rank="1", file="a", marks=frozenset({Mark.TO}))
    text = text_of(paint(ticked, SMALL, PALETTE))
    assert (text[0][0], text[-1][-1]) == ("▛", "▟")


@pytest.mark.parametrize("size", ALL, ids=str)
@pytest.mark.parametrize("piece", ["", *ORDER])
def test_every_line_fills_its_square(size, piece):
    for marks in [frozenset(), *(frozenset({mark}) for mark in Mark), frozenset(Mark)]:
        look = Look(light=True, piece=piece, letter=piece, marks=marks, note="G", arrow="B")
        lines = paint(look, size, PALETTE)
        assert len(lines) == size.rows
        assert {len(text) for text in text_of(lines)} == {size.width}


@pytest.mark.parametrize("height", [3, 4, 5])
def test_silhouettes_are_whole_and_all_different(height):
    drawings = [silhouette(kind, height) for kind in ORDER]
    assert len(set(drawings)) == 6
    for rows in drawings:
        assert len(rows) == 2 * height
        assert {len(row) for row in rows} == {4 * height}
        # A piece that filled the lowest row would touch the cross of a king below it.
        assert "#" not in rows[-1]


@pytest.mark.parametrize("height", [3, 4, 5])
@pytest.mark.parametrize("kind", "KQRP")
def test_what_is_even_in_wood_is_even_here(kind, height):
    assert all(row == row[::-1] for row in silhouette(kind, height))


BLOCKS = [
    ("all square", (S, S, S, S), (" ", S, S)),
    ("all piece", (P, P, P, P), ("█", P, S)),
    ("upper half", (P, P, S, S), ("▀", P, S)),
    ("piece and mark", (M, P, M, P), ("▌", M, P)),
    ("an arrow gives way to a piece", (N, N, P, S), ("▖", P, S)),
    ("an arrow gives way to a mark and a piece", (N, M, P, P), ("▝", M, P)),
    ("the lesser part of the square gives way", (M, P, P, S), ("▘", M, P)),
    ("at a tie the piece gives way", (M, M, P, S), ("▀", M, S)),
]


@pytest.mark.parametrize(("_name", "quad", "expected"), BLOCKS, ids=[b[0] for b in BLOCKS])
def test_a_cell_has_two_colours(_name, quad, expected):
    # Worked by hand.
    assert block(quad) == expected
