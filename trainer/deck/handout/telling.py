"""A tree of moves as paragraphs in the style of a book, with diagrams in their places.

The main line is set apart; a variation is a paragraph of its own, one level deeper, behind
the move that it replaces; a comment stands behind its move. Trees may be thousands of
variations deep, so nothing here recurses.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

import chess

from trainer.deck.handout.pages import Block, Diagram, Manner, Paragraph, Word
from trainer.deck.handout.references import Reference
from trainer.lines.explanation import numbered_move
from trainer.lines.graph_builder import MISTAKE_NAGS
from trainer.lines.position import Position, full_fen
from trainer.lines.tree import GameTree, MoveNode

MARKS = {
    1: "!",
    2: "?",
    3: "!!",
    4: "??",
    5: "!?",
    6: "?!",
    10: " =",
    14: " +=",
    15: " =+",
    16: " +/-",
    17: " -/+",
    18: " +-",
    19: " -+",
}
"""The NAGs that are printed (PGN standard, section 10), as signs of plain type."""


@dataclass(frozen=True, slots=True)
class _Run:
    """Moves still to be told: the first and, beside it, its variations."""

    nodes: Sequence[MoveNode]
    ply: int
    """Plies before them, by the move numbers of the game."""
    level: int
    trained: bool
    """Whether these are moves of the deck, not the explanation of a mistake or an aside."""
    label: str = ""


def tell(
    tree: GameTree,
    side: str,
    drawn: Collection[MoveNode] = (),
    onward: Mapping[Position, Reference] | None = None,
    anchor: str = "",
    trained: bool = True,
) -> tuple[Block, ...]:
    """The introduction and all moves of a tree.

    :param side: whose moves are asked.
    :param drawn: the moves after which a diagram stands.
    :param onward: where lines that end go on.
    :param anchor: where this one stands.
    :param trained: False where moves beside the main line are neither right nor wrong.
    """
    teller = _Teller(side, drawn, onward or {}, anchor)
    blocks: list[Block] = [said(text) for text in tree.introduction.text.split("\n") if text]
    waiting = [_Run(tree.children, chess.Board(tree.start_fen).ply(), 0, trained)]
    while waiting:
        run = waiting.pop()
        if run.nodes:
            told, rest = teller.tell(run)
            blocks += told
            waiting.extend(reversed(rest))
    return tuple(blocks)


def said(text: str, level: int = 0) -> Paragraph:
    """A paragraph of the author's."""
    return Paragraph((Word(text, Manner.SAID),), level)


def own(text: str) -> Paragraph:
    """A paragraph of ours."""
    return Paragraph((Word(text, Manner.OWN),))


def diagram_after(node: MoveNode, ply: int, side: str) -> Diagram:
    """The position after a move, with the author's marks.

    :param ply: plies before the move.
    """
    return Diagram(
        full_fen(node.after.board),
        side,
        f"After {numbered_move(node, ply, True)}",
        node.comment.squares,
        node.comment.arrows,
    )


class _Teller:
    def __init__(
        self,
        side: str,
        drawn: Collection[MoveNode],
        onward: Mapping[Position, Reference],
        anchor: str,
    ) -> None:
        self._white = side == "white"
        self._side = side
        self._drawn = {id(node) for node in drawn}
        self._onward = onward
        self._anchor = anchor

    def tell(self, run: _Run) -> tuple[list[Block], list[_Run]]:
        """One paragraph, up to the next variations or comment; and what comes after it."""
        words = [Word(run.label, Manner.OWN)] if run.label else []
        nodes, ply, level = run.nodes, run.ply, run.level
        manner = Manner.MAIN if level == 0 else Manner.MOVE
        numbered = True
        while True:
            node, *others = nodes
            words.append(Word(numbered_move(node, ply, numbered) + _marks(node), manner))
            words += _share(node)
            first, *more = node.comment.text.split("\n") if level == 0 else [_folded(node)]
            comment = [Word(first, Manner.SAID)] if first else []
            words += [*comment, *_themes(node), *self._reference(node, run.trained)]
            drawn = id(node) in self._drawn
            nodes, ply = node.children, ply + 1
            if others or not nodes or drawn or (level == 0 and comment):
                break
            numbered = bool(comment)
        blocks: list[Block] = [Paragraph(tuple(words), level), *map(said, more)]
        if drawn:
            blocks.append(diagram_after(node, ply - 1, self._side))
        variations = [self._variation(other, ply - 1, run) for other in others]
        return blocks, [*variations, _Run(nodes, ply, level, run.trained)]

    def _variation(self, node: MoveNode, ply: int, run: _Run) -> _Run:
        ours = (ply % 2 == 0) == self._white
        if not run.trained or not ours:
            return _Run((node,), ply, run.level + 1, run.trained)
        label = _standing(node)
        return _Run((node,), ply, run.level + 1, label == _ACCEPTED, label)

    def _reference(self, node: MoveNode, trained: bool) -> Iterator[Word]:
        if trained and not node.children and node.after in self._onward:
            yield self._onward[node.after].seen_from(self._anchor)


_ACCEPTED, _MISTAKE, _ASIDE = "Also right:", "A mistake:", "Not ours:"


def _standing(node: MoveNode) -> str:
    """What a move beside the deck's is to the student, as in the chapters of lines."""
    if not MISTAKE_NAGS.isdisjoint(node.nags):
        return _MISTAKE
    return _ASIDE if node.comment.aside else _ACCEPTED


def _marks(node: MoveNode) -> str:
    return "".join(MARKS[nag] for nag in sorted(node.nags) if nag in MARKS)


def _share(node: MoveNode) -> Iterator[Word]:
    if node.comment.share is not None:
        yield Word(f"({node.comment.share * 100:.3g}%)", Manner.SHARE)


def _folded(node: MoveNode) -> str:
    return " ".join(node.comment.text.split("\n"))


def _themes(node: MoveNode) -> Iterator[Word]:
    if node.comment.themes:
        yield Word(f"[{', '.join(node.comment.themes)}]", Manner.SAID)
