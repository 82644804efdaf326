"""A stretch as one row of the tree: where it branches off, its moves, what is left out.

Pure layout: what fits into so many cells. Where the rows stand and how they look is the
widget's business.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate

from trainer.lines.graph import BookMove
from trainer.lines.stretches import StretchTree
from trainer.service.lines_report import Counts, LinesReport

START, FOLDED, JOINS, CUT = "○", "►", "=", "…"

HEIGHTS = "▁▂▃▄▅▆▇"
"""From nothing known to all known."""

UNTOUCHED = "·"
"""In place of a bar where no position was ever asked."""

MOVES = 18
"""Cells that the guides leave to the moves of the selected row."""

_GUIDES = {1: ("│", " ", "├", "└"), 2: ("│ ", "  ", "├ ", "└ "), 3: ("│  ", "   ", "├─ ", "└─ ")}
"""By the cells of a level: a branch that goes on, one that is over, a branch, the last one."""


class Kind(StrEnum):
    """What a piece of a row is."""

    GUIDE = "guide"
    NUMBER = "number"
    MOVE = "move"
    SELECTED = "selected"
    ASIDE = "aside"
    """A join, or what is folded away."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A few signs of one kind."""

    text: str
    kind: Kind
    step: int | None = None
    """The step of the stretch that it belongs to."""


@dataclass(frozen=True, slots=True)
class Frame:
    """How rows are laid out."""

    width: int
    """Cells of a row."""
    indent: int
    """Cells of a level, 1 to 3."""
    cut: int
    """Levels that are left out at the left edge, so that the selected row has room."""


def frame_for(deepest: int, width: int, depth: int) -> Frame:
    """The widest indent that leaves room for the moves of every row, else the narrowest.

    :param deepest: the depth of the deepest stretch of the tree.
    :param depth: that of the selected one.
    """
    room = max(3, width - MOVES)
    indent = next((cells for cells in (3, 2) if deepest * cells <= room), 1)
    return Frame(width, indent, max(0, depth - room // indent))


def pieces(
    tree: StretchTree, number: int, frame: Frame, selected: int | None, folded: bool
) -> list[Piece]:
    """A row; a stretch that is too long is cut so that the selected move stays in view.

    :param selected: a step of this stretch.
    """
    guides = Piece(_guides(tree, number, frame), Kind.GUIDE)
    words, room = _words(tree, number, selected), frame.width - len(guides.text)
    behind = _behind(tree, number, folded)
    if behind and len(behind) + max(map(_length, words)) + 2 > room:
        behind = behind[:2]  # the sign alone: there is no room for more
    row = [guides, *_fitting(words, room - len(behind), selected)]
    joining = None if folded else len(tree.stretches[number].moves)
    return [*row, Piece(behind, Kind.ASIDE, joining)] if behind else row


def edge(report: LinesReport, stretch: int) -> tuple[str, str]:
    """The right edge of a row: the bar of its branch, and how much of it is due, or nothing."""
    branch = report.tree.stretches[stretch]
    counts = report.tally.of(range(branch.first, branch.beyond))
    return bar(counts), str(counts.due) if counts.due else ""


def bar(counts: Counts) -> str:
    """One sign, as high as the part that is known; blank where nothing is asked."""
    if not counts.cards:
        return " "
    if counts.fresh == counts.cards:
        return UNTOUCHED
    if counts.known in (0, counts.cards):
        return HEIGHTS[-1 if counts.known else 0]
    return HEIGHTS[1 + counts.known * (len(HEIGHTS) - 2) // counts.cards]


def short_number(ply: int) -> str:
    """`4 ` or `4...`: what stands before a move in the tree."""
    return f"{ply // 2 + 1}{'...' if ply % 2 else ' '}"


def _guides(tree: StretchTree, number: int, frame: Frame) -> str:
    stretch = tree.stretches[number]
    if stretch.depth <= frame.cut:
        return f"{CUT} " if frame.cut else ""
    on, over, branch, last = _GUIDES[frame.indent]
    levels = [last if _is_last(tree, number) else branch]
    for ancestor in tree.ancestors(number):
        if tree.stretches[ancestor].depth <= frame.cut:
            break
        levels.append(over if _is_last(tree, ancestor) else on)
    return CUT * (frame.cut > 0) + "".join(reversed(levels)) + " " * (frame.indent == 1)


def _is_last(tree: StretchTree, number: int) -> bool:
    """Whether no other branch of the same fork comes after it."""
    stretch = tree.stretches[number]
    return not stretch.is_start and stretch.end == tree.stretches[stretch.parent].end


Word = list[Piece]


def _words(tree: StretchTree, number: int, selected: int | None) -> list[Word]:
    stretch = tree.stretches[number]
    words = [_start(selected == 0)] if stretch.is_start else []
    for step, move in enumerate(stretch.moves, start=1):
        ply = stretch.ply + step - 1
        kind = Kind.SELECTED if step == selected else Kind.MOVE
        word = [Piece(said(move), kind, step)]
        if ply % 2 == 0 or step == 1:
            word.insert(0, Piece(short_number(ply), Kind.NUMBER, step))
        words.append(word)
    return words


def _start(selected: bool) -> Word:
    return [Piece(START, Kind.SELECTED if selected else Kind.NUMBER, 0)]


def said(move: BookMove) -> str:
    """A move as SAN, an opponent's mistake with its mark."""
    return f"{move.san}{'?' if move.error else ''}"


def _behind(tree: StretchTree, number: int, folded: bool) -> str:
    """What stands after the moves: the place that is joined, or how many lines are folded away."""
    stretch = tree.stretches[number]
    if folded:
        return f" {FOLDED} {tree.ends(number)}"
    if stretch.join is None:
        return ""
    return f" {JOINS} {place_name(tree, stretch.join)}"


def place_name(tree: StretchTree, number: int) -> str:
    """The move by which a position is reached where it has its place: `3 Nf3`, `3...d5`."""
    spot = tree.spot(number)
    move = tree.move(spot)
    return f"{short_number(tree.ply(spot) - 1)}{move.san}" if move else "the start"


def _length(word: Word) -> int:
    return sum(len(piece.text) for piece in word)


def _fitting(words: Sequence[Word], room: int, selected: int | None) -> Iterator[Piece]:
    """The words that fit, from the first on or as far back from the selected one as needed."""
    ends = [0, *accumulate(_length(word) + 1 for word in words)]
    must = next((n for n, word in enumerate(words) if word[-1].step == selected), 0)

    def fits(first: int, last: int) -> bool:
        cuts = 2 * (first > 0) + 2 * (last < len(words) - 1)
        return ends[last + 1] - ends[first] - 1 + cuts <= room

    first = next((n for n in range(must) if fits(n, must)), must)
    last = next((n for n in range(len(words) - 1, must, -1) if fits(first, n)), must)
    if first > 0:
        yield Piece(f"{CUT} ", Kind.NUMBER)
    for place, word in enumerate(words[first : last + 1]):
        if place:
            yield Piece(" ", Kind.MOVE, word[0].step)
        yield from word
    if last < len(words) - 1:
        yield Piece(f" {CUT}", Kind.NUMBER)
