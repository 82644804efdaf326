"""`deck.toml` into facts: what is read, and what is refused, with its line."""

from __future__ import annotations

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.deck import Kind
from trainer.deck.findings import Finding, FindingList, Severity, StopReading
from trainer.deck.limits import CHAPTERS
from trainer.deck.manifest import Manifest, read_manifest
from trainer.deck.toml_places import lines_of_keys

HEAD = 'id = "vienna"\ntitle = "The Vienna"\nedition = 3\n'
CHAPTER = (
    '[[chapter]]\nfile = "01-first-moves.pgn"\ntitle = "First"\nkind = "lines"\nside = "white"\n'
)
SECOND = (
    '[[chapter]]\nid = "more"\nfile = "02.pgn"\ntitle = "More"\nkind = "lines"\nside = "black"\n'
)


def read(text: str | bytes) -> tuple[Manifest | None, list[Finding]]:
    """The manifest of a text, and its findings."""
    findings = FindingList("deck.toml")
    data = text if isinstance(text, bytes) else text.encode()
    manifest = None
    with suppress(StopReading):
        manifest = read_manifest(data, findings)
    return manifest, findings.finished()


def test_a_whole_manifest() -> None:
    manifest, findings = read(
        HEAD
        + 'author = "Ines\\tMarlow"\nlanguage = "pt-BR"\nlicence = "CC-BY-SA-4.0"\n'
        + 'about = """\nOne\nline.\n\nTwo."""\n'
        + CHAPTER
        + 'opens = 2026-12-01\nafter = "more"\nid = "start"\n'
        + SECOND
    )
    assert findings == []
    assert manifest is not None
    assert (manifest.id, manifest.title, manifest.edition) == ("vienna", "The Vienna", 3)
    assert (manifest.author, manifest.language) == ("Ines Marlow", "pt-BR")
    assert (manifest.licence, manifest.about) == ("CC-BY-SA-4.0", "One line.\nTwo.")
    first, second = manifest.chapters
    assert (first.id, first.file, first.title) == ("start", "01-first-moves.pgn", "First")
    assert (first.kind, first.side) == (Kind.LINES, "white")
    assert (first.opens, first.after) == (date(2026, 12, 1), "more")
    assert (second.id, second.side, second.opens, second.after) == ("more", "black", None, None)


def test_what_may_be_left_out() -> None:
    manifest, findings = read(HEAD + CHAPTER)
    assert findings == []
    assert manifest is not None
    assert (manifest.author, manifest.language, manifest.licence) == ("", "und", "")
    assert manifest.chapters[0].id == "first-moves"


@pytest.mark.parametrize(
    ("file", "chapter"),
    [
        ("01-first-moves.pgn", "first-moves"),
        ("part/2_Sharp Lines.v2.pgn", "sharp-lines-v2"),
        ("03.pgn", "03"),
        ("Grünfeld.pgn", "grunfeld"),
    ],
)
def test_a_chapter_is_called_by_its_file(file: str, chapter: str) -> None:
    manifest, findings = read(HEAD + CHAPTER.replace("01-first-moves.pgn", file))
    assert findings == []
    assert manifest is not None
    assert manifest.chapters[0].id == chapter


