"""Text as it comes in: bytes into text, and text without what a terminal would obey.

Done once, where text enters, because no widget and no terminal does it later: control,
format and direction signs (UAX #44, categories Cc, Cf, Cs, Co, Zl, Zp) are taken out.
What the text means is nobody's business here.
"""

from __future__ import annotations

import unicodedata
from typing import NamedTuple

_BOM = "\ufeff".encode()

_DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Zl", "Zp"})

_KEPT = frozenset("\n\u200c\u200d")
"""The end of a line, and the two joiners that Persian and Indic scripts need."""


class Decoded(NamedTuple):
    """The text of a file."""

    text: str
    latin1_from: int | None
    """The line with the first byte that is no UTF-8, so that all was read as Latin-1."""


def decode(data: bytes) -> Decoded:
    """UTF-8, with or without a byte-order mark; what is no UTF-8 is Latin-1."""
    try:
        return Decoded(data.decode("utf-8"), None)
    except UnicodeDecodeError as error:
        text = data.replace(_BOM, b"").decode("latin-1")
        return Decoded(text, data.count(b"\n", 0, error.start) + 1)


def clean(text: str) -> str:
    """The text with LF at the ends of its lines, composed (NFC), without control signs.

    A dropped sign that is white space (a tab, a form feed, U+2028) leaves a blank, so
    that no two words grow together. Clean text stays as it is.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    dropped = {ord(sign): _instead(sign) for sign in set(text) if _is_dropped(sign)}
    if dropped:
        text = text.translate(dropped)
    return unicodedata.normalize("NFC", text)


def clean_line(text: str) -> str:
    """Clean text on one line, its white space folded to single blanks."""
    return " ".join(clean(text).split())


def _is_dropped(sign: str) -> bool:
    return unicodedata.category(sign) in _DROPPED and sign not in _KEPT


def _instead(sign: str) -> str:
    return " " if sign.isspace() else ""
