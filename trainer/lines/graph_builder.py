"""Joins the trees of one side into the graph of lines, and tells where they contradict.

Trees come in deck order: chapters as listed, games as they stand in a file, moves as
written. The first continuation in that order is the deck's move of a position.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import chess

from trainer.lines.explanation import explanation, numbered_move
from trainer.lines.graph import BOOK, BookMove, BookPosition, LineGraph, Place, Standing
from trainer.lines.position import Position
from trainer.lines.titles import game_title
from trainer.lines.tree import NO_COMMENT, Comment, GameTree, MoveNode

MOST_PLIES = 400
"""In one line, both sides: each position keeps the moves that lead to it, so that what a line
costs grows with its square."""

MISTAKE_NAGS = frozenset({2, 4, 6})
PRAISE_NAGS = frozenset({1, 3, 5})


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two statements of the trees that cannot both hold, or that a coach should know of."""

    code: str
    """`mistake-first`, `mistake-and-book`, `line-too-long` (these forbid the deck) or
    `moves-disagree`."""
    chapter: str
    game: int
    line: int
    """The line of the chapter's file on which the later statement stands."""
    column: int
    message: str


@dataclass(frozen=True, slots=True)
class BuiltGraph:
    """A graph and what its trees disagree about."""

    graph: LineGraph
    contradictions: tuple[Contradiction, ...]


def build_graph(side: str, games: Iterable[tuple[str, GameTree]]) -> BuiltGraph:
    """The graph of all games of one side.

    :param side: `white` or `black`, whose moves are asked.
    :param games: pairs of chapter id and game, in deck order; their positions come from
        one pool, so that the same position is the same object.
    """
    builder = _Builder(side)
    for chapter, game in games:
        builder.add(chapter, game)
    return builder.finish()


@dataclass(slots=True)
class _MoveDraft:
    """What has been said so far of one move in one position."""

    first: MoveNode
    chapter: str
    game: int
    book: bool = False
    mistake: bool = False
    error: bool = False
    disagrees: bool = False
    """Some game plays it first where an earlier one plays another move."""
    share: float | None = None
    explanation: str = ""
    notes: dict[str, None] = field(default_factory=dict)
    squares: dict[str, None] = field(default_factory=dict)
    arrows: dict[str, None] = field(default_factory=dict)
    themes: dict[str, None] = field(default_factory=dict)

    def hear(self, comment: Comment) -> None:
        """Add what one place says; equal texts count once."""
        if comment is NO_COMMENT:
            return
        self.notes.update(dict.fromkeys(comment.text.split("\n") if comment.text else ()))
        self.squares.update(dict.fromkeys(comment.squares))
        self.arrows.update(dict.fromkeys(comment.arrows))
        self.themes.update(dict.fromkeys(comment.themes))
        if self.share is None:
            self.share = comment.share


