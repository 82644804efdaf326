"""Joins the trees of one side into the graph of lines, and tells where they contradict.

Trees come in deck order: chapters as listed, games as they stand in a file, moves as
written. The first continuation in that order is the deck's move of a position.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import chess

from trainer.lines.graph import BOOK, BookMove, BookPosition, LineGraph, Place, Standing
from trainer.lines.position import Position
from trainer.lines.tree import Comment, GameTree, MoveNode

MISTAKE_NAGS = frozenset({2, 4, 6})


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two statements of the trees that cannot both hold, or that a coach should know of."""

    code: str
    """`mistake-first`, `mistake-and-book` (both forbid the deck) or `moves-disagree`."""
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
    :param games: pairs of chapter id and game, in deck order.
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
    share: float | None = None
    explanation: str = ""
    notes: dict[str, None] = field(default_factory=dict)
    squares: dict[str, None] = field(default_factory=dict)
    arrows: dict[str, None] = field(default_factory=dict)
    themes: dict[str, None] = field(default_factory=dict)

    def hear(self, comment: Comment) -> None:
        """Add what one place says; equal texts count once."""
        if comment.text:
            self.notes.setdefault(comment.text)
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
    line: str
    number: int
    """The full move number of the move to come."""


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
        waiting = [_Stretch(game.children, game.start, "", start.fullmove_number)]
        while waiting:
            stretch = waiting.pop()
            draft = self.drafts.get(stretch.position)
            if draft is None:
                draft = self.drafts[stretch.position] = _PositionDraft(stretch.position)
            if chapter not in draft.places:
                place = Place(chapter, game.number, stretch.line, game.start_fen)
                draft.places[chapter] = place
            book = self._read_moves(chapter, game, draft, stretch.children)
            if not book and stretch.line:
                self.lines += 1
            waiting.extend(_after(stretch, child) for child in reversed(book))

    def _read_moves(
        self, chapter: str, game: GameTree, draft: _PositionDraft, children: list[MoveNode]
    ) -> list[MoveNode]:
        """Note what is said of these moves; give back those that stay in the book."""
        ours = draft.position.turn == self.student
        book = []
        for index, node in enumerate(children):
            said = draft.moves.get(node.move)
            if said is None:
                said = draft.moves[node.move] = _MoveDraft(node, chapter, game.number)
            said.hear(node.comment)
            bad = not MISTAKE_NAGS.isdisjoint(node.nags)
            if not ours:
                said.error |= bad
                said.book = True
                book.append(node)
            elif bad or node.comment.aside:
                said.mistake |= bad
                said.explanation = said.explanation or explanation(node)
                if index == 0:
                    self._complain("mistake-first", chapter, game, node)
            else:
                said.book = True
                book.append(node)
                if index == 0:
                    self._check_agreement(chapter, game, draft, node)
            if ours and said.book and said.mistake:
                self._complain("mistake-and-book", chapter, game, node)
        return book

    def _check_agreement(
        self, chapter: str, game: GameTree, draft: _PositionDraft, node: MoveNode
    ) -> None:
        deck_move = next(said.first for said in draft.moves.values() if said.book)
        if deck_move.move != node.move:
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


def _after(stretch: _Stretch, node: MoveNode) -> _Stretch:
    white = stretch.position.turn == chess.WHITE
    number = "" if stretch.line and not white else f"{stretch.number}{'.' if white else '...'} "
    line = f"{stretch.line} {number}{node.san}" if stretch.line else f"{number}{node.san}"
    return _Stretch(node.children, node.after, line, stretch.number + (not white))


def explanation(mistake: MoveNode) -> str:
    """The moves after a mistake as movetext with their comments, variations in brackets."""
    words: list[str] = []
    # Text to write, or moves to read: the siblings after the first stand in brackets.
    waiting: list[tuple[Sequence[MoveNode], Position, bool] | str] = [
        (mistake.children, mistake.after, True)
    ]
    while waiting:
        entry = waiting.pop()
        if isinstance(entry, str):
            words.append(entry)
            continue
        children, position, numbered = entry
        if not children:
            continue
        main, *others = children
        words.append(_spoken(main, position, numbered))
        waiting.append((main.children, main.after, bool(main.comment.text or others)))
        for other in reversed(others):
            waiting.extend((")", (other.children, other.after, bool(other.comment.text))))
            waiting.append("(" + _spoken(other, position, True))
    return " ".join(words).replace(" )", ")")


def _spoken(node: MoveNode, position: Position, numbered: bool) -> str:
    board = position.board
    number = ""
    if board.turn == chess.WHITE:
        number = f"{board.fullmove_number}. "
    elif numbered:
        number = f"{board.fullmove_number}... "
    comment = " ".join(node.comment.text.split())
    return f"{number}{node.san}" + (f" – {comment}" if comment else "")


_COMPLAINTS = {
    "mistake-first": "{move} is the first move given here but is marked as a mistake or an aside: "
    "put the deck's own move before it",
    "mistake-and-book": "{move} is marked as a mistake in one place and played as a book move in "
    "another: take one of the two away",
    "moves-disagree": "{move} is played here, where an earlier line plays {other}: it counts as an "
    "accepted alternative; make the lines agree if that is not meant",
}
