"""Games as tests write them: movetext with comments, NAGs and variations, made into trees.

    game("1. e4 e5 (1... c5 {Sicilian} 2. Nf3) 2. Nf3 Nc6 (2... f6? {weak} 3. Nxe5)")

A text may start with a FEN in square brackets. This is no PGN reader: it trusts its text
and asserts where that is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import count

import chess

from trainer.lines.graph import LineGraph
from trainer.lines.graph_builder import BuiltGraph, build_graph
from trainer.lines.position import Position, PositionPool, full_fen
from trainer.lines.tree import NO_COMMENT, Comment, GameTree, MoveNode

Growth = Sequence[tuple[int, int, Comment, int | None]]
"""Moves to add: a node by number, one of its legal moves by number, a comment, a NAG."""

TOKEN = re.compile(r"\{[^}]*\}|[()]|\$\d+|\d+\.+|[^\s(){}$]+")
COMMAND = re.compile(r"\[%(\w+) ?([^\]]*)\]")
SUFFIX = {"!": 1, "?": 2, "!!": 3, "??": 4, "!?": 5, "?!": 6}


def game(text: str, *, pool: PositionPool | None = None, number: int = 1) -> GameTree:
    """One game; its position in the text gives the lines and columns of its moves."""
    fen, text = _start(text)
    board = chess.Board(fen)
    pool = PositionPool() if pool is None else pool
    tree = GameTree(number, 1, {}, pool.at(board), full_fen(board))
    Grower(tree, pool).read(text)
    return tree


def games(*texts: str) -> list[GameTree]:
    """The games of one file, or of one side: their positions are held once."""
    pool = PositionPool()
    return [game(text, pool=pool, number=number) for number, text in zip(count(1), texts)]


def built(side: str, *texts: str) -> BuiltGraph:
    """The graph of some games of one chapter, with what they disagree about."""
    return build_graph(side, [("lines", tree) for tree in games(*texts)])


def graph(side: str, *texts: str) -> LineGraph:
    """The graph of some games of one chapter."""
    return built(side, *texts).graph


def after(line: str) -> chess.Board:
    """The board after a line of SAN moves."""
    fen, text = _start(line)
    board = chess.Board(fen)
    for word in text.split():
        if not word[0].isdigit():
            board.push_san(word)
    return board


def key(line: str) -> str:
    """The position key after a line of SAN moves."""
    return after(line).epd()


def standings(book: LineGraph, line: str) -> list[str]:
    """The moves after a line with their standings, in the graph's order."""
    position = book.positions[key(line)]
    return [f"{move.san} {move.standing.value}" for move in position.moves]


def asked(book: LineGraph) -> list[str]:
    """The deck's moves in travel order."""
    return [card.deck_move.san for card in book.cards if card.deck_move]


def grown(growths: Iterable[Growth], fens: Sequence[str] = (chess.STARTING_FEN,)) -> list[GameTree]:
    """Trees that hypothesis grows: one a growth, from the FENs in turn."""
    pool = PositionPool()
    trees = []
    for number, growth in enumerate(growths):
        board = chess.Board(fens[number % len(fens)])
        tree = GameTree(number + 1, 1, {}, pool.at(board), full_fen(board))
        nodes: list[GameTree | MoveNode] = [tree]
        for parent_number, move_number, comment, nag in growth:
            parent = nodes[parent_number % len(nodes)]
            node = _sprout(parent, move_number, pool)
            if node is not None:
                node.comment = comment
                node.nags = () if nag is None else (nag,)
                nodes.append(node)
        trees.append(tree)
    return trees


class Grower:
    """Adds the moves of a text to a tree."""

    def __init__(self, tree: GameTree, pool: PositionPool) -> None:
        self.tree, self.pool = tree, pool
        self.parent: GameTree | MoveNode = tree
        self.last: GameTree | MoveNode = tree
        self.open: list[tuple[GameTree | MoveNode, GameTree | MoveNode]] = []

    def read(self, text: str) -> None:
        """All tokens, in order."""
        for match in TOKEN.finditer(text):
            token = match.group()
            if token == "(":
                self.open.append((self.parent, self.last))
                self.last = self.parent
            elif token == ")":
                self.parent, self.last = self.open.pop()
            elif token[0] == "{":
                self._say(token[1:-1])
            elif token[0] == "$":
                self._mark(int(token[1:]))
            elif not token[0].isdigit():
                line = text.count("\n", 0, match.start()) + 1
                column = match.start() - text.rfind("\n", 0, match.start())
                self._move(token, line, column)
        assert not self.open, "a variation is left open"

    def _move(self, token: str, line: int, column: int) -> None:
        san = token.rstrip("!?")
        board = _position(self.last).board
        move = board.parse_san(san)
        after_move = self.pool.after(_position(self.last), move)
        node = MoveNode(move, board.san(move), after_move, line, column)
        self.last.children.append(node)
        self.parent, self.last = self.last, node
        if suffix := token[len(san) :]:
            self._mark(SUFFIX[suffix])

    def _mark(self, nag: int) -> None:
        assert isinstance(self.last, MoveNode)
        self.last.nags = (*self.last.nags, nag)

    def _say(self, text: str) -> None:
        if isinstance(self.last, MoveNode):
            assert self.last.comment is NO_COMMENT, "write one comment a move"
            self.last.comment = comment(text)
        else:
            self.tree.introduction = comment(text)


def comment(text: str) -> Comment:
    """A comment as the deck reader would understand it, as far as tests need."""
    said = dict(COMMAND.findall(text))
    return Comment(
        text=COMMAND.sub("", text).strip(),
        squares=_names(said.get("csl", "")),
        arrows=_names(said.get("cal", "")),
        themes=_names(said.get("theme", "")),
        aside="aside" in said,
        share=int(said["share"]) / 100 if "share" in said else None,
    )


def _names(text: str) -> tuple[str, ...]:
    return tuple(name.strip() for name in text.split(",") if name.strip())


def _start(text: str) -> tuple[str, str]:
    if not text.startswith("["):
        return chess.STARTING_FEN, text
    fen, _, rest = text[1:].partition("]")
    return fen, rest


def _position(node: GameTree | MoveNode) -> Position:
    return node.after if isinstance(node, MoveNode) else node.start


def _sprout(parent: GameTree | MoveNode, move_number: int, pool: PositionPool) -> MoveNode | None:
    position = _position(parent)
    moves = list(position.board.legal_moves)
    if not moves:
        return None
    move = moves[move_number % len(moves)]
    if any(child.move == move for child in parent.children):
        return None
    node = MoveNode(move, position.board.san(move), pool.after(position, move), 1, 1)
    parent.children.append(node)
    return node
