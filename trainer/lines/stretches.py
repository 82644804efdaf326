"""The lines of a side as a tree of stretches: runs of moves up to the next branch.

Depth first from the starts of games, moves in deck order. A position has its one place
where it is first reached; a later move into it is a join. The tree is flat, so lines of any
length need no recursion. It knows no memory and no faces.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from trainer.lines.graph import BookMove, BookPosition, LineGraph


@dataclass(frozen=True, slots=True)
class Stretch:
    """A run of moves; its branch is itself and all that follows it in the tree."""

    parent: int
    """The number of the stretch that it continues; -1 where games start."""
    depth: int
    """How many stretches lead to it."""
    ply: int
    """Plies before its first move, by the move numbers of its line."""
    moves: tuple[BookMove, ...]
    """Empty only at a start in which more than one first move is given."""
    first: int
    """The number of the first position that has its place here."""
    beyond: int
    """The number of the first position after its branch."""
    end: int
    """The number of the first stretch after its branch."""
    join: int | None = None
    """The number of the position, with its place elsewhere, into which the last move leads."""

    @property
    def is_start(self) -> bool:
        """Whether a game starts here, so that its first position has no move before it."""
        return self.parent < 0

    @property
    def first_step(self) -> int:
        """0 at a start, where one can stand before the first move; else 1."""
        return 0 if self.is_start else 1


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one stands in the tree: after so many moves of a stretch."""

    stretch: int
    step: int


@dataclass(frozen=True)
class StretchTree:
    """Stretches and positions, each numbered in travel order; a branch is a range of both."""

    stretches: tuple[Stretch, ...]
    keys: tuple[str, ...]
    """Of the positions, by their numbers."""
    numbers: Mapping[str, int]
    """Of the positions, by their keys."""
    homes: tuple[int, ...]
    """The stretch in which each position has its place."""
    joins: tuple[int, ...]
    """The stretches that end with a join."""

    def spot(self, number: int) -> Spot:
        """The place of a position."""
        home = self.homes[number]
        stretch = self.stretches[home]
        return Spot(home, number - stretch.first + stretch.first_step)

    def number(self, spot: Spot) -> int:
        """The number of the position in which one stands."""
        stretch = self.stretches[spot.stretch]
        if stretch.join is not None and spot.step == len(stretch.moves):
            return stretch.join
        return stretch.first + spot.step - stretch.first_step

    def key(self, spot: Spot) -> str:
        """The key of the position in which one stands."""
        return self.keys[self.number(spot)]

    def move(self, spot: Spot) -> BookMove | None:
        """The move that led here; None where games start."""
        return self.stretches[spot.stretch].moves[spot.step - 1] if spot.step else None

    def forward(self, spot: Spot) -> Spot | None:
        """The next move: of the stretch, of the first branch, or where the joined line stands."""
        stretch = self.stretches[spot.stretch]
        if spot.step < len(stretch.moves):
            return Spot(spot.stretch, spot.step + 1)
        if stretch.join is not None:
            return self.spot(stretch.join)
        return Spot(spot.stretch + 1, 1) if stretch.end > spot.stretch + 1 else None

    def back(self, spot: Spot) -> Spot | None:
        """The move before, if need be the last one of the stretch that this one continues."""
        stretch = self.stretches[spot.stretch]
        if spot.step > stretch.first_step:
            return Spot(spot.stretch, spot.step - 1)
        if stretch.is_start:
            return None
        return Spot(stretch.parent, len(self.stretches[stretch.parent].moves))

    def way(self, spot: Spot) -> list[BookMove]:
        """The moves from the start to here."""
        runs = [self.stretches[spot.stretch].moves[: spot.step]]
        runs += [self.stretches[number].moves for number in self.ancestors(spot.stretch)]
        return [move for run in reversed(runs) for move in run]

    def ancestors(self, number: int) -> Iterator[int]:
        """The stretches that lead to one, the nearest first."""
        while (number := self.stretches[number].parent) >= 0:
            yield number

    def line(self, spot: Spot) -> str:
        """The moves from the start to here as movetext; empty at the start."""
        way = self.way(spot)
        first_ply = self.ply(spot) - len(way)
        return " ".join(
            san_numbered(first_ply + place, move.san, always=place == 0)
            for place, move in enumerate(way)
        )

    def ply(self, spot: Spot) -> int:
        """Plies before the position, by the move numbers of its line."""
        return self.stretches[spot.stretch].ply + spot.step

    def branch(self, spot: Spot) -> range:
        """The numbers of the positions that stand here and below."""
        number = self.number(spot)
        return range(number, self.stretches[self.homes[number]].beyond)

    def joins_elsewhere(self, spot: Spot) -> bool:
        """Whether lines below lead into positions that do not stand below."""
        home, below = self.homes[self.number(spot)], self.branch(spot)
        since, until = (bisect_left(self.joins, edge) for edge in (home, self.stretches[home].end))
        return any(self.stretches[join].join not in below for join in self.joins[since:until])

    def ends(self, number: int) -> int:
        """How many lines of a branch end, or join others."""
        branch = range(number, self.stretches[number].end)
        return sum(1 for place in branch if self.stretches[place].end == place + 1)


