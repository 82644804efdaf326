"""Which positions of a main line get a diagram.

The rule for lines: one where the line parts from those before it, be it in a variation;
then, never closer than six plies, after a move that the author marked with squares or arrows
and wherever the opponent has more than one reply; and one at the end, if three plies have
passed. The rule for whole games: two, from the first and the second third on at the next
move that the author comments on; one where a game is short.
"""

from __future__ import annotations

from collections.abc import Collection

import chess

from trainer.lines.position import Position
from trainer.lines.tree import GameTree, MoveNode

APART = 6
"""Plies between two diagrams of a line."""

LAST_APART = 3
"""Plies between the last but one and the one at the end."""

SHORT_GAME = 20
"""Plies below which a game gets one diagram."""


def main_line(tree: GameTree) -> list[MoveNode]:
    """Each first continuation."""
    found, children = [], tree.children
    while children:
        found.append(children[0])
        children = children[0].children
    return found


def drawn_in_line(tree: GameTree, side: str, told: Collection[Position]) -> list[MoveNode]:
    """The moves of a line after which a diagram stands.

    :param told: the positions of lines that were printed before.
    """
    line = main_line(tree)
    if not line:
        return []
    news = next((ply for ply, node in enumerate(line) if node.after not in told), len(line))
    parting = news if news < len(line) else _first_new_variation(tree, line, told)
    places = [parting - 1] if parting else []
    last = news - 1 if news else -1
    for ply in range(news, len(line)):
        if ply - last >= APART and _is_worth_a_look(line[ply], side):
            places.append(ply)
            last = ply
    if len(line) - 1 - last >= LAST_APART:
        places.append(len(line) - 1)
    return [line[place] for place in places]


def drawn_in_game(tree: GameTree) -> list[MoveNode]:
    """The moves of a whole game after which a diagram stands."""
    line = main_line(tree)
    if not line:
        return []
    parts = [1 / 2] if len(line) < SHORT_GAME else [1 / 3, 2 / 3]
    edges = [int(len(line) * part) for part in parts]
    return [
        _next_commented(line[edge:end])
        for edge, end in zip(edges, [*edges[1:], len(line)], strict=True)
    ]


def _first_new_variation(tree: GameTree, line: list[MoveNode], told: Collection[Position]) -> int:
    """The ply of the first variation that no earlier line has; 0 where there is none."""
    forks = [tree.children, *(node.children for node in line)]
    new = (any(node.after not in told for node in fork) for fork in forks)
    return next((ply for ply, is_new in enumerate(new) if is_new), 0)


def _is_worth_a_look(node: MoveNode, side: str) -> bool:
    marked = node.comment.squares or node.comment.arrows
    theirs = (node.after.turn == chess.WHITE) != (side == "white")
    return bool(marked) or (theirs and len(node.children) > 1)


def _next_commented(part: list[MoveNode]) -> MoveNode:
    return next((node for node in part if node.comment.text), part[0])
