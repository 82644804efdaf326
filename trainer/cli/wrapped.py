"""Sentences for a person at a terminal: never broken inside a word.

Terminal screen readers and braille displays read by screen lines, and a terminal alone
breaks a long one wherever its edge falls. Into a file or a pipe each sentence goes whole.
"""

from __future__ import annotations

import os
import sys
import textwrap
from collections.abc import Iterator

from trainer.cli.output import say

NARROWEST = 20
"""Columns below which breaking at words helps nobody."""


def say_wrapped(*lines: str) -> None:
    """Write lines of text, broken between words where the terminal ends."""
    say(*(part for line in lines for part in _fitted(line)))


def _fitted(line: str) -> Iterator[str]:
    width = _width()
    if width is None or len(line) < width:
        yield line
    else:
        yield from textwrap.wrap(line, width - 1, break_long_words=False, break_on_hyphens=False)


def _width() -> int | None:
    """The columns of the terminal that is written to, if it is one and knows them."""
    if sys.stdout is None or not sys.stdout.isatty():
        return None
    # Not by `shutil`, which believes the environment first.
    columns = os.get_terminal_size(sys.stdout.fileno()).columns
    return max(columns, NARROWEST) if columns else None
