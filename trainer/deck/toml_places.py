"""On which line a key of a TOML text stands; `tomllib` does not tell.

Knows the forms in which `deck.toml` is written by hand: bare keys, tables and arrays of
tables on lines of their own. What is written otherwise has no line, never a wrong one.
"""

from __future__ import annotations

import re

Lines = dict[tuple[str, int, str], int]
"""(Table, its place among those of that name from 0, key) to line; the key "" is its head."""

_ITEM = re.compile(
    r'''
    """(?:\\.|(?!""").)*+"{3,5}
  | \'\'\'(?:(?!\'\'\').)*+\'{3,5}
  | "(?:\\.|[^"\\\n])*+"
  | '[^'\n]*+'
  | \#[^\n]*+
  | ^[ \t]*+\[(?P<array>\[)?[ \t]*+(?P<table>[A-Za-z0-9_.-]++)[ \t]*+\]
  | ^[ \t]*+(?P<key>[A-Za-z0-9_-]++)[ \t]*+=
    ''',
    re.VERBOSE | re.MULTILINE | re.DOTALL,
)


def lines_of_keys(text: str) -> Lines:
    """The line of every key and every table's head that is found."""
    lines: Lines = {}
    seen: dict[str, int] = {}
    table, index, line, counted = "", 0, 1, 0
    for item in _ITEM.finditer(text):
        line += text.count("\n", counted, item.start())
        counted = item.start()
        if name := item["table"]:
            table, index = name, seen.get(name, 0)
            seen[name] = index + 1
            lines[table, index, ""] = line
        elif key := item["key"]:
            lines.setdefault((table, index, key), line)
    return lines