# design.md, section 3. The line is that of the key, or of the table where the key is missing.
ERRORS = {
    "nothing": ("", [("missing-key", None)] * 4),
    "no id": (HEAD.replace('id = "vienna"', "") + CHAPTER, [("missing-key", None)]),
    "id in capitals": (HEAD.replace("vienna", "Vienna") + CHAPTER, [("bad-value", 1)]),
    "id with a blank": (HEAD.replace("vienna", "my vienna") + CHAPTER, [("bad-value", 1)]),
    "id begins with a hyphen": (HEAD.replace("vienna", "-v") + CHAPTER, [("bad-value", 1)]),
    "id leads elsewhere": (HEAD.replace("vienna", "../v") + CHAPTER, [("bad-value", 1)]),
    "id far too long": (HEAD.replace("vienna", "v" * 65) + CHAPTER, [("too-large", 1)]),
    "id is a number": (HEAD.replace('"vienna"', "7") + CHAPTER, [("wrong-type", 1)]),
    "title empty": (HEAD.replace("The Vienna", " ") + CHAPTER, [("bad-value", 2)]),
    "title of controls": (HEAD.replace("The Vienna", r"\u001b\u202e") + CHAPTER,
                          [("bad-value", 2)]),
    "title far too long": (HEAD.replace("The", "The" * 100) + CHAPTER, [("too-large", 2)]),
    "edition is true": (HEAD.replace("3", "true") + CHAPTER, [("wrong-type", 3)]),
    "edition is a text": (HEAD.replace("3", '"3"') + CHAPTER, [("wrong-type", 3)]),
    "edition is a fraction": (HEAD.replace("3", "3.0") + CHAPTER, [("wrong-type", 3)]),
    "edition is nought": (HEAD.replace("3", "0") + CHAPTER, [("bad-value", 3)]),
    "edition is beyond counting": (HEAD.replace("3", "9" * 30) + CHAPTER, [("bad-value", 3)]),
    "edition of thousands of digits": (HEAD.replace("3", "9" * 5000) + CHAPTER,
                                       [("bad-toml", None)]),
    "no language": (HEAD + 'language = "e n"\n' + CHAPTER, [("bad-value", 4)]),
    "author is a list": (HEAD + "author = []\n" + CHAPTER, [("wrong-type", 4)]),
    "no chapter": (HEAD, [("missing-key", None)]),
    "chapters empty": (HEAD + "chapter = []\n", [("missing-key", 4)]),
    "chapter in single brackets": (HEAD + CHAPTER.replace("[[chapter]]", "[chapter]"),
                                   [("wrong-type", 4)]),
    "chapter is a number": (HEAD + "chapter = 1\n", [("wrong-type", 4)]),
    "no file": (HEAD + CHAPTER.replace("file", "#file"), [("missing-key", 4)]),
    "no title, kind and side": (HEAD + CHAPTER[: CHAPTER.index("title")],
                                [("missing-key", 4)] * 2),
    "kind unknown": (HEAD + CHAPTER.replace('"lines"', '"line"'), [("bad-value", 7)]),
    "side unknown": (HEAD + CHAPTER.replace('"white"', '"w"'), [("bad-value", 8)]),
    "no side": (HEAD + CHAPTER.replace("side", "#side"), [("missing-key", 4)]),
    "opens in quotes": (HEAD + CHAPTER + 'opens = "2026-12-01"\n', [("wrong-type", 9)]),
    "opens with a time": (HEAD + CHAPTER + "opens = 2026-12-01T10:00:00\n", [("wrong-type", 9)]),
    "opens on no day": (HEAD + CHAPTER + "opens = 2026-02-30\n", [("bad-toml", 9)]),
    "chapter id bad": (HEAD + CHAPTER + 'id = "A"\n', [("bad-value", 9)]),
    "same chapter twice": (HEAD + CHAPTER + CHAPTER, [("duplicate-chapter", 9)]),
    "same chapter id twice": (HEAD + CHAPTER + SECOND.replace("more", "first-moves"),
                              [("duplicate-chapter", 10)]),
    "after nothing": (HEAD + CHAPTER + 'after = "x"\n', [("unknown-chapter", 9)]),
    "one file twice": (HEAD + CHAPTER + CHAPTER.replace("file =", 'id = "b"\nfile ='),
                       [("repeated-file", 11)]),
    "after itself": (HEAD + CHAPTER + 'after = "first-moves"\n', [("never-opens", 9)]),
    "after one another": (HEAD + CHAPTER + 'after = "more"\n' + SECOND + 'after = "first-moves"\n',
                          [("never-opens", 9), ("never-opens", 16)]),
    "all at once": (
        HEAD.replace("3", "true") + CHAPTER.replace("white", "w") + 'after = 7\n',
        [("wrong-type", 3), ("bad-value", 8), ("wrong-type", 9)]),
    "TOML broken": ('id = "vienna"\ntitle "x"\n', [("bad-toml", 2)]),
    "string not closed": ('id = "vienna\n', [("bad-toml", 1)]),
    "key twice": ('id = "a"\nid = "b"\n', [("bad-toml", 2)]),
    "cut off": ("id =", [("bad-toml", None)]),
    "nested far too deeply": ("x = " + "[" * 50_000, [("bad-toml", None)]),
    "not UTF-8": (b'id = "a"\ntitle = "\xfc"\n', [("bad-toml", 2)]),
    "more chapters than can be listed": (HEAD + CHAPTER * (CHAPTERS + 1),
                                         [("too-large", 4 + 5 * CHAPTERS)]),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), ERRORS.values(), ids=ERRORS.keys())
