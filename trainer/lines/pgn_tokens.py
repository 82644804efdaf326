"""The tokens of the PGN standard (Edwards, 1994, sections 5 to 8) with their line and column.

Every sign that is no white space and stands on no `%` line is part of exactly one token:
what the standard does not know comes out as a token too, so that a reader can say so.
What tokens mean, and which of them are errors, is the reader's business.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple


class TokenKind(StrEnum):
    """What a token is; the values are the group names of the pattern below."""

    TAG = "tag"
    """A whole tag pair, brackets included."""
    BAD_TAG = "bad_tag"
    """A `[` that begins no sound tag pair, as far as its `]` or the end of the line."""
    NUMBER = "number"
    """A move number, its periods (if any) included: `12.`, `12`, `12 ...`; not `0000`,
    which is a move (none) in UCI."""
    SYMBOL = "symbol"
    """A move, or any other word."""
    SUFFIX = "suffix"
    """A run of `!` and `?`."""
    NAG = "nag"
    """`$` and its digits (there may be none)."""
    OPEN = "open"
    """`(`"""
    CLOSE = "close"
    """`)`"""
    RESULT = "result"
    """`1-0`, `0-1`, `1/2-1/2` or `*`."""
    COMMENT = "comment"
    """A `{}` or a `;` comment."""
    OPEN_COMMENT = "open_comment"
    """A `{` comment that the file does not close."""
    STRAY = "stray"
    """What stands for nothing here: periods without a number, a string, `<...>`, `]`, `}`."""

    # Enum hashes by name, in Python; tokens are looked up by kind once each.
    __hash__ = str.__hash__


class Token(NamedTuple):
    """One token and its place."""

    kind: TokenKind
    text: str
    """As written; of a sound tag pair its value, of a comment what it holds."""
    line: int
    """From 1; only LF, CR LF and CR end a line."""
    column: int
    """From 1, in characters."""
    name: str = ""
    """The name of a sound tag pair."""

    @property
    def place(self) -> tuple[int, int]:
        """Line and column."""
        return self.line, self.column


_END_OF_WORD = r"""\s.!?*$;"()\[\]{}<>"""

_PATTERN = re.compile(
    rf"""\s*+(?:
    (?P<number>(?!0000)[0-9]++(?![^{_END_OF_WORD}])(?:\s*+\.)*+)
  | (?P<result>(?:1-0|0-1|1/2-1/2)(?![^{_END_OF_WORD}])|\*)
  | (?P<symbol>[^{_END_OF_WORD}]++(?:(?<=e)\.p\.?)?)
  | (?P<tag>\[\s*+(?P<name>[A-Za-z0-9_]++)\s*+"(?P<value>(?:[^"\\\n\v]|\\[^\n\v])*+)"\s*+\])
  | (?P<comment>\{{[^}}]*+\}})
  | (?P<rest_of_line>;[^\n\v]*+)
  | (?P<suffix>[!?]++)
  | (?P<nag>\$[0-9]*+)
  | (?P<open>\()
  | (?P<close>\))
  | (?P<open_comment>\{{[^}}]*+)
  | (?P<bad_tag>\[(?:"(?:[^"\\\n\v]|\\[^\n\v])*+"|[^"\]\n\v])*+(?:"[^\n\v]*+|\])?)
  | (?P<stray>\.++|"[^"\n\v]*+"?|<[^<>\n\v]*+>?|[]}}>])
  )""",
    re.VERBOSE,
)

_GROUPS = _PATTERN.groupindex

_KINDS = {_GROUPS[kind.value]: kind for kind in TokenKind} | {
    _GROUPS["rest_of_line"]: TokenKind.COMMENT
}

_TAG = _GROUPS["tag"]

_INSIDE = {
    _GROUPS["comment"]: slice(1, -1),
    _GROUPS["rest_of_line"]: slice(1, None),
    _GROUPS["open_comment"]: slice(1, None),
}
"""What of a comment is not its marks."""

_ESCAPED = "\v"
"""Stands for the end of a line and the `%` line after it, which is taken out. It ends a
line and is white space, but never makes a blank line in a comment."""


class Source:
    """A PGN text, ready to be taken apart from any place."""

    def __init__(self, text: str) -> None:
        self.text = _without_escape_lines(text).rstrip()
        """What is taken apart: its ends of line are LF, its `%` lines are gone."""
        self._line_starts = [0, *(end.end() for end in re.finditer(r"[\n\v]", self.text))]

    def tokens(self, start: int = 0) -> Iterator[Token]:
        """The tokens from this offset of the text on, which must not lie inside one."""
        line = bisect_right(self._line_starts, start)
        starts = [*self._line_starts, len(self.text) + 1]
        line_start, next_line = starts[line - 1 : line + 1]
        for match in _PATTERN.finditer(self.text, start):
            group = match.lastindex or 0
            text, name = match[group], ""
            at = match.end() - len(text)
            while at >= next_line:
                line += 1
                line_start, next_line = next_line, starts[line]
            if group == _TAG:
                text, name = _unescaped(match["value"]), match["name"]
            elif group in _INSIDE:
                text = text[_INSIDE[group]].replace(_ESCAPED, "")
            yield Token(_KINDS[group], text, line, at - line_start + 1, name)

    def offset_of(self, token: Token) -> int:
        """Where in the text a token begins."""
        return self._line_starts[token.line - 1] + token.column - 1


def _without_escape_lines(text: str) -> str:
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace(_ESCAPED, " ")
    if text.startswith("%"):
        text = re.sub(r"\A[^\n]*", "", text)
    return re.sub(r"\n%[^\n]*", _ESCAPED, text)


def _unescaped(string: str) -> str:
    return re.sub(r'\\(["\\])', r"\1", string) if "\\" in string else string
