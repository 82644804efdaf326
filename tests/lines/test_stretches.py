"""The tree of stretches: where it branches and joins, and how one walks in it."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from itertools import pairwise

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.lines.test_graph_any import FORESTS, SIDES
from tests.trees import graph, key
from trainer.lines.graph import BookMove, BookPosition, LineGraph, Place, Standing
from trainer.lines.graph_builder import build_graph
from trainer.lines.movetext import read_movetext
from trainer.lines.position import START_KEY
from trainer.lines.stretches import Spot, StretchTree, grow
from trainer.lines.tree import GameTree


def everything(_: BookPosition) -> bool:
    return True


def rows(tree: StretchTree) -> list[str]:
    """A row a stretch: dots for its depth, its moves, the line of the place that it joins."""
    found = []
    for stretch in tree.stretches:
        moves = " ".join(move.san for move in stretch.moves)
        joined = "" if stretch.join is None else f" = {tree.line(tree.spot(stretch.join))}"
        found.append(f"{'.' * stretch.depth}{moves}{joined}")
    return found


@pytest.mark.parametrize(
    ("texts", "wanted"),
    [
        pytest.param(["1. e4 e5 2. Nf3"], ["e4 e5 Nf3"], id="one line is one stretch"),
        pytest.param(["1. e4"], ["e4"], id="one move"),
        pytest.param(
            ["1. e4 e5 (1... c5 2. Nf3) 2. Nf3 Nc6 (2... d6)"],
            ["e4", ".e5 Nf3", "..Nc6", "..d6", ".c5 Nf3"],
            id="branches in deck order, depth first",
        ),
        pytest.param(
            ["1. e4 (1. f3? e5) (1. c4 {[%aside]}) 1... e5"],
            ["e4 e5"],
            id="mistakes and asides are no branches",
        ),
        pytest.param(
            ["1. Nf3 Nf6 (1... g6 2. g3 Nf6) 2. g3 g6 3. Bg2"],
            ["Nf3", ".Nf6 g3 g6 Bg2", ".g6 g3 Nf6 = 1. Nf3 Nf6 2. g3 g6"],
            id="a later move into a position is a join",
        ),
        pytest.param(
            ["1. Nf3 Nf6 2. Ng1 Ng8 3. e4"],
            ["", ".Nf3 Nf6 Ng1 Ng8 = ", ".e4"],
            id="a line may lead back to its start",
        ),
        pytest.param(["1. e4", "1. c4"], ["", ".e4", ".c4"], id="a fork at the start"),
        pytest.param(
            ["1. e4 e5", "[8/8/8/8/8/4k3/8/4K2R w - - 0 1] 1. Rh3+"],
            ["e4 e5", "Rh3+"],
            id="a second start",
        ),
        pytest.param(
            ["1. e4 e5", f"[{chess.Board().epd()} 5 9] 1. e4 c5"],
            ["e4", ".e5", ".c5"],
            id="the same start with other counters",
        ),
    ],
)
def test_stretches(texts: list[str], wanted: list[str]) -> None:
    """Worked by hand."""
    assert rows(grow(graph("white", *texts), everything)) == wanted


def test_what_is_closed_is_left_out() -> None:
    book = graph("white", "1. e4 e5 (1... c5 2. Nf3) (1... c6) 2. Nf3")
    closed = {key("1. e4 c5"), key("1. e4 c5 2. Nf3")}
    tree = grow(book, lambda position: position.key not in closed)
    assert rows(tree) == ["e4", ".e5 Nf3", ".c6"]
    assert grow(book, lambda _: False).stretches == ()


def test_a_start_that_another_line_reaches_has_its_place_there() -> None:
    inside = chess.Board()
    inside.push_san("e4")
    tree = grow(graph("white", "1. e4 e5", f"[{inside.fen()}] 1... c5"), everything)
    assert rows(tree) == ["e4", ".e5", ".c5"]


# --- Walking

WALK = grow(graph("white", "1. Nf3 Nf6 (1... g6 2. g3 Nf6) 2. g3 g6 3. Bg2 (3. c4)"), everything)
"""Nf3 | Nf6 g3 g6 | Bg2 | c4, and g6 g3 Nf6 that joins before the last fork."""


def test_forward_goes_into_the_first_branch_and_over_joins() -> None:
    spot: Spot | None = Spot(0, 0)
    way = []
    while spot is not None:
        way.append((spot.stretch, spot.step))
        spot = WALK.forward(spot)
    assert way == [(0, 0), (0, 1), (1, 1), (1, 2), (1, 3), (2, 1)]
    joining = Spot(4, 3)
    assert WALK.key(joining) == WALK.key(Spot(1, 3))
    assert WALK.forward(joining) == Spot(1, 3)


def test_back_goes_to_the_stretch_before() -> None:
    assert WALK.back(Spot(3, 1)) == Spot(1, 3)
    assert WALK.back(Spot(4, 1)) == Spot(0, 1)
    assert WALK.back(Spot(0, 0)) is None


def test_a_branch_and_its_joins() -> None:
    assert [WALK.keys[n] for n in WALK.branch(Spot(1, 3))] == [
        key("1. Nf3 Nf6 2. g3 g6"),
        key("1. Nf3 Nf6 2. g3 g6 3. Bg2"),
        key("1. Nf3 Nf6 2. g3 g6 3. c4"),
    ]
    assert WALK.branch(Spot(4, 3)) == WALK.branch(Spot(1, 3))
    assert WALK.joins_elsewhere(Spot(4, 1)) and not WALK.joins_elsewhere(Spot(0, 0))
    assert not WALK.joins_elsewhere(Spot(4, 3)) and not WALK.joins_elsewhere(Spot(1, 1))
    assert [WALK.ends(n) for n in range(5)] == [3, 2, 1, 1, 1]


def test_lines_have_the_numbers_of_their_start() -> None:
    tree = grow(graph("black", "[4k3/8/8/8/8/8/8/R3K3 b - - 0 12] 12... Kd7 13. Ra7+"), everything)
    assert tree.line(Spot(0, 2)) == "12... Kd7 13. Ra7+"
    assert tree.line(Spot(0, 0)) == ""


# --- Any tree


def some_open(book: LineGraph, seed: int) -> Callable[[BookPosition], bool]:
    """Every position with a chance of four in five."""
    chance = random.Random(seed)
    chosen = {key for key in book.positions if chance.random() < 0.8}
    return lambda position: position.key in chosen


def reachable(book: LineGraph, is_open: Callable[[BookPosition], bool]) -> set[str]:
    found: set[str] = set()
    waiting = list(book.roots)
    while waiting:
        at = waiting.pop()
        if at not in found and is_open(book.positions[at]):
            found.add(at)
            waiting += [move.after for move in book.positions[at].book_moves]
    return found


@given(SIDES, FORESTS, st.integers(0, 3))
def test_every_open_position_and_move_has_one_place(
    side: str, trees: list[GameTree], seed: int
) -> None:
    book = build_graph(side, [("lines", tree) for tree in trees]).graph
    is_open = some_open(book, seed) if seed else everything
    tree = grow(book, is_open)
    there = reachable(book, is_open)
    assert Counter(tree.keys) == Counter(there)
    walked = Counter(
        (tree.key(before), move.uci)
        for number, stretch in enumerate(tree.stretches)
        for step, move in enumerate(stretch.moves, start=1)
        if (before := tree.back(Spot(number, step))) is not None
    )
    moves = ((at, m) for at in there for m in book.positions[at].book_moves)
    assert walked == Counter((at, move.uci) for at, move in moves if move.after in there)


@given(SIDES, FORESTS)
def test_numbers_spots_and_branches_agree(side: str, trees: list[GameTree]) -> None:
    book = build_graph(side, [("lines", tree) for tree in trees]).graph
    tree = grow(book, everything)
    for number in range(len(tree.keys)):
        assert tree.number(tree.spot(number)) == number
    for place, stretch in enumerate(tree.stretches):
        below = tree.stretches[place + 1 : stretch.end]
        assert all(place in tree.ancestors(n) for n in range(place + 1, stretch.end))
        assert all(stretch.first <= s.first <= s.beyond <= stretch.beyond for s in below)
        last = Spot(place, len(stretch.moves))
        if stretch.join is not None:
            assert stretch.end == place + 1 and tree.key(last) == tree.keys[stretch.join]
        if (after := tree.forward(last)) is not None and stretch.join is None:
            assert tree.back(after) == last


@given(FORESTS)
def test_a_line_leads_to_its_position(trees: list[GameTree]) -> None:
    book = build_graph("white", [("lines", tree) for tree in trees]).graph
    tree = grow(book, everything)
    for number, stretch in enumerate(tree.stretches):
        spot = Spot(number, len(stretch.moves))
        root = next((n for n in tree.ancestors(number) if tree.stretches[n].is_start), number)
        board = chess.Board(f"{tree.key(Spot(root, 0))} 0 1")
        board.fullmove_number = tree.stretches[root].ply // 2 + 1
        for move in read_movetext(tree.line(spot), board):
            board.push(move)
        assert board.epd() == tree.key(spot)


def test_ten_thousand_plies_with_a_branch_at_each() -> None:
    place = (Place("deep", 1, "", f"{START_KEY} 0 1"),)
    names = [f"p{n}" for n in range(10_000)]

    def reply(after: str) -> BookMove:
        return BookMove("a1a2", "Ra2", Standing.REPLY, after)

    inner = {
        name: BookPosition(name, (reply(following), reply(f"end {name}")), place)
        for name, following in pairwise(names)
    }
    ends = {f"end {name}": BookPosition(f"end {name}", (), place) for name in inner}
    last = {names[-1]: BookPosition(names[-1], (), place)}
    tree = grow(LineGraph("white", inner | ends | last, (names[0],), 1), everything)
    assert len(tree.keys) == 19_999 and tree.stretches[-1].end == len(tree.stretches)
    assert max(stretch.depth for stretch in tree.stretches) == 9_999
    assert len(tree.way(tree.spot(tree.numbers[names[-1]]))) == 9_999
