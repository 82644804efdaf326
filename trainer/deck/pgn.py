"""A PGN file into its games: where each begins and ends, and what stands between them.

Strict: every token outside comments belongs to a game or is a finding. Text becomes
tokens in `lines.pgn_tokens`, tokens become a tree in `game_reader`.
"""

from __future__ import annotations

import re
import sys
from contextlib import suppress

import chess

from trainer.deck.allowance import Allowance
from trainer.deck.clean import clean
from trainer.deck.findings import Finding, FindingList, StopReading
from trainer.deck.game_reader import READS, GameReader
from trainer.deck.limits import COMMENTS_BETWEEN, GAMES, POSITIONS
from trainer.deck.san import SanReader
from trainer.deck.tag_pairs import TagSection
from trainer.lines.pgn_tokens import Source, Token, TokenKind
from trainer.lines.position import Position, PositionPool, board_from_fen
from trainer.lines.tree import GameTree

_NEXT_SIGN = re.compile(r"\s*+(\S)")

_TAGS_AFTER_GAP = re.compile(
    r"""(?<=\n)[^\S\n]*+\n[^\S\n]*+(?P<tag>\[\s*+[A-Za-z0-9_]++\s*+"[^"\n]*+"\s*+\])"""
)
"""What no comment holds, unless its end is missing: a blank line, then a tag pair."""


def read_pgn(
    text: str, file: str, pool: PositionPool, allowance: Allowance | None = None
) -> tuple[list[GameTree], list[Finding]]:
    """The games of a PGN text and what is wrong with it.

    A game with an error is in the list as far as it could be read; one whose start is not
    known is left out.

    :param file: what the findings call the file.
    :param pool: takes the positions; share one among the files of a deck.
    :param allowance: what the deck may still hold; None where the file stands alone.
    """
    findings = FindingList(file)
    reader = _FileReader(Source(clean(text)), pool, findings, allowance or Allowance())
    with suppress(StopReading):
        reader.read()
    return reader.games, findings.finished()


