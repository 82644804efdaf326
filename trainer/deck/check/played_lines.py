"""The main lines of played games, as far as they can be told apart in a PGN file.

Forgiving where the reader of decks is strict, since nobody mends a file of thousands of
games: variations, comments and marks are passed over, a wrong number is none of its business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import chess

from trainer.lines.pgn_tokens import Source, Token, TokenKind


@dataclass(slots=True)
class PlayedLine:
    """The moves of one game."""

    fen: str = chess.STARTING_FEN
    """Where it starts, as its tags have it."""
    variant: str = ""
    """Other chess than the standard game's, as its tags have it."""
    moves: list[str] = field(default_factory=list)
    """As written; whether they can be played is not known here."""


def played_lines(text: str) -> Iterator[PlayedLine]:
    """The games of a PGN text that have moves, in order."""
    game = PlayedLine()
    depth = 0
    for token in Source(text).tokens():
        if token.kind is TokenKind.SYMBOL:
            if not depth:
                game.moves.append(token.text)
        elif token.kind is TokenKind.OPEN:
            depth += 1
        elif token.kind is TokenKind.CLOSE:
            depth = max(0, depth - 1)
        elif token.kind is TokenKind.TAG or (token.kind is TokenKind.RESULT and not depth):
            if game.moves:
                yield game
                game, depth = PlayedLine(), 0
            _take_tag(game, token)
    if game.moves:
        yield game


def _take_tag(game: PlayedLine, token: Token) -> None:
    if token.name == "FEN":
        game.fen = token.text
    elif token.name == "Variant" and token.text.casefold() not in ("standard", "from position"):
        game.variant = token.text
