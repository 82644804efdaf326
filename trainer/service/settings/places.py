"""On which line each key of a TOML text stands; neither `tomllib` nor `tomlkit` tells.

Knows keys on lines of their own, bare, quoted and dotted, under `[table]` heads. What is
written otherwise (in an inline table, in an array of tables) has no line, never a wrong one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

Place = tuple[str, ...]
"""The keys that lead to a value."""

_PART = r"""(?:[A-Za-z0-9_-]++|"(?:\\.|[^"\\\n])*+"|'[^'\n]*+')"""
_PATH = rf"{_PART}(?:[ \t]*+\.[ \t]*+{_PART})*+"

_ITEM = re.compile(
    rf"""
    ^[ \t]*+\[(?P<array>\[)?[ \t]*+(?P<table>{_PATH})[ \t]*+\]
  | ^[ \t]*+(?P<key>{_PATH})[ \t]*+=
  | \"\"\"(?:\\.|(?!\"\"\").)*+\"{{3,5}}
  | '''(?:(?!''').)*+'{{3,5}}
  | "(?:\\.|[^"\\\n])*+"
  | '[^'\n]*+'
  | \#[^\n]*+
    """,
    re.VERBOSE | re.MULTILINE | re.DOTALL,
)


def lines_of_places(text: str, values: Mapping[str, Any]) -> dict[Place, int]:
    """The line of every key and every table's head that is found, from 1.

    :param values: what the text holds; rows of a list that look like heads are told by it.
    """
    lines: dict[Place, int] = {}
    table: Place | None = ()
    line, counted = 1, 0
    for item in _ITEM.finditer(text):
        line += text.count("\n", counted, item.start())
        counted = item.start()
        if item["table"]:
            head = tuple(_parts(item["table"]))
            if item["array"]:
                table = None
            elif isinstance(_value(values, head), dict):
                table = head
                lines.setdefault(table, line)
        elif item["key"] and table is not None:
            place = (*table, *_parts(item["key"]))
            for depth in range(len(table) + 1, len(place) + 1):
                lines.setdefault(place[:depth], line)
    return lines


def _parts(path: str) -> Iterator[str]:
    for part in re.findall(_PART, path):
        yield part[1:-1] if part[0] in "\"'" else part


def _value(values: Mapping[str, Any], place: Place) -> Any:
    found: Any = values
    for part in place:
        if not isinstance(found, dict) or part not in found:
            return None
        found = found[part]
    return found
