"""Where a line that ends goes on in another one, by transposition."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import chess

from trainer.deck.handout.pages import Manner, Word
from trainer.lines.graph_builder import MISTAKE_NAGS
from trainer.lines.position import Position
from trainer.lines.tree import GameTree, MoveNode


@dataclass(frozen=True, slots=True)
class Reference:
    """A printed line."""

    anchor: str
    number: str

    def seen_from(self, anchor: str) -> Word:
        """The words that lead there from a line, perhaps the same one."""
        where = "within" if anchor == self.anchor else "in"
        return Word(f"(goes on {where} {self.number})", Manner.OWN, self.anchor)


def onward(lines: Iterable[tuple[str, str, GameTree]], side: str) -> dict[Position, Reference]:
    """Each position that has a move of the deck, with the reference to the first line there.

    :param lines: anchor, number and tree of the lines of one side that are printed.
    """
    found: dict[Position, Reference] = {}
    for anchor, number, tree in lines:
        for position in _left(tree, side):
            found.setdefault(position, Reference(anchor, number))
    return found


def positions(tree: GameTree) -> Iterator[Position]:
    """Every position of a tree but its first."""
    waiting = list(tree.children)
    while waiting:
        node = waiting.pop()
        yield node.after
        waiting.extend(node.children)


def _left(tree: GameTree, side: str) -> Iterator[Position]:
    """The positions from which moves of the deck lead on."""
    waiting: list[GameTree | MoveNode] = [tree]
    while waiting:
        node = waiting.pop()
        here = node.after if isinstance(node, MoveNode) else node.start
        ours = (here.turn == chess.WHITE) == (side == "white")
        book = [child for child in node.children if not (ours and _is_no_book(child))]
        if book:
            yield here
        waiting.extend(book)


def _is_no_book(node: MoveNode) -> bool:
    return node.comment.aside or not MISTAKE_NAGS.isdisjoint(node.nags)
