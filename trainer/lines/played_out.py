"""What is played out move by move: the solution of a tactic with its defences, a model game.

Made of one tree each. A tactic's main line comes first, then the opponent's other defences
in the order in which the file has them; a game is one line. Who asks, and what a try
counts, belongs to the sitting.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

import chess

from trainer.lines.explanation import explanation
from trainer.lines.graph import BookMove, Standing, card_key, move_from_data, move_to_data
from trainer.lines.graph_builder import MISTAKE_NAGS
from trainer.lines.titles import exercise_title
from trainer.lines.tree import GameTree, MoveNode


@dataclass(frozen=True, slots=True)
class PlayedMove:
    """One move of a defence or a game."""

    move: BookMove
    """The solver's is the deck's, the opponent's a reply."""
    others: tuple[BookMove, ...] = ()
    """What else the author gives in its place; of a tactic's opponent that is defences."""


@dataclass(frozen=True, slots=True)
class Defence:
    """One way through a solution, from the first move to the last; a game has one."""

    moves: tuple[PlayedMove, ...]
    begins: int
    """The place of its own first move, from 0; what comes before, an earlier one has played."""


class Turn(NamedTuple):
    """One move that is asked."""

    defence: int
    """From 0, the main line."""
    ply: int
    """The place of the move in it, from 0."""


@dataclass(frozen=True)
class PlayedOut:
    """A tactic or a model game."""

    key: str
    """Position key of the start and the main line in UCI: a tactic's card."""
    number: int
    """The place of the game in its file, from 1."""
    title: str
    """Empty where the tags do not say."""
    introduction: str
    """What the author says before the first move."""
    start: str
    """Six FEN fields of the position in which it begins."""
    side: str
    """`white` or `black`: whose moves are asked."""
    tags: Mapping[str, str]
    """Those that a reader is shown: players, event, place, day, result."""
    defences: tuple[Defence, ...]

    @cached_property
    def turns(self) -> tuple[Turn, ...]:
        """The moves that are asked, in order."""
        first = chess.Board(self.start).turn == (self.side == "black")
        return tuple(
            Turn(number, ply)
            for number, defence in enumerate(self.defences)
            for ply in range(defence.begins, len(defence.moves))
            if ply % 2 == first
        )

    def beside(self, defence: int, ply: int) -> tuple[str, ...]:
        """What the author gives in place of a move, each as movetext with its comments."""
        number = chess.Board(self.start).ply() + ply
        return tuple(
            " ".join(
                part
                for part in (
                    _numbered(other.san, number, 0),
                    f"– {' '.join(other.note.split())}" if other.note else "",
                    other.explanation,
                )
                if part
            )
            for other in self.defences[defence].moves[ply].others
        )

    def movetext(self, defence: int, begin: int, end: int | None = None) -> str:
        """Some moves of a defence with their numbers; empty where there are none."""
        before = chess.Board(self.start).ply() + begin
        sans = [played.move.san for played in self.defences[defence].moves[begin:end]]
        return " ".join(_numbered(san, before + place, place) for place, san in enumerate(sans))


def _numbered(san: str, ply: int, place: int) -> str:
    number = f"{ply // 2 + 1}. " if ply % 2 == 0 else f"{ply // 2 + 1}... "
    return f"{number if ply % 2 == 0 or place == 0 else ''}{san}"


SHOWN_TAGS = ("White", "Black", "Event", "Site", "Date", "Round", "Result")


def tactic_of(tree: GameTree, side: str) -> PlayedOut:
    """The tactic that a tree sets, all the opponent's defences in file order.

    :param side: `white` or `black`, the solver's; empty for the side to move.
    """
    solver = side or ("white" if tree.start.turn == chess.WHITE else "black")
    return _played_out(tree, solver, tuple(_defences(tree, solver)))


def model_game_of(tree: GameTree, side: str) -> PlayedOut:
    """The game that a tree tells: its main line, with what the author gives beside it."""
    main = _main_line(tree.children)
    return _played_out(tree, side, (Defence(tuple(_played(tree, main, side, game=True)), 0),))


def _played_out(tree: GameTree, side: str, defences: tuple[Defence, ...]) -> PlayedOut:
    main = " ".join(played.move.uci for played in defences[0].moves) if defences else ""
    return PlayedOut(
        key=card_key(tree.start.key, main),
        number=tree.number,
        title=exercise_title(tree.tags),
        introduction=tree.introduction.text,
        start=tree.start_fen,
        side=side,
        tags={name: tree.tags[name] for name in SHOWN_TAGS if tree.tags.get(name)},
        defences=defences,
    )


