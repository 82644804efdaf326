"""Lines of standard input: bounded, whatever their bytes, and how long each was awaited."""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Callable
from typing import BinaryIO

LONGEST_LINE = 65_536
"""Bytes of a line that are kept; the rest of a longer one is read and dropped."""


class TimedLines:
    """Reads lines one by one and says how many seconds each took to come."""

    def __init__(
        self,
        stream: BinaryIO,
        encoding: str = "utf-8",
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._stream = stream
        self._encoding = encoding
        self._clock = clock

    def next(self) -> tuple[str | None, float]:
        """The next line without its end (None at the end of input), and its seconds."""
        began = self._clock()
        raw = self._stream.readline(LONGEST_LINE)
        if len(raw) == LONGEST_LINE and not raw.endswith(b"\n"):
            self._drop_the_rest()
        text = raw.decode(self._encoding, errors="replace") if raw else None
        if text is not None:
            # Some programs begin what they write with a byte-order mark.
            text = text.removeprefix("\ufeff").rstrip("\r\n")
        return text, self._clock() - began

    def _drop_the_rest(self) -> None:
        while (more := self._stream.readline(LONGEST_LINE)) and not more.endswith(b"\n"):
            pass


def standard_input() -> TimedLines:
    """The lines that programs write: UTF-8."""
    return TimedLines(_stdin())


def typed_input() -> TimedLines:
    """The lines that a person types, in the encoding of the terminal."""
    encoding = getattr(sys.stdin, "encoding", None)
    return TimedLines(_stdin(), encoding or "utf-8")


def _stdin() -> BinaryIO:
    return io.BytesIO() if sys.stdin is None else sys.stdin.buffer