def test_fault_is_an_error(text: str | bytes, expected: list[tuple[str, int | None]]) -> None:
    _, findings = read(text)
    assert [(found.code, found.line) for found in findings] == expected
    assert all(found.severity is Severity.ERROR for found in findings)
    assert all(found.message.isprintable() for found in findings)


UNSAFE = {
    "absolute": "/etc/passwd",
    "absolute elsewhere": "C:/decks/a.pgn",
    "backslashes": r"..\\a.pgn",
    "up": "../a.pgn",
    "up and down": "a/../../b.pgn",
    "here": "./a.pgn",
    "empty part": "a//b.pgn",
    "folder": "a/",
    "control": r"a\u0000.pgn",
    "direction": r"a\u202e.pgn",
    "tab": r"a\t.pgn",
}


@pytest.mark.parametrize("name", UNSAFE.values(), ids=UNSAFE.keys())
def test_no_file_lies_outside(name: str) -> None:
    manifest, findings = read(HEAD + CHAPTER.replace("01-first-moves.pgn", name))
    assert [(found.code, found.line) for found in findings] == [("unsafe-path", 5)]
    assert findings[0].message.isprintable()
    assert manifest is not None
    assert manifest.chapters == ()


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (HEAD + 'auhtor = "x"\n' + CHAPTER, 4, "write author"),
        (HEAD + CHAPTER + "open = 2026-12-01\n", 9, "write opens"),
        (HEAD + CHAPTER + "[chapter.colours]\nred = 1\n", 4, "remove it"),
        (HEAD + 'zzz = "x"\n' + CHAPTER, 4, "remove it"),
    ],
)
def test_unknown_key_is_a_warning(text: str, line: int, words: str) -> None:
    manifest, findings = read(text)
    assert [(found.code, found.severity) for found in findings] == [
        ("unknown-key", Severity.WARNING)
    ]
    assert (findings[0].line, words in findings[0].message) == (line, True)
    assert manifest is not None


def test_a_fault_says_line_and_column_of_the_toml() -> None:
    _, findings = read('id = "vienna"\ntitle "x"\n')
    assert (findings[0].line, findings[0].column) == (2, 7)


def test_a_byte_order_mark_and_crlf_do_no_harm() -> None:
    manifest, findings = read(b"\xef\xbb\xbf" + (HEAD + CHAPTER).replace("\n", "\r\n").encode())
    assert (findings, manifest is not None) == ([], True)


def test_lines_of_keys_are_not_fooled_by_texts() -> None:
    text = 'a = """\n[[chapter]]\nb = 1\n"""\n# c = 2\nd = \'e = 3\'\n[[chapter]]\nb = "#"\n'
    assert lines_of_keys(text) == {
        ("", 0, "a"): 1,
        ("", 0, "d"): 6,
        ("chapter", 0, ""): 7,
        ("chapter", 0, "b"): 8,
    }


SCRAPS = st.lists(
    st.sampled_from(
        (
            *("id", "title", "edition", "file", "kind", "side", "opens", "after", "chapter"),
            *(" = ", "\n", '"white"', '"lines"', '"a"', "1", "true", "1e400", "2026-12-01"),
            *("[[chapter]]\n", "[chapter]\n", "[", "]", "{", "}", '"""', "'", "#", ".", ","),
        )
    ),
    max_size=30,
).map(lambda words: HEAD + CHAPTER + "".join(words))


@given(SCRAPS | st.text())
def test_any_text_gives_a_manifest_or_findings(text: str) -> None:
    manifest, findings = read(text.encode(errors="ignore"))
    assert manifest is not None or findings


@given(st.binary())
def test_any_bytes_give_a_manifest_or_findings(data: bytes) -> None:
    manifest, findings = read(data)
    assert manifest is not None or findings
