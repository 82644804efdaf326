"""The tag pairs of one game, and the position in which they make it start.

Only `FEN`, `SetUp` and `Variant` mean something here; all others are kept as they are.
"""

from __future__ import annotations

import re

import chess

from trainer.deck.findings import FindingList
from trainer.deck.limits import TAG_CHARS, TAGS
from trainer.lines.pgn_tokens import Token, TokenKind
from trainer.lines.position import BadPosition, board_from_fen, full_fen

_STANDARD_CHESS = frozenset({"standard", "from position"})

_START_TAGS = frozenset({"FEN", "SetUp", "Variant"})

_PARTS = re.compile(r"\[\s*(?P<name>[A-Za-z0-9_]*)\s*(?P<value>.*)", re.DOTALL)
_STRING = re.compile(r'"(?:[^"\\]|\\.)*+"', re.DOTALL)


class TagSection:
    """The tag pairs before a game, added one by one."""

    def __init__(self, line: int) -> None:
        self.line = line
        """Where the section starts."""
        self.tags: dict[str, str] = {}
        self._lines: dict[str, int] = {}
        self._last_line = line
        self._start_is_sure = True

    def is_over_before(self, token: Token) -> bool:
        """Whether this tag pair begins another game: the first name again, after a gap."""
        after_gap = token.line > self._last_line + 1
        return after_gap and token.name != "" and token.name == next(iter(self.tags), None)

    def add(self, token: Token, findings: FindingList) -> None:
        """Add one tag pair, sound or not."""
        self._last_line = token.line
        name = token.name or _name_and_value(token.text)[0]
        if len(self.tags) == TAGS:
            findings.refuse(f"a game has more than {TAGS} tags", *token.place)
        if token.kind is TokenKind.BAD_TAG:
            code, message = _fault_of(token.text)
            findings.error(code, message, *token.place)
        elif name in self.tags:
            message = f"the tag {name} stands twice before one game; keep one of them"
            findings.error("duplicate-tag", message, *token.place)
        elif len(token.text) > TAG_CHARS:
            message = f"the value of the tag {name} is longer than {TAG_CHARS} characters"
            findings.error("too-large", message, *token.place)
        else:
            self.tags[name], self._lines[name] = token.text, token.line
            return
        if not name or name in _START_TAGS:
            self._start_is_sure = False

    def start_fen(self, findings: FindingList) -> str | None:
        """The FEN of the position in which the game starts; None where the tags leave it open."""
        if not self._start_is_sure or not self._is_standard_chess(findings):
            return None
        fen, set_up = self.tags.get("FEN"), self.tags.get("SetUp")
        if fen is None and set_up == "1":
            message = 'SetUp "1" announces a FEN tag that is missing; add one or remove SetUp'
            findings.error("setup-without-fen", message, self._lines["SetUp"])
            return None
        if fen is None:
            return chess.STARTING_FEN
        if set_up != "1":
            message = 'a FEN tag needs the tag SetUp "1" beside it; add it'
            findings.warn("fen-without-setup", message, self._lines["FEN"])
        try:
            return full_fen(board_from_fen(fen))
        except BadPosition as error:
            findings.error("bad-fen", f"the FEN cannot be used: {error}", self._lines["FEN"])
            return None

    def _is_standard_chess(self, findings: FindingList) -> bool:
        variant = self.tags.get("Variant", "Standard")
        if variant.casefold() in _STANDARD_CHESS:
            return True
        message = f'decks hold standard chess only, this is "{variant[:40]}"; remove the game'
        findings.error("unsupported-variant", message, self._lines["Variant"])
        return False


def _fault_of(text: str) -> tuple[str, str]:
    """Code and message for a tag pair that is not written as it should be."""
    name, value = _name_and_value(text)
    if not name:
        return "tag-without-name", 'a tag is written [Name "value"]; this one has no name'
    if not value.startswith('"'):
        return "tag-without-value", f'write the value of {name} in double quotes: [{name} "..."]'
    if not _STRING.match(value):
        return "unclosed-string", f"the value of {name} has no closing quote; add it"
    return "unclosed-tag", f"the tag {name} has no ] right after its value; add it"


def _name_and_value(text: str) -> tuple[str, str]:
    parts = _PARTS.match(text)
    return (parts["name"], parts["value"]) if parts else ("", "")
