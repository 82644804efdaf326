"""The tree of lines: a row a stretch, of which only those in view are painted.

It owns folding, scrolling and which rows a change touches. It knows no cards: the marks at
the right edge are handed in.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.events import Click, Resize
from textual.geometry import Size
from textual.message import Message
from textual.reactive import var
from textual.scroll_view import ScrollView
from textual.strip import Strip

from trainer.app.telling.stretch_rows import FOLDED, Frame, Kind, Piece, frame_for, pieces
from trainer.lines.stretches import Spot, StretchTree

Mark = tuple[str, str]
"""What stands at the right edge of a row: a bar of one sign, and a number or nothing."""

MANY_ROWS = 30
"""A tree with more rows than this is shown with its deeper branches folded."""

_MARGIN = 1
"""Rows that stay in view above and below the selected one."""

_REVERSE = Style(reverse=True)

_EMPTY = StretchTree((), (), {}, (), ())


class LineTree(ScrollView, can_focus=False, inherit_bindings=False):
    """Rows of moves, one of them selected."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        *(f"line-tree--{kind}" for kind in Kind),
        "line-tree--bar",
        "line-tree--due",
    }

    spot: var[Spot] = var(Spot(0, 0), init=False)
    """The selected move."""
    active: var[bool] = var(True, init=False)
    """Whether it is shown as selected."""

    @dataclass
    class Pointed(Message):
        """A move was clicked, or the selected one was folded away below it."""

        spot: Spot

    @dataclass
    class FoldsChanged(Message):
        """Branches were folded or unfolded by the reader."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._tree = _EMPTY
        self._mark: Callable[[int], Mark] = lambda _: (" ", "")
        self._due_width = 1
        self._deepest = 0
        self._folded: set[int] = set()
        self._rows: list[int] = []

    # What is shown

    def show(self, tree: StretchTree, mark: Callable[[int], Mark], due_width: int) -> None:
        """Show a tree, folded as before where it is the same one.

        :param due_width: cells of the longest number at the right edge.
        """
        self._mark, self._due_width = mark, due_width
        if tree != self._tree:
            self._tree = tree
            self._deepest = max((stretch.depth for stretch in tree.stretches), default=0)
            self._folded = self._overview()
            self._rows_changed()
        self.refresh()

    @property
    def rows(self) -> tuple[int, ...]:
        """The stretches that have a row now."""
        return tuple(self._rows)

    def watch_spot(self, old: Spot, new: Spot) -> None:
        """Paint the two rows that this changes; unfold what the new one is hidden in."""
        if not self._tree.stretches:
            return
        hiding = self._folded.intersection(self._tree.ancestors(new.stretch))
        if hiding:
            self._folded -= hiding
            self._rows_changed()
        if self._frame_at(old) != self._frame_at(new):
            self.refresh()
        for stretch in {old.stretch, new.stretch}:
            if stretch < len(self._tree.stretches):
                self.refresh_line(self._row(stretch))
        self._scroll_to_spot()

    def watch_active(self) -> None:
        """Paint the row of the selected move."""
        if self._tree.stretches:
            self.refresh_line(self._row(self.spot.stretch))

    def beside(self, rows: int) -> Spot | None:
        """The first move of the stretch so many rows down, or as far as there are rows."""
        if not self._rows:
            return None
        place = min(max(0, self._row(self.spot.stretch) + rows), len(self._rows) - 1)
        stretch = self._rows[place]
        return Spot(stretch, self._tree.stretches[stretch].first_step)

    @property
    def page(self) -> int:
        """Rows of a screenful."""
        return max(1, self.size.height - 1)

    # Folding

    def is_folded(self, stretch: int) -> bool:
        """Whether its branches are folded away."""
        return stretch in self._folded

    def can_fold(self, stretch: int) -> bool:
        """Whether it has branches."""
        stretches = self._tree.stretches
        return stretch < len(stretches) and stretches[stretch].end > stretch + 1

    def fold(self, stretch: int, folded: bool) -> None:
        """Fold its branches away, or show them as they were."""
        if not self.can_fold(stretch):
            return
        self._folded = self._folded | {stretch} if folded else self._folded - {stretch}
        self._rows_changed()
        if folded and stretch in self._tree.ancestors(self.spot.stretch):
            last = len(self._tree.stretches[stretch].moves)
            self.post_message(self.Pointed(Spot(stretch, last)))
        self.post_message(self.FoldsChanged())

    def fold_all(self, folded: bool) -> None:
        """Only the first branches, or every row."""
        everything = range(len(self._tree.stretches))
        selected = {self.spot.stretch, *self._tree.ancestors(self.spot.stretch)}
        self._folded = {n for n in everything if folded and self._is_deep(n, 1)} - selected
        self._rows_changed()
        self.post_message(self.FoldsChanged())

    def _is_deep(self, number: int, depth: int) -> bool:
        """Whether it has branches, and the first branches of games are no deeper than these."""
        return self._tree.stretches[number].depth >= depth and self.can_fold(number)

    def _overview(self) -> set[int]:
        """What to fold at first: all below the deepest level that leaves few rows."""
        depths = [stretch.depth for stretch in self._tree.stretches]
        level = self._deepest
        while level > 1 and sum(depth <= level for depth in depths) > MANY_ROWS:
            level -= 1
        return {number for number in range(len(depths)) if self._is_deep(number, level)}

    def _rows_changed(self) -> None:
        rows, number = [], 0
        while number < len(self._tree.stretches):
            rows.append(number)
            folded = number in self._folded
            number = self._tree.stretches[number].end if folded else number + 1
        self._rows = rows
        self.virtual_size = Size(1, len(rows))
        self.refresh()
        self._scroll_to_spot()

    def _row(self, stretch: int) -> int:
        """Its row, or the row under which it is folded away."""
        place = bisect_left(self._rows, stretch)
        return place if place < len(self._rows) and self._rows[place] == stretch else place - 1

    def _scroll_to_spot(self) -> None:
        height = self.size.height
        if not height or not self._rows:
            return
        row, top = self._row(self.spot.stretch), self.scroll_offset.y
        highest, lowest = row + _MARGIN - height + 1, row - _MARGIN
        wanted = min(max(top, highest), max(0, lowest)) if highest <= lowest else row
        if wanted != top:
            self.scroll_to(y=wanted, animate=False, force=True)

    def on_resize(self, _event: Resize) -> None:
        """The selected row stays in view."""
        self._scroll_to_spot()

    # The picture

    def render_line(self, y: int) -> Strip:
        """One row, or a blank one."""
        width, place = self._width, y + self.scroll_offset.y
        if place >= len(self._rows):
            return Strip.blank(width, self.rich_style)
        number = self._rows[place]
        row = self._row_pieces(number)
        segments = [Segment(piece.text, self._piece_style(piece)) for piece in row]
        bar, due = self._mark(number)
        edge = [
            Segment(f" {bar} ", self._style("bar")),
            Segment(due.rjust(self._due_width), self._style("due")),
        ]
        room = width - self._edge_width
        return Strip.join([Strip(segments).adjust_cell_length(room, self.rich_style), Strip(edge)])

    @property
    def _width(self) -> int:
        """Cells of a row; the last column is the scrollbar's, be it shown or not."""
        return self.outer_size.width - 1

    @property
    def _edge_width(self) -> int:
        return 3 + self._due_width

    def _row_pieces(self, number: int) -> list[Piece]:
        here = self.active and number == self.spot.stretch
        selected = self.spot.step if here else None
        return pieces(
            self._tree, number, self._frame_at(self.spot), selected, number in self._folded
        )

    def _frame_at(self, spot: Spot) -> Frame:
        stretches = self._tree.stretches
        depth = stretches[spot.stretch].depth if spot.stretch < len(stretches) else 0
        return frame_for(self._deepest, self._width - self._edge_width, depth)

    def _piece_style(self, piece: Piece) -> Style:
        """Where a theme leaves the colours to the terminal, the selected move is reversed."""
        style = self._style(piece.kind)
        reversed_ = piece.kind is Kind.SELECTED and self.app.native_ansi_color
        return style + _REVERSE if reversed_ else style

    def _style(self, name: str) -> Style:
        return self.get_component_rich_style(f"line-tree--{name}")

    # The mouse

    def on_click(self, event: Click) -> None:
        """A click on a move selects it; one on guides or folded lines folds or unfolds."""
        offset = event.get_content_offset(self)
        place = -1 if offset is None else offset.y + self.scroll_offset.y
        if offset is None or not 0 <= place < len(self._rows):
            return
        event.stop()
        number, x = self._rows[place], offset.x
        for piece in self._row_pieces(number):
            x -= len(piece.text)
            if x < 0:
                self._clicked(number, piece)
                return
        self.post_message(self.Pointed(Spot(number, self._tree.stretches[number].first_step)))

    def _clicked(self, number: int, piece: Piece) -> None:
        if self.can_fold(number) and (piece.kind is Kind.GUIDE or FOLDED in piece.text):
            self.fold(number, not self.is_folded(number))
        else:
            step = self._tree.stretches[number].first_step if piece.step is None else piece.step
            self.post_message(self.Pointed(Spot(number, step)))
