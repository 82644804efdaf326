"""One table of a TOML file of a deck, read key by key.

What is missing or of the wrong type becomes a finding with the key's line, and a stand-in
value, so that one run finds all faults.

Knows types and lengths, not what the keys mean.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from difflib import get_close_matches
from typing import Any

from trainer.deck.clean import clean, clean_line
from trainer.deck.findings import FindingList
from trainer.deck.ids import is_id
from trainer.deck.limits import ABOUT_CHARS, ID_CHARS, TITLE_CHARS
from trainer.deck.toml_places import Lines

MOST_EDITION = 10**9
"""More than anybody counts; the data file holds whole numbers of 64 bits."""


class TomlTable:
    """A table with its place in the file."""

    def __init__(
        self,
        values: Mapping[str, Any],
        findings: FindingList,
        lines: Lines,
        where: tuple[str, int] = ("", 0),
    ) -> None:
        self.values = values
        self._findings = findings
        self._lines = lines
        self._where = where

    def line(self, key: str = "") -> int | None:
        """Where the key stands, or the table, as far as that is known."""
        table, index = self._where
        head = (key, 0, "") if key and not table else (table, index, "")
        return self._lines.get((table, index, key), self._lines.get(head))

    def error(self, code: str, message: str, key: str = "") -> None:
        """Report something about a key, or about the whole table."""
        self._findings.error(code, message, self.line(key))

    def warn(self, code: str, message: str, key: str = "") -> None:
        """Report something doubtful about a key, or about the whole table."""
        self._findings.warn(code, message, self.line(key))

    def wrong_type(self, key: str, wanted: str) -> None:
        """Report a value that is not what the key takes."""
        self.error("wrong-type", f"{key} must be {wanted}, not {_shown(self.values[key])}", key)

    def has(self, key: str, required: bool) -> bool:
        """Whether the key is there; reports a required one that is not."""
        if key not in self.values and required:
            self.error("missing-key", f"{self._name()} has no {key}; add it")
        return key in self.values

    def text(self, key: str, required: bool = False, most: int = TITLE_CHARS) -> str:
        """A text on one line; empty where there is none."""
        if not self.has(key, required):
            return ""
        value = self.values[key]
        if not isinstance(value, str):
            self.wrong_type(key, "a text in quotes")
            return ""
        text = clean_line(value)
        if len(text) > most:
            self.error("too-large", f"{key} is longer than {most} characters; shorten it", key)
        elif required and not text:
            self.error("bad-value", f"{key} is empty; write one", key)
        return text

    def paragraphs(self, key: str, most: int = ABOUT_CHARS) -> str:
        """A text of several lines: one newline between paragraphs; empty where there is none."""
        folded = self.text(key, most=most)
        if not folded:
            return ""
        parts = re.split(r"\n\s*\n", clean(self.values[key]))
        return "\n".join(line for part in parts if (line := " ".join(part.split())))

    def id(self, key: str, required: bool) -> str:
        """An id; empty where there is none or a wrong one."""
        text = self.text(key, required, most=ID_CHARS)
        if not text or len(text) > ID_CHARS or is_id(text):
            return text
        message = f'{key} must be lower-case letters, digits and hyphens, not "{text}"'
        self.error("bad-value", message, key)
        return ""

    def whole_number(self, key: str) -> int:
        """A required whole number from 1 on; 1 where there is none."""
        if not self.has(key, required=True):
            return 1
        value = self.values[key]
        if type(value) is not int:  # True and False are int, too
            self.wrong_type(key, "a whole number, 1 or more")
            return 1
        if not 1 <= value <= MOST_EDITION:
            message = f"{key} must be a whole number from 1 to {MOST_EDITION}"
            self.error("bad-value", message, key)
            return 1
        return value

    def one_of(self, key: str, choices: tuple[str, ...], required: bool) -> str:
        """One of these words; empty where there is none or another one."""
        text = self.text(key, required)
        if not text or text in choices:
            return text
        message = f'{key} must be one of {", ".join(choices)}, not "{text[:40]}"'
        self.error("bad-value", message, key)
        return ""

    def day(self, key: str) -> date | None:
        """A date without a time; None where there is none."""
        if not self.has(key, required=False):
            return None
        value = self.values[key]
        if type(value) is date:  # a date with a time is a date, too
            return value
        self.wrong_type(key, "a date without quotes, such as 2026-12-01")
        return None

    def warn_of_unknown(self, known: tuple[str, ...]) -> None:
        """Report the keys that mean nothing."""
        for key in self.values:
            if key not in known:
                near = get_close_matches(key, known, n=1)
                what = f"write {near[0]}, or remove it" if near else "remove it"
                message = f"{self._name()} knows no key {clean_line(key)[:40]}; {what}"
                self._findings.warn("unknown-key", message, self.line(key))

    def _name(self) -> str:
        table, index = self._where
        return f"{table} {index + 1}" if table else self._findings.file


def _shown(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{clean_line(value)[:20]}"'
    if isinstance(value, int):
        return str(value) if abs(value) < 10**9 else "so large a number"
    return {float: "a fraction", list: "a list", dict: "a table"}.get(type(value), "a date or time")