def _main_line(children: Sequence[MoveNode]) -> list[tuple[MoveNode, Sequence[MoveNode]]]:
    """Each first continuation with the siblings among which it stands."""
    line = []
    while children:
        line.append((children[0], children[1:]))
        children = children[0].children
    return line


def _defences(tree: GameTree, solver: str) -> Iterator[Defence]:
    """The main line, then what the opponent can play instead, as it comes in the file."""
    found: list[tuple[list[tuple[MoveNode, Sequence[MoveNode]]], int]] = []
    waiting: list[tuple[list[tuple[MoveNode, Sequence[MoveNode]]], MoveNode | None]] = [([], None)]
    solver_first = (tree.start.turn == chess.WHITE) == (solver == "white")
    while waiting:
        before, first = waiting.pop()
        rest = [(first, ()), *_main_line(first.children)] if first else _main_line(tree.children)
        line = [*before, *rest]
        found.append((line, len(before)))
        for place in range(len(before), len(line)):
            if place % 2 == solver_first:
                played, others = line[place]
                # The same move twice is the reader's finding; as two defences it would ask for
                # different answers to one position.
                once = {other.move: other for other in reversed(others)}
                once.pop(played.move, None)
                waiting.extend((line[:place], other) for other in once.values())
    found = [entry for entry in found if entry[0]]
    found.sort(key=lambda entry: (entry[0][entry[1]][0].line, entry[0][entry[1]][0].column))
    for line, begins in found:
        yield Defence(tuple(_played(tree, line, solver, game=False)), begins)


def _played(
    tree: GameTree,
    line: Sequence[tuple[MoveNode, Sequence[MoveNode]]],
    side: str,
    game: bool,
) -> Iterator[PlayedMove]:
    first = chess.Board(tree.start_fen).ply()
    for ply, (node, others) in enumerate(line, first):
        asked = (ply % 2 == 0) == (side == "white")
        standing = Standing.DECK if asked else Standing.REPLY
        beside = others if asked or game else ()
        yield PlayedMove(
            _book_move(node, standing, "", asked and node.comment.aside),
            tuple(
                _book_move(other, _standing(other, asked, game), explanation(other, ply))
                for other in beside
            ),
        )


def _standing(node: MoveNode, asked: bool, game: bool) -> Standing:
    """As in lines; but what stands beside a game's move was not played, and is no answer."""
    if not asked:
        return Standing.REPLY
    if not MISTAKE_NAGS.isdisjoint(node.nags):
        return Standing.MISTAKE
    return Standing.ASIDE if game or node.comment.aside else Standing.ACCEPTED


def _book_move(node: MoveNode, standing: Standing, follows: str, aside: bool = False) -> BookMove:
    """:param aside: it is asked for, and told to be none of the deck's; that is an error too."""
    comment = node.comment
    return BookMove(
        uci=node.move.uci(),
        san=node.san,
        standing=standing,
        after="",
        note=comment.text,
        explanation=follows,
        squares=comment.squares,
        arrows=comment.arrows,
        themes=comment.themes,
        error=aside or not MISTAKE_NAGS.isdisjoint(node.nags),
    )


def played_out_to_data(whole: PlayedOut) -> dict[str, Any]:
    """The tactic or game as plain values for JSON."""
    return {
        **{name: getattr(whole, name) for name in _PLAIN},
        "tags": dict(whole.tags),
        "defences": [
            [
                defence.begins,
                [
                    [
                        move_to_data(step.move, {}),
                        [move_to_data(other, {}) for other in step.others],
                    ]
                    for step in defence.moves
                ],
            ]
            for defence in whole.defences
        ],
    }


def played_out_from_data(data: Mapping[str, Any]) -> PlayedOut:
    """The tactic or game that `played_out_to_data` wrote."""
    return PlayedOut(
        **{name: data[name] for name in _PLAIN},
        tags=data["tags"],
        defences=tuple(
            Defence(
                tuple(
                    PlayedMove(
                        move_from_data(move, []),
                        tuple(move_from_data(other, []) for other in others),
                    )
                    for move, others in moves
                ),
                begins,
            )
            for begins, moves in data["defences"]
        ),
    )


_PLAIN = ("key", "number", "title", "introduction", "start", "side")
