"""The tokens of a PGN text, and where they stand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.lines.pgn_tokens import Source, TokenKind

# Source: PGN standard (Edwards, 1994), 5 (comments), 6 (escape), 7 (tokens), 8.2 (movetext).
TOKENS = {
    "nothing": ("", []),
    "white space of all kinds": (" \t\n\r\n\r\u00a0", []),
    "number and move glued": ("1.e4", ["number 1.", "symbol e4"]),
    "number, blanks, periods (8.2.2.1)": ("12 . . .e5", ["number 12 . . .", "symbol e5"]),
    "number without period": ("3 Nf3", ["number 3", "symbol Nf3"]),
    "number over a line end": ("3\n...\nNf6", ["number 3\n...", "symbol Nf6"]),
    "periods without number": ("... e5", ["stray ...", "symbol e5"]),
    "number glued to a move is no number": ("1e4", ["symbol 1e4"]),
    "two moves glued": ("1.e4e5", ["number 1.", "symbol e4e5"]),
    "castling with zeros is no number": ("0-0 0-0-0+", ["symbol 0-0", "symbol 0-0-0+"]),
    "the four results (8.2.6)": (
        "1-0 0-1 1/2-1/2 *",
        ["result 1-0", "result 0-1", "result 1/2-1/2", "result *"],
    ),
    "ten to nothing is no result": ("10-0", ["symbol 10-0"]),
    "half a result": ("1/2", ["symbol 1/2"]),
    "no move in UCI is no number": ("0000", ["symbol 0000"]),
    "no move in two other spellings": ("-- @@@@", ["symbol --", "symbol @@@@"]),
    "suffixes end a move": ("e4!?e5??", ["symbol e4", "suffix !?", "symbol e5", "suffix ??"]),
    "NAGs (8.2.4)": ("e4$1 $255$", ["symbol e4", "nag $1", "nag $255", "nag $"]),
    "parentheses end by themselves": (
        "e4(c4)e5",
        ["symbol e4", "open (", "symbol c4", "close )", "symbol e5"],
    ),
    "other letters are one word": ("♘f3 Сf6 Nf3é", ["symbol ♘f3", "symbol Сf6", "symbol Nf3é"]),
    "en passant said": ("exd6e.p. exd6 e.p.", ["symbol exd6e.p.", "symbol exd6", "symbol e.p."]),
    "brace comment (5)": ("e4{ a; b }e5", ["symbol e4", "comment  a; b ", "symbol e5"]),
    "braces do not nest (5)": ("{a {b} c}", ["comment a {b", "symbol c", "stray }"]),
    "rest-of-line comment (5)": ("e4 ;a {b}\ne5", ["symbol e4", "comment a {b}", "symbol e5"]),
    "comment never closed": ("e4 {a\n\nb", ["symbol e4", "open_comment a\n\nb"]),
    "escape line (6)": ("e4\n%1. d3 { *\ne5", ["symbol e4", "symbol e5"]),
    "escape line first of all": ("%a\ne4", ["symbol e4"]),
    "escape line last of all": ("e4\n%a", ["symbol e4"]),
    "escape line inside a comment": ("{a\n%b } c\nd}", ["comment a\nd"]),
    "escape line inside a tag": ('[A\n%b\n"x"]', ["tag A=x"]),
    "percent elsewhere": ("e4 %a", ["symbol e4", "symbol %a"]),
    "tag (8.1)": ('[Event "A b"]', ["tag Event=A b"]),
    "tag with blanks, over lines": ('[ Event\n"A"\n]', ["tag Event=A"]),
    "two tags on a line": ('[A "x"][B "y"]', ["tag A=x", "tag B=y"]),
    "quote and backslash in a string (7)": (r'[A "x\"y\\z\q"]', [r'tag A=x"y\z\q']),
    "brackets, braces, semicolon in a string": ('[A "[x] {y; z}"]', ["tag A=[x] {y; z}"]),
    "empty string": ('[A ""]', ["tag A="]),
    "tag without value": ("[A]\ne4", ["bad_tag [A]", "symbol e4"]),
    "string not closed": ('[A "x]\ne4', ['bad_tag [A "x]', "symbol e4"]),
    "tag not closed": ('[A "x"\n[B "y"]', ['bad_tag [A "x"', "tag B=y"]),
    "string never closed by a backslash": ('[A "x\\"]\ne4', ['bad_tag [A "x\\"]', "symbol e4"]),
    "bracket in the value of a bad tag": ('[A "x]" y] e4', ['bad_tag [A "x]" y]', "symbol e4"]),
    "command outside a comment": ("[%csl Gd4]", ["bad_tag [%csl Gd4]"]),
    "string outside a tag": ('"x" "y', ['stray "x"', 'stray "y']),
    "reserved (7)": ("<x> <y", ["stray <x>", "stray <y"]),
    "stray signs": ("} ] >", ["stray }", "stray ]", "stray >"]),
}


@pytest.mark.parametrize(("text", "tokens"), TOKENS.values(), ids=TOKENS.keys())
def test_text_falls_into_tokens(text: str, tokens: list[str]) -> None:
    found = [
        f"{token.kind} {token.name}={token.text}" if token.name else f"{token.kind} {token.text}"
        for token in Source(text).tokens()
    ]
    assert found == tokens


# Worked by hand. A form feed, a next-line sign and a line separator end no line.
PLACES = {
    "LF": ("1. e4\n  e5", (2, 3)),
    "CR LF": ("1. e4\r\n\r\ne5", (3, 1)),
    "CR": ("1. e4\r e5", (2, 2)),
    "mixed": ("1. e4\r\n\r\n\n\re5", (5, 1)),
    "form feed, next line, separators": ("1.\x0c e4\x0b\x85\u2028\u2029\x1c e5", (1, 13)),
    "after an escape line": ("1. e4\n%x\n%y\ne5", (4, 1)),
    "after a comment of three lines": ("1. e4 {a\nb\nc} e5", (3, 4)),
    "after a comment with an escape line": ("1. e4 {a\n%b\nc} e5", (3, 4)),
    "after a tag over two lines": ('[A\n"x"] e5', (2, 6)),
}


@pytest.mark.parametrize(("text", "place"), PLACES.values(), ids=PLACES.keys())
def test_last_token_stands_here(text: str, place: tuple[int, int]) -> None:
    *_, last = Source(text).tokens()
    assert (last.text, last.place) == ("e5", place)


def test_reading_can_begin_at_any_token() -> None:
    source = Source('[A "x"]\n%y\n1. e4 {a\nb} e5 *')
    tokens = list(source.tokens())
    for index, token in enumerate(tokens):
        assert list(source.tokens(source.offset_of(token))) == tokens[index:]


# What a text is made of without comments, tags, strings and `%` lines: every token is as written.
PLAIN = st.text("eNfKx841203-/+#=().!?*$}]>,é♘ \n\t\u00a0", max_size=60)


@given(PLAIN)
def test_no_sign_is_lost(text: str) -> None:
    tokens = Source(text).tokens()
    assert "".join("".join(token.text.split()) for token in tokens) == "".join(text.split())


@given(PLAIN)
def test_every_token_stands_where_it_says(text: str) -> None:
    lines = text.split("\n")
    for token in Source(text).tokens():
        first_line = token.text.split("\n")[0]
        assert lines[token.line - 1][token.column - 1 :].startswith(first_line)


@given(st.text())
def test_any_text_falls_into_tokens(text: str) -> None:
    tokens = list(Source(text).tokens())
    assert [token.place for token in tokens] == sorted({token.place for token in tokens})
    assert all(isinstance(token.kind, TokenKind) for token in tokens)


# Worked by hand: each needs one look at each sign, and would take hours with two loops.
LONG = {
    "white space": " " * 400_000,
    "comments not closed": "{" * 400_000,
    "brackets": "[" * 400_000,
    "tags cut short": '[A "' * 100_000,
    "numbers without end": "1" * 400_000,
    "numbers and far periods": ("1" + " " * 200) * 2_000,
    "backslashes": '[A "' + "\\" * 400_001,
    "escape lines": "\n%" * 200_000,
}


@pytest.mark.parametrize("text", LONG.values(), ids=LONG.keys())
def test_hostile_texts_are_read_in_one_pass(text: str) -> None:
    assert len(list(Source(text).tokens())) <= len(text)
