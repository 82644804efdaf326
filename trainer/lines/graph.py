"""The lines of one side of a deck as one graph of positions.

All trees of a side are joined where their positions are the same, so a card reached by
several move orders exists once. The graph is immutable and knows what each move is to
the student; it knows no memory, no files and no faces. `graph_builder` makes it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import astuple, dataclass
from enum import StrEnum
from functools import cached_property
from typing import Any


class Standing(StrEnum):
    """What a move is to the deck."""

    DECK = "deck"
    """The student's move: the one that the card asks for."""
    ACCEPTED = "accepted"
    """Another move of the student that is right too, and whose branch is trained."""
    MISTAKE = "mistake"
    """A move of the student that the deck marks as wrong."""
    ASIDE = "aside"
    """A sound move of the student that is not the deck's."""
    REPLY = "reply"
    """A move of the opponent that the deck answers or ends with."""


BOOK = frozenset({Standing.DECK, Standing.ACCEPTED, Standing.REPLY})

_STANDINGS = {standing.value: standing for standing in Standing}


@dataclass(frozen=True, slots=True)
class BookMove:
    """One move of one position, with all that the deck says of it at any place."""

    uci: str
    san: str
    standing: Standing
    after: str
    """The key of the position after it; empty where the move is not book."""
    note: str = ""
    """Its comments in deck order, equal texts once, separated by newlines."""
    explanation: str = ""
    """Movetext that follows a mistake or an aside, with its comments; else empty."""
    squares: tuple[str, ...] = ()
    arrows: tuple[str, ...] = ()
    themes: tuple[str, ...] = ()
    share: float | None = None
    """The part of opponents who choose this reply, 0 to 1, where the coach gave it."""
    error: bool = False
    """An opponent's move marked as a mistake: the reply to it punishes."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a chapter first reaches a position."""

    chapter: str
    game: int
    """The number of the game in the chapter's file, from 1."""
    line: str
    """The moves that lead there, as movetext; empty at the start."""
    start: str
    """Six FEN fields of the position in which the line starts."""
    introduction: str = ""
    """What the game says before its first move; only at the first card that it brings."""
    title: str = ""
    """What the game is called; empty where its tags do not say."""


@dataclass(frozen=True, slots=True)
class BookPosition:
    """One position of the book."""

    key: str
    moves: tuple[BookMove, ...]
    """The deck's move first, then the others in deck order."""
    places: tuple[Place, ...]
    """One a chapter, in deck order."""

    @property
    def deck_move(self) -> BookMove | None:
        """The student's move here; None at the opponent's turn and where a line ends."""
        if self.moves and self.moves[0].standing is Standing.DECK:
            return self.moves[0]
        return None

    @property
    def card(self) -> str:
        """The key of the card that asks for the deck's move; empty where none is asked."""
        move = self.deck_move
        return card_key(self.key, move.uci) if move else ""

    @property
    def book_moves(self) -> tuple[BookMove, ...]:
        """The moves that stay in the book, mistakes and asides left out."""
        return tuple([move for move in self.moves if move.after])

    def move(self, uci: str) -> BookMove | None:
        """What the deck says of this move, if it says anything."""
        return next((move for move in self.moves if move.uci == uci), None)


def card_key(position_key: str, uci: str) -> str:
    """The identity of the card that asks for a move in a position, or for several in turn."""
    return f"{position_key} {uci}"


def split_card_key(card: str) -> tuple[str, str]:
    """The position key and the moves (UCI) of a card that asks for moves."""
    fields = card.split(" ")
    return " ".join(fields[:4]), " ".join(fields[4:])


@dataclass(frozen=True)
class LineGraph:
    """All positions that the lines of one side pass through."""

    side: str
    """`white` or `black`: whose moves are asked."""
    positions: Mapping[str, BookPosition]
    roots: tuple[str, ...]
    """Keys of the positions in which games start, in deck order."""
    lines: int
    """How many ends of lines the trees have, as written."""

    def get(self, key: str) -> BookPosition | None:
        """The book position with this key."""
        return self.positions.get(key)

    @cached_property
    def cards(self) -> tuple[BookPosition, ...]:
        """The positions that ask for a move, in travel order.

        Depth first from the start, moves in deck order, a position at the first line that
        reaches it.
        """
        return tuple(self._travel(self.roots))

    def cards_from(self, key: str) -> tuple[BookPosition, ...]:
        """The cards at a position and at all that can follow it, in travel order."""
        return tuple(self._travel((key,))) if key in self.positions else ()

    @cached_property
    def transpositions(self) -> int:
        """How many positions more than one move leads into."""
        ways: dict[str, int] = {}
        for position in self.positions.values():
            for move in position.book_moves:
                ways[move.after] = ways.get(move.after, 0) + 1
        return sum(1 for count in ways.values() if count > 1)

    def _travel(self, starts: tuple[str, ...]) -> Iterator[BookPosition]:
        waiting = list(reversed(starts))
        seen: set[str] = set()
        while waiting:
            key = waiting.pop()
            if key in seen:
                continue
            seen.add(key)
            position = self.positions[key]
            if position.deck_move is not None:
                yield position
            waiting.extend(move.after for move in reversed(position.book_moves))


def graph_to_data(graph: LineGraph) -> dict[str, Any]:
    """The graph as plain lists for JSON; positions refer to each other by number."""
    numbers = {key: number for number, key in enumerate(graph.positions)}
    return {
        "side": graph.side,
        "roots": [numbers[key] for key in graph.roots],
        "lines": graph.lines,
        "positions": [
            [
                position.key,
                [move_to_data(move, numbers) for move in position.moves],
                [list(astuple(place)) for place in position.places],
            ]
            for position in graph.positions.values()
        ],
    }


def graph_from_data(data: Mapping[str, Any]) -> LineGraph:
    """The graph that `graph_to_data` wrote."""
    keys = [row[0] for row in data["positions"]]
    return LineGraph(
        side=data["side"],
        positions={
            key: BookPosition(
                key,
                tuple([move_from_data(move, keys) for move in moves]),
                tuple([Place(*place) for place in places]),
            )
            for key, moves, places in data["positions"]
        },
        roots=tuple(keys[number] for number in data["roots"]),
        lines=data["lines"],
    )


def move_to_data(move: BookMove, numbers: Mapping[str, int]) -> list[Any]:
    """A move as a plain list for JSON.

    :param numbers: the places of the positions, by key, to which moves can lead.
    """
    after = numbers[move.after] if move.after else -1
    plain: list[Any] = [move.uci, move.san, move.standing.value, after]
    said: list[Any] = [
        move.note,
        move.explanation,
        move.squares,
        move.arrows,
        move.themes,
        move.share,
        move.error,
    ]
    return plain + said if any(said) or move.share is not None else plain


def move_from_data(data: list[Any], keys: list[str]) -> BookMove:
    """The move that `move_to_data` wrote, the keys by their numbers."""
    uci, san, standing, after, *said = data
    key = keys[after] if after >= 0 else ""
    if not said:
        return BookMove(uci, san, _STANDINGS[standing], key)
    note, explanation, squares, arrows, themes, share, error = said
    return BookMove(
        uci,
        san,
        _STANDINGS[standing],
        key,
        note,
        explanation,
        tuple(squares),
        tuple(arrows),
        tuple(themes),
        share,
        error,
    )
