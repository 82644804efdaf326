"""The movetext of one game, token by token, into its tree.

After a fault the rest of that line of play is skipped without a word, since what follows
cannot be judged; every other line is read on, so that one run finds all faults. Where
games begin and end is `pgn`'s business, what a move means `san`'s.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from trainer.deck.comments import joined, read_comment
from trainer.deck.findings import FindingList
from trainer.deck.limits import COMMENT_CHARS, DEPTH, MOVES, POSITIONS, SIBLINGS
from trainer.deck.line_of_play import LineOfPlay
from trainer.deck.san import BadMove, SanReader, TooManyPositions
from trainer.lines.pgn_tokens import Token, TokenKind
from trainer.lines.position import Position
from trainer.lines.tree import NO_COMMENT, GameTree, MoveNode

_SUFFIXES = {"!": 1, "?": 2, "!!": 3, "??": 4, "!?": 5, "?!": 6}

_A_NUMBERED_MOVE = re.compile(r"\b[1-9][0-9]{0,2}\.(?:\.\.)?\s?[KQRBNOa-h]")

_MOST_DIGITS = 9
"""Of a number; Python itself refuses thousands."""

_STRAY = {
    "<": "the PGN standard reserves < and >; remove them",
    ">": "the PGN standard reserves < and >; remove them",
    "}": "this } closes no comment; remove it, or add the { (comments do not nest)",
    "]": "this ] closes no tag; remove it",
    '"': "a string belongs into a tag; remove it, or put it between { and }",
    ".": "these periods belong to no move number; remove them",
    "[": "a tag begins its line, a command stands inside a comment; move it there",
}


class GameReader:
    """Reads one game; `READS` holds its method for each kind of token that goes to it alone."""

    def __init__(
        self,
        game: GameTree,
        start: Position | None,
        san: SanReader,
        findings: FindingList,
        most_moves: int,
    ) -> None:
        self.game = game
        self.moves = 0
        """How many were read, those of variations included."""
        self._most_moves = most_moves
        self._line = LineOfPlay(start, _ply_of(game.start_fen), game.children)
        self._outer: list[tuple[LineOfPlay, Token]] = []
        """The lines in which variations are open, each with its parenthesis."""
        self._san = san
        self._findings = findings
        self._side_told = False

    @property
    def is_in_variation(self) -> bool:
        """Whether a parenthesis is open."""
        return bool(self._outer)

    def comment(self, token: Token) -> None:
        """Give a comment to the move that it follows, or to the one it introduces."""
        line = self._line
        line.said += len(token.text)
        if line.said > COMMENT_CHARS:
            message = f"more than {COMMENT_CHARS} characters of comment in one place"
            self._findings.refuse(message, *token.place)
        brace = token.text.find("{")
        if brace > 0 and _A_NUMBERED_MOVE.search(token.text, 0, brace):
            # What a comment holds whose own end is missing: moves, and the next comment.
            message = "this comment holds moves and another {; end it before them with its }"
            self._findings.warn("brace-in-comment", message, *token.place)
        comment = read_comment(token.text, self._findings, token.place)
        if line.last is not None:
            line.last.comment = joined(line.last.comment, comment)
        elif self._outer:
            line.waiting = joined(line.waiting, comment)
        elif not line.moved:
            self.game.introduction = joined(self.game.introduction, comment)

    def stray(self, token: Token) -> None:
        """Report a token that stands for nothing here."""
        self._findings.error("unknown-token", _STRAY[token.text[0]], *token.place)

    def finish(self) -> None:
        """Say what only the end of the game shows."""
        if self._outer:
            _, opened = self._outer[0]
            message = "the variation that begins here is never closed; add its )"
            self._findings.error("unclosed-variation", message, *opened.place)
        elif not self._line.moved:
            self._findings.note("game-without-moves", "the game has no moves", self.game.line)

    def move(self, token: Token) -> None:
        """Play a move, or report why it cannot be played."""
        line = self._line
        if line.here is None:
            line.lose_track()
            return
        try:
            move, san, after = self._san.read(line.here, token.text)
        except TooManyPositions:
            self._findings.refuse(f"the deck has more than {POSITIONS} positions", token.line)
        except BadMove as bad:
            message = f"{_number_before(line.ply)} {bad.message}"
            self._findings.error(bad.code, message, *token.place)
            line.lose_track()
            return
        node = MoveNode(move, san, after, token.line, token.column)
        if line.children:
            self._compare(node, line.children)
        if line.waiting is not NO_COMMENT:
            node.comment, line.waiting = line.waiting, NO_COMMENT
        line.children.append(node)
        line.follow(node)
        self.moves += 1
        if self.moves > self._most_moves:
            self._findings.refuse(f"the deck holds more than {MOVES} moves", token.line)

    def _compare(self, node: MoveNode, siblings: list[MoveNode]) -> None:
        if len(siblings) >= SIBLINGS:
            self._findings.refuse(f"more than {SIBLINGS} moves stand in one place", node.line)
        if any(node.move == other.move for other in siblings):
            message = f"{node.san} stands twice in the same place; join the two"
            self._findings.warn("repeated-move", message, node.line, node.column)

    def number(self, token: Token) -> None:
        """Check a move number against the move that comes next."""
        line = self._line
        if line.here is None:
            return
        number, periods = _number_and_periods(token.text)
        shown, right = "".join(token.text.split())[:20], _number_before(line.ply)
        shift = number - line.ply // 2
        is_blacks = line.ply % 2 == 1
        if shift not in (0, line.shift):
            line.shift = shift
            message = f"{shown} is the wrong move number here; write {right}"
            self._findings.error("wrong-move-number", message, *token.place)
        elif periods > 1 and not is_blacks and not self._side_told:
            self._side_told = True
            message = f"{shown} announces a move of Black, but White is to move; write {right}"
            self._findings.error("wrong-move-number", message, *token.place)
        elif periods == 1 and is_blacks and not self._side_told:
            # The standard lets the number of periods free on import: legal, but seldom meant.
            self._side_told = True
            message = f"{shown} looks like a move of White, but Black is to move; write {right}"
            self._findings.warn("doubtful-move-number", message, *token.place)

    def suffix(self, token: Token) -> None:
        """Take one of the six marks behind a move as the NAG it stands for."""
        if nag := _SUFFIXES.get(token.text):
            self._annotate(nag, token)
            return
        message = f"{token.text[:20]} is none of the marks ! ? !! ?? !? ?!; use one of them"
        self._findings.error("unknown-suffix", message, *token.place)

    def nag(self, token: Token) -> None:
        """Take a NAG of the last move."""
        digits = token.text[1:]
        if digits and len(digits) <= _MOST_DIGITS and int(digits) <= 255:
            self._annotate(int(digits), token)
            return
        message = f"{token.text[:20]} is no annotation; they go from $0 to $255"
        self._findings.error("bad-nag", message, *token.place)

    def _annotate(self, nag: int, token: Token) -> None:
        last = self._line.last
        if last is None:
            if not self._line.moved:
                message = f"{token.text} stands before any move; put it behind the move it judges"
                self._findings.error("nag-before-move", message, *token.place)
        elif nag not in last.nags:
            last.nags += (nag,)

    def open(self, token: Token) -> None:
        """Begin a variation of the last move."""
        line = self._line
        if len(self._outer) == DEPTH:
            self._findings.refuse(f"variations go deeper than {DEPTH}", *token.place)
        if not line.moved:
            message = "a variation stands behind the move that it replaces; here is none yet"
            self._findings.error("variation-before-move", message, *token.place)
        self._outer.append((line, token))
        self._line = line.variation()

    def close(self, token: Token) -> None:
        """End a variation and go on behind the move it replaces."""
        if not self._outer:
            message = "this ) closes no variation; remove it, or add the ("
            self._findings.error("stray-parenthesis", message, *token.place)
            return
        if not self._line.moved:
            message = "this variation has no move; remove it"
            self._findings.error("empty-variation", message, *token.place)
        self._line, _ = self._outer.pop()


READS: Mapping[TokenKind, Callable[[GameReader, Token], None]] = {
    TokenKind.SYMBOL: GameReader.move,
    TokenKind.NUMBER: GameReader.number,
    TokenKind.SUFFIX: GameReader.suffix,
    TokenKind.NAG: GameReader.nag,
    TokenKind.OPEN: GameReader.open,
    TokenKind.CLOSE: GameReader.close,
    TokenKind.STRAY: GameReader.stray,
}


def _ply_of(fen: str) -> int:
    fields = fen.split()
    return 2 * int(fields[5]) + (fields[1] == "b")


@lru_cache(maxsize=1024)
def _number_and_periods(text: str) -> tuple[int, int]:
    return int(text.split(".")[0][:_MOST_DIGITS]), text.count(".")


def _number_before(ply: int) -> str:
    """`4.` or `4...`"""
    return f"{ply // 2}{'...' if ply % 2 else '.'}"
