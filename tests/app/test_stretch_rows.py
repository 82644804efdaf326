"""The rows of the tree as text: guides, moves, joins, what is cut. Worked by hand."""

from __future__ import annotations

import pytest

from tests.trees import graph
from trainer.app.telling.stretch_rows import Frame, Kind, bar, frame_for, pieces
from trainer.lines.stretches import StretchTree, grow
from trainer.service.lines_report import Counts


def tree_of(*texts: str) -> StretchTree:
    return grow(graph("white", *texts), lambda _: True)


TREE = tree_of(
    "1. e4 e5 (1... c5 2. Nf3 d6?) 2. Nc3 Nf6 (2... Nc6 3. Bc4 Nf6 4. d3) 3. Bc4 Nc6 4. d3 d6"
)
LONG = tree_of("1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4. O-O Nf6 5. d3 d6 6. c3 a6")


def row(
    tree: StretchTree, number: int, frame: Frame, step: int | None = None, folded: bool = False
) -> str:
    """The row as text, the selected move between bars."""
    found = pieces(tree, number, frame, step, folded)
    return "".join(f"|{p.text}|" if p.kind is Kind.SELECTED else p.text for p in found)


@pytest.mark.parametrize(
    ("indent", "wanted"),
    [
        (
            3,
            [
                "○ 1 e4",
                "├─ 1...e5 2 Nc3",
                "│  ├─ 2...Nf6 3 Bc4 Nc6 4 d3 d6",
                "│  └─ 2...Nc6 3 Bc4 Nf6 = 3...Nc6",
                "└─ 1...c5 2 Nf3 d6?",
            ],
        ),
        (
            1,
            [
                "○ 1 e4",
                "├ 1...e5 2 Nc3",
                "│├ 2...Nf6 3 Bc4 Nc6 4 d3 d6",
                "│└ 2...Nc6 3 Bc4 Nf6 = 3...Nc6",
                "└ 1...c5 2 Nf3 d6?",
            ],
        ),
    ],
)
def test_a_tree(indent: int, wanted: list[str]) -> None:
    assert [row(TREE, number, Frame(60, indent, 0)) for number in range(5)] == wanted


def test_levels_cut_off_at_the_left_edge() -> None:
    found = [row(TREE, number, Frame(40, 1, 1)) for number in (0, 1, 3)]
    assert found == ["… ○ 1 e4", "… 1...e5 2 Nc3", "…└ 2...Nc6 3 Bc4 Nf6 = 3...Nc6"]


@pytest.mark.parametrize(
    ("width", "step", "wanted"),
    [
        (60, 1, "○ 1 |e4| e5 2 Nf3 Nc6 3 Bc4 Bc5 4 O-O Nf6 5 d3 d6 6 c3 a6"),
        (60, 0, "|○| 1 e4 e5 2 Nf3 Nc6 3 Bc4 Bc5 4 O-O Nf6 5 d3 d6 6 c3 a6"),
        (24, None, "○ 1 e4 e5 2 Nf3 Nc6 …"),
        (24, 2, "○ 1 e4 |e5| 2 Nf3 Nc6 …"),
        (24, 7, "… Nc6 3 Bc4 Bc5 4 |O-O| …"),
        (24, 12, "… Nf6 5 d3 d6 6 c3 |a6|"),
        (6, 7, "… 4 |O-O| …"),
    ],
)
def test_a_long_stretch_is_cut_round_the_selected_move(
    width: int, step: int | None, wanted: str
) -> None:
    assert row(LONG, 0, Frame(width, 1, 0), step) == wanted


@pytest.mark.parametrize(
    ("width", "number", "folded", "wanted"),
    [
        (40, 1, True, "├ 1...e5 2 Nc3 ► 2"),
        (40, 0, True, "○ 1 e4 ► 3"),
        (25, 3, False, "│└ 2...Nc6 … = 3...Nc6"),
        (19, 3, False, "│└ 2...Nc6 … ="),
    ],
)
def test_what_stands_behind_the_moves(width: int, number: int, folded: bool, wanted: str) -> None:
    assert row(TREE, number, Frame(width, 1, 0), folded=folded) == wanted


@pytest.mark.parametrize(
    ("deepest", "width", "depth", "indent", "cut"),
    [(2, 24, 2, 3, 0), (8, 24, 8, 1, 2), (8, 24, 3, 1, 0), (8, 42, 8, 3, 0), (10, 42, 10, 2, 0)],
)
def test_the_indent_leaves_room_for_moves(
    deepest: int, width: int, depth: int, indent: int, cut: int
) -> None:
    assert frame_for(deepest, width, depth) == Frame(width, indent, cut)


@pytest.mark.parametrize(
    ("counts", "sign"),
    [
        (Counts(0, 0, 0, 0, 0), " "),
        (Counts(4, 0, 0, 4, 0), "·"),
        (Counts(4, 0, 1, 3, 0), "▁"),
        (Counts(40, 1, 0, 39, 0), "▂"),
        (Counts(4, 2, 0, 2, 0), "▄"),
        (Counts(40, 39, 1, 0, 0), "▆"),
        (Counts(4, 4, 0, 0, 4), "▇"),
    ],
)
def test_bars(counts: Counts, sign: str) -> None:
    """Nothing and all have a height of their own."""
    assert bar(counts) == sign
