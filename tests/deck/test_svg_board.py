"""Diagrams as SVG: squares, pieces, marks and their order."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.handout.pages import Diagram
from trainer.deck.handout.svg_board import EDGE, definitions, svg
from trainer.deck.handout.svg_pieces import DETAILS, OUTLINES, PIECE

FEN = "r3k3/8/8/3p4/8/5N2/4P3/4K2R w Kq - 0 1"


def diagram(side: str = "white", squares: str = "", arrows: str = "", fen: str = FEN) -> Diagram:
    return Diagram(fen, side, "After 1. e4", tuple(squares.split()), tuple(arrows.split()))


def drawn(one: Diagram) -> ElementTree.Element:
    """The parsed drawing: it must be well-formed XML too."""
    return ElementTree.fromstring(svg(one))


def pieces(one: Diagram) -> dict[str, str]:
    """By square, as the side sees it, the piece that is referred to."""
    found = {}
    for use in drawn(one).iter("use"):
        if "y" in use.attrib:
            column, row = (
                (int(use.attrib["x"]) - EDGE) // PIECE,
                (int(use.attrib["y"]) - 1) // PIECE,
            )
            if one.side == "black":
                column, row = 7 - column, 7 - row
            found[chess.square_name(chess.square(column, 7 - row))] = use.attrib["href"]
    return found


@given(st.lists(st.integers(0, 10_000), max_size=60), st.sampled_from(["white", "black"]))
def test_every_piece_stands_on_its_square(choices: list[int], side: str) -> None:
    board = chess.Board()
    for choice in choices:
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(moves[choice % len(moves)])
    expected = {
        chess.square_name(square): f"#{'w' if piece.color else 'b'}{piece.symbol().upper()}"
        for square, piece in board.piece_map().items()
    }
    assert pieces(diagram(side, fen=board.fen())) == expected


@pytest.mark.parametrize(
    ("side", "files", "ranks"),
    [("white", "abcdefgh", "87654321"), ("black", "hgfedcba", "12345678")],
)
def test_ranks_and_files_are_named_from_the_side_that_sees_it(
    side: str, files: str, ranks: str
) -> None:
    names = [text.text or "" for text in drawn(diagram(side)).iter("text")]
    assert "".join(names[::2]) == files
    assert "".join(names[1::2]) == ranks


def test_thirty_two_dark_squares_are_hatched_and_a1_is_one() -> None:
    (path,) = re.findall(r'id="hatch" class="hatch" d="([^"]*)"', definitions())
    strokes = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", path)
    middles = {
        (int((float(a) + float(c)) / 2 // PIECE), int(((float(b) + float(d)) / 2 - 1) // PIECE))
        for a, b, c, d in strokes
    }
    assert len(middles) == 32
    assert (0, 7) in middles
    assert all((column + row) % 2 for column, row in middles)


def test_the_hatching_stays_inside_its_squares() -> None:
    (path,) = re.findall(r'id="hatch" class="hatch" d="([^"]*)"', definitions())
    for stroke in re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", path):
        a, b, c, d = map(float, stroke)
        column, row = int((a + c) / 2 // PIECE), int(((b + d) / 2 - 1) // PIECE)
        assert all(column * PIECE <= x <= (column + 1) * PIECE for x in (a, c))
        assert all(row * PIECE <= y - 1 <= (row + 1) * PIECE for y in (b, d))


def test_each_piece_is_drawn_once_for_both_colours() -> None:
    ids = re.findall(r'id="(\w+)"', definitions())
    assert sorted(ids) == sorted(
        ["hatch", *(colour + kind for colour in "wb" for kind in "KQRBNP")]
    )
    assert set(OUTLINES) == set(DETAILS) == set("KQRBNP")
    assert len(set(OUTLINES.values())) == 6


@pytest.mark.parametrize("mark", ["Gd5", "Rd5", "Yd5", "Bd5"])
def test_a_marked_square_is_outlined_whatever_its_colour(mark: str) -> None:
    outline = next(
        one for one in drawn(diagram(squares=mark)).iter("rect") if one.get("class") == "square"
    )
    # d5 is the fourth file from the left and the fourth rank from above.
    assert (float(outline.attrib["x"]), float(outline.attrib["y"])) == (EDGE + 123, 124)


def test_the_four_colours_have_four_strokes() -> None:
    outlines = [
        one.get("stroke-dasharray")
        for mark in ("Gd5", "Rd5", "Yd5", "Bd5")
        for one in drawn(diagram(squares=mark)).iter("rect")
        if one.get("class") == "square"
    ]
    assert len(set(outlines)) == 4


def shaft(arrow: str, side: str = "white") -> list[float]:
    """Where the shaft of an arrow begins and where its point is, in squares from the left above."""
    paths = {
        path.get("class"): path.attrib["d"]
        for path in drawn(diagram(side, arrows=arrow)).iter("path")
    }
    begin = re.findall(r"[\d.]+", paths["arrow"])[:2]
    point = re.findall(r"[\d.]+", paths["head"])[:2]
    x, y, to_x, to_y = map(float, [*begin, *point])
    return [(x - EDGE) / PIECE, (y - 1) / PIECE, (to_x - EDGE) / PIECE, (to_y - 1) / PIECE]


def test_an_arrow_goes_from_its_square_to_its_goal() -> None:
    x, y, to_x, to_y = shaft("Ge2e4")
    assert (x, to_x) == pytest.approx((4.5, 4.5), abs=0.01)
    assert 6 < y < 6.5
    assert 4.5 < to_y < 5
    x, y, to_x, to_y = shaft("Ge2e4", "black")
    assert (x, to_x) == pytest.approx((3.5, 3.5), abs=0.01)
    assert y < 2 < to_y < 3.5


def test_an_arrow_stops_short_of_a_piece() -> None:
    to_empty, to_piece = shaft("Gd1d4")[3], shaft("Gd1d5")[3]
    assert to_empty == pytest.approx(4.6, abs=0.01)
    assert to_piece == pytest.approx(3.5 + 17 / PIECE, abs=0.01)


def test_arrows_lie_over_squares_and_under_pieces() -> None:
    text = svg(diagram(squares="Gd5", arrows="Ge2e4"))
    assert text.index("#hatch") < text.index('"square"') < text.index('"arrow"')
    assert text.index('"arrow"') < text.index('"#wK"')


def test_an_arrow_that_goes_nowhere_is_left_out() -> None:
    assert 'class="arrow"' not in svg(diagram(arrows="Ge2e2"))


def test_the_label_reads_the_position_out() -> None:
    label = drawn(diagram()).attrib["aria-label"]
    assert label == (
        "After 1. e4 White to move. White: king e1, rook h1, knight f3, pawn e2. "
        "Black: king e8, rook a8, pawn d5."
    )


def test_a_diagram_asks_for_nothing_from_outside() -> None:
    text = definitions() + svg(diagram(squares="Gd5", arrows="Ge2e4"))
    assert not re.search(r"https?:|url\(|<image|<script|<style", text)
    assert set(re.findall(r'href="(.)', text)) == {"#"}
