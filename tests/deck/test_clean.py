"""Bytes into text, and text without what a terminal would obey."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.clean import clean, clean_line, decode

# Source: RFC 3629 (UTF-8); ISO/IEC 8859-1, in which byte and code point are the same.
DECODED = {
    "ASCII": (b"e4", "e4", None),
    "UTF-8": ("Grünfeld".encode(), "Grünfeld", None),
    "UTF-8 with a byte-order mark": (b"\xef\xbb\xbfe4", "\ufeffe4", None),
    "Latin-1": ("a\nGrünfeld".encode("latin-1"), "a\nGrünfeld", 2),
    "joined: UTF-8 with a mark, and Latin-1": (b"\xef\xbb\xbfe4\n\xef\xbb\xbf\xfc", "e4\nü", 2),
    "cut in the middle of a sign": (b"\xc3", "Ã", 1),
    "nothing": (b"", "", None),
}


@pytest.mark.parametrize(("data", "text", "line"), DECODED.values(), ids=DECODED.keys())
def test_bytes_become_text(data: bytes, text: str, line: int | None) -> None:
    assert decode(data) == (text, line)


# Source: ECMA-48 (5th ed.), 5.2 to 5.5 (controls); UAX #9 (directions); UAX #44 (categories).
CLEANED = {
    "the end of a line stays": ("a\nb", "a\nb"),
    "CR LF, CR": ("a\r\nb\rc\r\n\r\nd", "a\nb\nc\n\nd"),
    "tab": ("a\tb", "a b"),
    "form feed and vertical tab leave a blank": ("a\x0cb\x0bc", "a b c"),
    "next line, line and paragraph separator": ("a\x85b\u2028c\u2029d", "a b c d"),
    "ESC sequence": ("a\x1b[31mb", "a[31mb"),
    "CSI and OSC in one sign (C1)": ("a\x9b31mb\x9d0;c", "a31mb0;c"),
    "NUL, BEL, BS, DEL": ("a\x00\x07\x08\x7fb", "ab"),
    "directions": ("a\u202eb\u2066c\u200ed", "abcd"),
    "zero width, soft hyphen, tags": ("a\u200bb\u00adc\U000e0041d", "abcd"),
    "byte-order mark in the middle": ("a\n\ufeffb", "a\nb"),
    "joiners stay": ("\u0645\u06cc\u200c\u062e \U0001f469\u200d\U0001f52c",) * 2,
    "lone surrogate, private use": ("a\ud800b\ue000c", "abc"),
    "composed": ("Gru\u0308nfeld", "Grünfeld"),
    "composed across a dropped sign": ("u\u200b\u0308", "ü"),
    "no-break space and figurine stay": ("a\u00a0♘f3", "a\u00a0♘f3"),
}


@pytest.mark.parametrize(("text", "expected"), CLEANED.values(), ids=CLEANED.keys())
def test_text_is_cleaned(text: str, expected: str) -> None:
    assert clean(text) == expected


def test_a_line_is_folded() -> None:
    assert clean_line(" a\n\n b\tc\u200b ") == "a b c"


@given(st.text(st.characters(codec=None)))
def test_clean_text_holds_nothing_dropped_and_stays(text: str) -> None:
    cleaned = clean(text)
    kept = {"\n", "\u200c", "\u200d"}
    dropped = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}
    assert {unicodedata.category(sign) for sign in set(cleaned) - kept}.isdisjoint(dropped)
    assert unicodedata.is_normalized("NFC", cleaned)
    assert clean(cleaned) == cleaned


@given(st.binary())
def test_any_bytes_become_text(data: bytes) -> None:
    text, line = decode(data)
    assert line is None or data.decode("utf-8", errors="ignore").encode() != data
    assert isinstance(text, str)