class _FileReader:
    def __init__(
        self, source: Source, pool: PositionPool, findings: FindingList, allowance: Allowance
    ) -> None:
        self.games: list[GameTree] = []
        self._source = source
        self._pool = pool
        self._findings = findings
        self._san = SanReader(pool)
        self._starts: dict[str, Position] = {}
        self._count = 0
        self._allowance = allowance
        self._section: TagSection | None = None
        """The tags of the game that is being read; None between games."""
        self._game: GameReader | None = None
        """The game whose movetext is being read."""
        self._between: list[Token] = []
        """Comments since the last game."""
        self._skips = False
        """Whether moves between games were reported already."""

    def read(self) -> None:
        """Read the whole file."""
        start: int | None = 0
        while start is not None:
            start = self._read_from(start)
        if self._section:
            self._end_game(self._section, None)
        self._note_comments_between()
        if not self._count and not self._findings.finished():
            self._findings.error("no-game", "the file holds no game; add one or remove the file")

    def _read_from(self, start: int) -> int | None:
        """Read on from an offset; gives back where to go on if that is not the next token."""
        for token in self._source.tokens(start):
            read, game = READS.get(token.kind), self._game
            if read and game:
                read(game, token)
            elif resume := self._read_other(token):
                return resume
        return None

    def _read_other(self, token: Token) -> int | None:
        kind = token.kind
        if kind is TokenKind.COMMENT or kind is TokenKind.OPEN_COMMENT:
            return self._comment(token)
        if kind is TokenKind.RESULT:
            self._result(token)
        elif kind is TokenKind.TAG or (
            kind is TokenKind.BAD_TAG and (token.column == 1 or not self._game)
        ):
            self._tag(token)
        elif self._game:
            self._game.stray(token)
        else:
            self._first_of_movetext(token)
        return None

    def _tag(self, token: Token) -> None:
        if self._section and (self._game or self._section.is_over_before(token)):
            self._end_game(self._section, None)
        if not self._section:
            self._note_comments_between()
        section = self._section or self._begin_game(token.line)
        section.add(token, self._findings)

    def _first_of_movetext(self, token: Token) -> None:
        """Open the movetext, unless this token only trails behind the game before it."""
        if self._section or not self._count or token.text in ("1.", "1"):
            READS[token.kind](self._open_movetext(token.line), token)
        elif not self._skips:
            self._skips = True
            message = "the game ended with its result; remove what follows it, or give it tags"
            self._findings.error("moves-after-result", message, *token.place)

    def _result(self, token: Token) -> None:
        if not self._section and self._count:
            if not self._skips:
                message = f"the game has ended already; remove this {token.text}"
                self._findings.error("second-result", message, *token.place)
            self._skips = False
            return
        section = self._section or self._begin_game(token.line)
        if self._game and self._game.is_in_variation and self._movetext_follows(token):
            message = (
                f"{token.text} stands inside a variation; only the game has a result, remove it"
            )
            self._findings.error("result-in-variation", message, *token.place)
        else:
            self._end_game(section, token)

    def _comment(self, token: Token) -> int | None:
        swallowed = self._tags_inside(token)
        if swallowed or token.kind is TokenKind.OPEN_COMMENT:
            tags = " and runs on into the tags of another game" if swallowed else ""
            message = f"the comment that begins here is never closed{tags}; add its }}"
            self._findings.error("unclosed-comment", message, *token.place)
            self._forget_game()
        elif self._section:
            (self._game or self._open_movetext(token.line)).comment(token)
        else:
            if len(self._between) == COMMENTS_BETWEEN:
                message = f"more than {COMMENTS_BETWEEN} comments between two games"
                self._findings.refuse(message, *token.place)
            self._between.append(token)
        return swallowed

    def _begin_game(self, line: int) -> TagSection:
        if self._count == GAMES:
            self._findings.refuse(f"the file holds more than {GAMES} games", line)
        self._count += 1
        self._findings.game = self._count
        self._skips = False
        self._section = TagSection(line)
        return self._section

    def _open_movetext(self, line: int) -> GameReader:
        section = self._section or self._begin_game(line)
        known = section.start_fen(self._findings)
        fen = known or chess.STARTING_FEN
        start = self._start_at(fen)
        tree = GameTree(self._count, section.line, section.tags, start, fen)
        self._game = GameReader(
            tree, start if known else None, self._san, self._findings, self._allowance.moves
        )
        if known:
            self.games.append(tree)
        for comment in self._between:
            self._game.comment(comment)
        self._between = []
        return self._game

    def _start_at(self, fen: str) -> Position:
        start = self._starts.get(fen)
        if start is None:
            if len(self._pool) >= POSITIONS:
                self._findings.refuse(f"the deck has more than {POSITIONS} positions")
            start = self._starts[fen] = self._pool.at(board_from_fen(fen))
        return start

    def _end_game(self, section: TagSection, result: Token | None) -> None:
        game = self._game or self._open_movetext(section.line)
        game.finish()
        if result is None:
            message = "the game has no result at its end; add * (or 1-0, 0-1, 1/2-1/2)"
            self._findings.warn("missing-termination", message, section.line)
        elif (tag := section.tags.get("Result", result.text)) != result.text:
            message = f'the tag Result is "{tag[:20]}" but the moves end with {result.text}'
            self._findings.warn("result-differs", f"{message}; correct one of them", *result.place)
        self._forget_game()

    def _forget_game(self) -> None:
        if self._game:
            self._allowance.moves -= self._game.moves
        self._section = self._game = None

    def _tags_inside(self, token: Token) -> int | None:
        """Where in a comment the tags of another game begin."""
        if "\n" not in token.text or "[" not in token.text:
            return None
        start = self._source.offset_of(token)
        end = self._source.text.find("}", start)
        found = _TAGS_AFTER_GAP.search(self._source.text, start, end if end >= 0 else sys.maxsize)
        return found.start("tag") if found else None

    def _movetext_follows(self, token: Token) -> bool:
        """Whether what comes after a result can belong to the same game."""
        behind = self._source.offset_of(token) + len(token.text)
        following = _NEXT_SIGN.match(self._source.text, behind)
        return following is not None and following[1] != "["

    def _note_comments_between(self) -> None:
        """Say that comments are lost; not those before the first game, the file's preface."""
        if self._count:
            for comment in self._between:
                message = "a comment between two games is not shown; move it into one of them"
                self._findings.note("comment-between-games", message, *comment.place)
        self._between = []
