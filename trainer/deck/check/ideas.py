"""Ideas whose answer the deck's own lines call a mistake in that very position."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import chess

from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, Severity
from trainer.lines.graph import LineGraph, Standing
from trainer.lines.idea import Idea
from trainer.lines.position import position_key


def ideas_against_lines(deck: Deck, graphs: Mapping[str, LineGraph]) -> Iterator[Finding]:
    """The ideas that ask for a move which the lines of its side mark as a mistake.

    :param graphs: the lines by side.
    """
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            if idea.move and (san := _marked(idea, graphs)):
                message = (
                    f"the answer {san} is marked as a mistake in the deck's lines; correct one "
                    "of the two, or ask for the mistake with choose"
                )
                yield Finding(
                    "idea-against-lines",
                    Severity.WARNING,
                    chapter.file,
                    idea.place,
                    idea.file_line,
                    None,
                    message,
                )


def _marked(idea: Idea, graphs: Mapping[str, LineGraph]) -> str:
    """The answer in standard notation where it is marked; else empty."""
    board = idea.board
    graph = graphs.get(chess.COLOR_NAMES[board.turn])
    position = graph and graph.get(position_key(board))
    move = position and position.move(idea.move)
    return move.san if move and move.standing is Standing.MISTAKE else ""