def san_numbered(ply: int, san: str, *, always: bool) -> str:
    """`4. Nxe4` or `Bf5`; Black's move has its number, `4... Bf5`, only where `always` is set.

    :param ply: plies before the move.
    """
    if ply % 2 == 0:
        return f"{ply // 2 + 1}. {san}"
    return f"{ply // 2 + 1}... {san}" if always else san


def grow(book: LineGraph, is_open: Callable[[BookPosition], bool]) -> StretchTree:
    """The tree of the positions that are open; moves into others are left out.

    A start that other lines reach has its place there.
    """
    grower = _Grower(book, is_open)
    waiting = [_Sprout(-1, 0, None, root) for root in reversed(book.roots)]
    while waiting:
        sprout = waiting.pop()
        if sprout.move is not None or grower.is_new_start(sprout.key):
            waiting.extend(reversed(grower.stretch(sprout)))
    return grower.finish()


@dataclass(frozen=True, slots=True)
class _Sprout:
    """A stretch still to be read, from its first move on."""

    parent: int
    ply: int
    move: BookMove | None
    """None at a start."""
    key: str
    """The position after the move."""


@dataclass(slots=True)
class _Draft:
    parent: int
    depth: int
    ply: int
    first: int
    moves: list[BookMove] = field(default_factory=list)
    join: int | None = None


class _Grower:
    def __init__(self, book: LineGraph, is_open: Callable[[BookPosition], bool]) -> None:
        self._positions = book.positions
        self._is_open = is_open
        self._drafts: list[_Draft] = []
        self._numbers: dict[str, int] = {}
        self._homes: list[int] = []

    def is_new_start(self, key: str) -> bool:
        return key not in self._numbers and self._is_open(self._positions[key])

    def stretch(self, sprout: _Sprout) -> Sequence[_Sprout]:
        """Read one stretch to its end; gives back those that continue it."""
        own = len(self._drafts)
        start = sprout.move is None
        depth = 0 if start else self._drafts[sprout.parent].depth + 1
        ply = _start_ply(self._positions[sprout.key]) if start else sprout.ply
        draft = _Draft(sprout.parent, depth, ply, len(self._homes))
        self._drafts.append(draft)
        key, moves = sprout.key, [sprout.move] if sprout.move else []
        while True:
            draft.moves += moves
            if (known := self._numbers.get(key)) is not None:
                draft.join = known
                return ()
            self._numbers[key] = len(self._homes)
            self._homes.append(own)
            moves = self._open_moves(key)
            if len(moves) != 1:
                return [_Sprout(own, ply + len(draft.moves), move, move.after) for move in moves]
            key = moves[0].after

    def _open_moves(self, key: str) -> list[BookMove]:
        positions = self._positions
        return [
            move
            for move in positions[key].moves
            if move.after and self._is_open(positions[move.after])
        ]

    def finish(self) -> StretchTree:
        ends = list(range(1, len(self._drafts) + 1))
        beyond = [draft.first for draft in self._drafts[1:]] + [len(self._homes)]
        for number in range(len(self._drafts) - 1, 0, -1):
            parent = self._drafts[number].parent
            if parent >= 0:
                ends[parent] = max(ends[parent], ends[number])
                beyond[parent] = max(beyond[parent], beyond[number])
        stretches = tuple(
            Stretch(
                draft.parent,
                draft.depth,
                draft.ply,
                tuple(draft.moves),
                draft.first,
                beyond[number],
                ends[number],
                draft.join,
            )
            for number, draft in enumerate(self._drafts)
        )
        joins = tuple(n for n, stretch in enumerate(stretches) if stretch.join is not None)
        return StretchTree(
            stretches, tuple(self._numbers), self._numbers, tuple(self._homes), joins
        )


def _start_ply(position: BookPosition) -> int:
    """Plies before a start, by the move numbers of a game that begins there."""
    place = next((place for place in position.places if not place.line), position.places[0])
    fields = place.start.split()
    return 2 * (int(fields[5]) - 1) + (fields[1] == "b")
