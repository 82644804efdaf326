"""Ideas whose answer the deck's own lines call a mistake in that very position."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import chess

from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, Severity
from trainer.lines.graph import LineGraph, Standing
from trainer.lines.idea import Idea
from trainer.lines.movetext import read_movetext
from trainer.lines.position import board_from_fen, position_key


def contradicted_ideas(deck: Deck, graphs: Mapping[str, LineGraph]) -> Iterator[Finding]:
    """The ideas that ask for a move which the lines of its side mark as a mistake.

    :param graphs: the lines by side.
    """
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            if idea.move and (san := _marked(idea, graphs)):
                message = (
                    f"the answer {san} is marked as a mistake in the deck's lines; "
                    "correct the idea, or unmark the move there"
                )
                yield Finding(
                    "idea-contradicted",
                    Severity.ERROR,
                    chapter.file,
                    idea.place,
                    idea.file_line,
                    None,
                    message,
                )


def board_of(idea: Idea) -> chess.Board:
    """The board about which an idea asks."""
    board = board_from_fen(idea.start)
    for move in read_movetext(idea.line, board):
        board.push(move)
    return board


def _marked(idea: Idea, graphs: Mapping[str, LineGraph]) -> str:
    """The answer in standard notation where it is marked; else empty."""
    board = board_of(idea)
    graph = graphs.get(chess.COLOR_NAMES[board.turn])
    position = graph and graph.get(position_key(board))
    move = position and position.move(idea.move)
    return move.san if move and move.standing is Standing.MISTAKE else ""
