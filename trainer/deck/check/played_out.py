"""What a coach may want to know of tactics: silent, unfinished or unexplained ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import chess

from trainer.deck.check.spots import Spot
from trainer.deck.compiled import CompiledDeck
from trainer.deck.deck import Deck, Kind
from trainer.deck.findings import Finding
from trainer.lines.graph import BookMove, Standing
from trainer.lines.played_out import PlayedOut, Turn
from trainer.lines.position import board_from_fen
from trainer.lines.tree import GameTree, MoveNode


class Tactic:
    """A tactic, its boards, and where its moves stand."""

    def __init__(self, file: str, tree: GameTree, played: PlayedOut) -> None:
        self.played = played
        self._file = file
        self._tree = tree

    @property
    def spot(self) -> Spot:
        """The place of the game."""
        return Spot(self._file, self._tree.number, self._tree.line)

    def board(self, defence: int, ply: int) -> chess.Board:
        """The board before a move of a defence; behind its last move the end of it."""
        board = board_from_fen(self.played.start)
        for step in self.played.defences[defence].moves[:ply]:
            board.push_uci(step.move.uci)
        return board

    def spot_of(self, defence: int, ply: int, instead: str = "") -> Spot:
        """The place of a move of a defence.

        :param instead: the move (UCI) that stands beside it and is meant.
        """
        ucis = [step.move.uci for step in self.played.defences[defence].moves[: ply + 1]]
        if instead:
            ucis[-1] = instead
        node = _node(self._tree, ucis)
        return Spot(self._file, self._tree.number, node.line, node.column)

    def line(self, turn: Turn) -> str:
        """The moves that lead to a turn, as movetext."""
        return self.played.movetext(turn.defence, 0, turn.ply)


def tactics(deck: Deck, compiled: CompiledDeck) -> Iterator[Tactic]:
    """All tactics of a deck."""
    for chapter in deck.chapters:
        if chapter.kind is Kind.TACTICS:
            trees = {tree.number: tree for tree in chapter.games}
            for played in compiled.played[chapter.id]:
                yield Tactic(chapter.file, trees[played.number], played)


def unanswered_defences(tactic: Tactic) -> Iterator[Finding]:
    """The opponent's other defences in which the solver has no move."""
    answered = {turn.defence for turn in tactic.played.turns}
    for number, defence in enumerate(tactic.played.defences):
        end = tactic.board(number, len(defence.moves))
        if number not in answered and any(end.legal_moves):
            san = defence.moves[-1].move.san
            message = f"the defence {san} has no answer; add the solver's move, or remove it"
            spot = tactic.spot_of(number, defence.begins)
            yield spot.warning("defence-without-answer", message)


def unexplained_mistakes(tactic: Tactic) -> Iterator[Finding]:
    """Known mistakes beside the solution after which no move shows what is wrong with them."""
    for turn, move in _beside(tactic.played):
        board = tactic.board(*turn)
        board.push_uci(move.uci)
        if not move.explanation and any(board.legal_moves):
            message = (
                f"no move shows what is wrong with {move.san}; "
                "write the refutation after it, in its variation"
            )
            spot = tactic.spot_of(*turn, instead=move.uci)
            yield spot.warning("mistake-without-refutation", message)


def is_silent(played: PlayedOut) -> bool:
    """Whether nothing is said of a solution, neither before it nor at the solver's moves."""
    return not played.introduction and not any(
        played.defences[turn.defence].moves[turn.ply].move.note for turn in played.turns
    )


def _beside(played: PlayedOut) -> Iterator[tuple[Turn, BookMove]]:
    for turn in played.turns:
        for move in played.defences[turn.defence].moves[turn.ply].others:
            if move.standing is Standing.MISTAKE:
                yield turn, move


def _node(tree: GameTree, ucis: Sequence[str]) -> MoveNode:
    """The move at the end of a path through a tree, in which a move may stand twice."""
    children = tree.children
    found: list[MoveNode] = []
    for uci in ucis:
        found = [child for child in children if child.move.uci() == uci]
        children = [below for node in found for below in node.children]
    return found[0]