@dataclass(slots=True)
class _PositionDraft:
    position: Position
    moves: dict[chess.Move, _MoveDraft] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The continuations of one position, still to be read."""

    children: list[MoveNode]
    position: Position
    ply: int
    """Plies before the move to come, by the move numbers of this game."""
    before: _Stretch | None = None
    """What led here; None at the start."""
    node: MoveNode | None = None
    """The move that led here."""
    length: int = 0
    """Plies from the start of the game."""

    def after(self, node: MoveNode) -> _Stretch:
        """What follows one of the moves."""
        return _Stretch(node.children, node.after, self.ply + 1, self, node, self.length + 1)

    def line(self) -> str:
        """The moves that lead here, as movetext."""
        moves: list[tuple[MoveNode, int]] = []
        stretch: _Stretch | None = self
        while stretch is not None and stretch.node is not None:
            moves.append((stretch.node, stretch.ply - 1))
            stretch = stretch.before
        moves.reverse()
        return " ".join(
            numbered_move(node, ply, always=number == 0) for number, (node, ply) in enumerate(moves)
        )


class _Builder:
    def __init__(self, side: str) -> None:
        self.side = side
        self.student = chess.WHITE if side == "white" else chess.BLACK
        self.drafts: dict[Position, _PositionDraft] = {}
        self.roots: dict[Position, None] = {}
        self.lines = 0
        self.contradictions: list[Contradiction] = []

    def add(self, chapter: str, game: GameTree) -> None:
        """Read one game, depth first and without recursion."""
        start = chess.Board(game.start_fen)
        self.roots.setdefault(game.start)
        introduction, title = game.introduction.text, game_title(game.tags)
        waiting = [_Stretch(game.children, game.start, start.ply())]
        while waiting:
            stretch = waiting.pop()
            if stretch.length > MOST_PLIES and stretch.node is not None:
                self._complain("line-too-long", chapter, game, stretch.node)
                break
            draft = self.drafts.get(stretch.position)
            if draft is None:
                draft = self.drafts[stretch.position] = _PositionDraft(stretch.position)
            if chapter not in draft.places:
                asked = stretch.position.turn == self.student and stretch.children
                place = Place(
                    chapter,
                    game.number,
                    stretch.line(),
                    game.start_fen,
                    introduction if asked else "",
                    title,
                )
                draft.places[chapter] = place
                introduction = "" if asked else introduction
            book = self._read_moves(chapter, game, draft, stretch)
            if not book and stretch.node is not None:
                self.lines += 1
            waiting.extend(stretch.after(child) for child in reversed(book))

    def _read_moves(
        self, chapter: str, game: GameTree, draft: _PositionDraft, stretch: _Stretch
    ) -> list[MoveNode]:
        """Note what is said of these moves; give back those that stay in the book."""
        ours = draft.position.turn == self.student
        book = []
        for index, node in enumerate(stretch.children):
            said = draft.moves.get(node.move)
            if said is None:
                said = draft.moves[node.move] = _MoveDraft(node, chapter, game.number)
            said.hear(node.comment)
            clashed = said.book and said.mistake
            bad = not MISTAKE_NAGS.isdisjoint(node.nags)
            said.book |= ours and bad and not PRAISE_NAGS.isdisjoint(node.nags)
            if not ours:
                said.error |= bad
                said.book = True
                book.append(node)
            elif bad or node.comment.aside:
                said.mistake |= bad
                said.explanation = said.explanation or explanation(node, stretch.ply)
                if index == 0:
                    self._complain("mistake-first", chapter, game, node)
            else:
                said.book = True
                book.append(node)
                if index == 0:
                    self._check_agreement(chapter, game, draft, node)
            if ours and said.book and said.mistake and not clashed:
                self._complain("mistake-and-book", chapter, game, node)
        return book

    def _check_agreement(
        self, chapter: str, game: GameTree, draft: _PositionDraft, node: MoveNode
    ) -> None:
        """Tell of another first move than the deck's; once, however many games play it."""
        deck_move = next(said.first for said in draft.moves.values() if said.book)
        said = draft.moves[node.move]
        if deck_move.move != node.move and not said.disagrees:
            said.disagrees = True
            self._complain("moves-disagree", chapter, game, node, deck_move.san)

    def _complain(
        self, code: str, chapter: str, game: GameTree, node: MoveNode, other: str = ""
    ) -> None:
        message = _COMPLAINTS[code].format(move=node.san, other=other)
        self.contradictions.append(
            Contradiction(code, chapter, game.number, node.line, node.column, message)
        )

    def finish(self) -> BuiltGraph:
        graph = LineGraph(
            side=self.side,
            positions={
                position.key: self._finish_position(draft)
                for position, draft in self.drafts.items()
            },
            roots=tuple(position.key for position in self.roots),
            lines=self.lines,
        )
        return BuiltGraph(graph, tuple(self.contradictions))

    def _finish_position(self, draft: _PositionDraft) -> BookPosition:
        moves = []
        ours = draft.position.turn == self.student
        deck_move_found = False
        for said in draft.moves.values():
            standing = _standing(said, ours, deck_move_found)
            deck_move_found |= standing is Standing.DECK
            moves.append(_finish_move(said, standing))
        moves.sort(key=lambda move: move.standing is not Standing.DECK)
        return BookPosition(draft.position.key, tuple(moves), tuple(draft.places.values()))


def _standing(said: _MoveDraft, ours: bool, deck_move_found: bool) -> Standing:
    if not ours:
        return Standing.REPLY
    if said.mistake:
        return Standing.MISTAKE
    if not said.book:
        return Standing.ASIDE
    return Standing.ACCEPTED if deck_move_found else Standing.DECK


def _finish_move(said: _MoveDraft, standing: Standing) -> BookMove:
    return BookMove(
        uci=said.first.move.uci(),
        san=said.first.san,
        standing=standing,
        after=said.first.after.key if standing in BOOK else "",
        note="\n".join(said.notes),
        explanation=said.explanation if standing not in BOOK else "",
        squares=tuple(said.squares),
        arrows=tuple(said.arrows),
        themes=tuple(said.themes),
        share=said.share,
        error=said.error,
    )


_COMPLAINTS = {
    "line-too-long": f"this line has more than {MOST_PLIES // 2} moves of each side; end it "
    "before this {move}",
    "mistake-first": "{move} is the first move given here but is marked as a mistake or an aside: "
    "put the deck's own move before it",
    "mistake-and-book": "{move} is marked as a mistake in one place and played as a book move in "
    "another: take one of the two away",
    "moves-disagree": "{move} is played here, where an earlier line plays {other}: it counts as an "
    "accepted alternative; make the lines agree if that is not meant",
}
