"""Where reading stands in one line of play: the main line of a game, or a variation.

Plain state and its three steps; what a token means and what is wrong with it is decided by
the reader of the game.
"""

from __future__ import annotations

from trainer.lines.position import Position
from trainer.lines.tree import NO_COMMENT, Comment, MoveNode


class LineOfPlay:
    """One line while it is read."""

    __slots__ = (
        "before",
        "children",
        "here",
        "last",
        "moved",
        "ply",
        "said",
        "shift",
        "siblings",
        "waiting",
    )

    def __init__(self, here: Position | None, ply: int, children: list[MoveNode]) -> None:
        self.here = here
        """Where the next move is made; None after a fault."""
        self.before: Position | None = None
        """Where the last move was made; None where that is not known."""
        self.ply = ply
        """Of the next move: twice its number, and one more if it is Black's."""
        self.children = children
        """Takes the next move."""
        self.siblings: list[MoveNode] = []
        """Holds the last move, and takes its variations."""
        self.last: MoveNode | None = None
        """The last move; None before the first one and after a fault."""
        self.moved = False
        """Whether there was a move, sound or not."""
        self.waiting: Comment = NO_COMMENT
        """What was said before the first move; the move takes it."""
        self.said = 0
        """Characters of comment since the last move."""
        self.shift = 0
        """By how much the move numbers are wrong, once that was reported."""

    def follow(self, node: MoveNode) -> None:
        """Play the move of this node, which stands in `children` already."""
        self.siblings, self.children = self.children, node.children
        self.before, self.here, self.last = self.here, node.after, node
        self.moved = True
        self.ply += 1
        self.said = 0

    def lose_track(self) -> None:
        """Go past a move that nobody can play; what comes after it cannot be judged."""
        self.siblings, self.children = self.children, []
        self.before, self.here, self.last = self.here, None, None
        self.moved = True
        self.ply += 1

    def variation(self) -> LineOfPlay:
        """A new line in place of the last move."""
        line = LineOfPlay(self.before, self.ply - 1, self.siblings)
        line.shift = self.shift
        return line
