"""The main lines of played games, as far as they can be told apart in a PGN file.

Forgiving where the reader of decks is strict, since nobody mends a file of thousands of
games: variations, comments and marks are passed over, a wrong number is none of its business.
"""

from __future__ import annotations

import re
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
    """The games of a PGN text that have moves, in order.

    A comment that is never closed ends with its game.
    """
    source, reader = Source(text), _Reader()
    for token in source.tokens():
        if token.kind is TokenKind.OPEN_COMMENT:
            yield from _ended(reader)
            # No brace is closed any more from here on, so each game is looked at by itself.
            for piece in _NEXT_GAME.split(text[source.offset_of(token) :])[1:]:
                yield from _up_to_open_comment(piece)
            return
        if finished := reader.take(token):
            yield finished
    yield from _ended(reader)


def _up_to_open_comment(text: str) -> Iterator[PlayedLine]:
    reader = _Reader()
    for token in Source(text).tokens():
        if token.kind is TokenKind.OPEN_COMMENT:
            break
        if finished := reader.take(token):
            yield finished
    yield from _ended(reader)


def _ended(reader: _Reader) -> Iterator[PlayedLine]:
    if last := reader.end():
        yield last


_NEXT_GAME = re.compile(r"\n[^\S\n]*+\n\s*+(?=\[[A-Za-z0-9_]++\s*+\")")


class _Reader:
    """Gathers tokens into games."""

    def __init__(self) -> None:
        self._game = PlayedLine()
        self._depth = 0
        self._ended = False
        """The game, without a move so far, had its result: its tags are not the next one's."""

    def take(self, token: Token) -> PlayedLine | None:
        """Take a token; the game that it shows to be over."""
        finished = None
        if self._ended and token.kind is TokenKind.TAG:
            self.end()
        if token.kind is TokenKind.SYMBOL:
            if not self._depth:
                self._game.moves.append(token.text)
        elif token.kind is TokenKind.OPEN:
            self._depth += 1
        elif token.kind is TokenKind.CLOSE:
            self._depth = max(0, self._depth - 1)
        elif token.kind is TokenKind.TAG or (token.kind is TokenKind.RESULT and not self._depth):
            if self._game.moves:
                finished = self.end()
            self._ended = token.kind is TokenKind.RESULT
            _take_tag(self._game, token)
        return finished

    def end(self) -> PlayedLine | None:
        """Begin another game; the one before, where it has moves."""
        finished, self._game = self._game, PlayedLine()
        self._depth, self._ended = 0, False
        return finished if finished.moves else None


def _take_tag(game: PlayedLine, token: Token) -> None:
    if token.name == "FEN":
        game.fen = token.text
    elif token.name == "Variant" and token.text.casefold() not in ("standard", "from position"):
        game.variant = token.text
