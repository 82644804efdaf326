"""A deck's folder, or a single PGN file, into a deck: all of it or nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.deck.reading import shape
from trainer.deck import reader
from trainer.deck.deck import Kind, digest_of
from trainer.deck.findings import Severity
from trainer.deck.reader import ReadDeck, read_deck

PGN = '[Event "x"]\n[Result "*"]\n\n1. e4 {Takes the centre.} e5 2. Nc3 *\n'
HEAD = 'id = "vienna"\ntitle = "The Vienna"\nedition = 1\n'


def chapter(file: str, *more: str, kind: str = "lines", side: str = "white") -> str:
    """The lines of one chapter in `deck.toml`."""
    facts = (f'file = "{file}"', 'title = "T"', f'kind = "{kind}"', f'side = "{side}"', *more)
    return "\n".join(("[[chapter]]", *facts, ""))


def folder(at: Path, toml: str, **files: str) -> Path:
    """A deck's folder; a file `a` is written as `a.pgn`."""
    at.mkdir(parents=True)
    (at / "deck.toml").write_text(toml, encoding="utf-8")
    for name, text in files.items():
        (at / f"{name}.pgn").write_text(text, encoding="utf-8")
    return at


def codes(read: ReadDeck) -> list[tuple[str, str, int | None]]:
    """Code, file and line of what was found."""
    return [(found.code, found.file, found.line) for found in read.findings]


def test_a_deck_is_read(tmp_path: Path) -> None:
    toml = HEAD + chapter("a.pgn") + chapter("b.pgn", 'after = "a"', side="black")
    read = read_deck(folder(tmp_path / "deck", toml, a=PGN, b=PGN))
    assert read.findings == ()
    deck = read.deck
    assert deck is not None
    assert (deck.id, deck.title, deck.edition) == ("vienna", "The Vienna", 1)
    first, second = deck.chapters
    assert (first.id, first.file, first.kind, first.side) == ("a", "a.pgn", Kind.LINES, "white")
    assert (second.side, second.after, second.opens) == ("black", "a", None)
    assert shape(first.games[0]) == "e4 e5 Nc3"


def test_the_files_of_a_deck_share_their_positions(tmp_path: Path) -> None:
    toml = HEAD + chapter("a.pgn") + chapter("b.pgn", side="black")
    deck = read_deck(folder(tmp_path / "deck", toml, a=PGN, b=PGN)).deck
    assert deck is not None
    one, other = (part.games[0].children[0].after for part in deck.chapters)
    assert one is other


def test_one_file_may_serve_both_sides(tmp_path: Path) -> None:
    toml = HEAD + chapter("a.pgn") + chapter("a.pgn", 'id = "b"', side="black")
    read = read_deck(folder(tmp_path / "deck", toml, a=PGN + "1. e4 (1. e4) *"))
    assert codes(read) == [("repeated-move", "a.pgn", 5)]
    assert read.deck is not None
    assert [part.side for part in read.deck.chapters] == ["white", "black"]


def test_all_faults_of_all_files_come_in_one_run_and_nothing_is_loaded(tmp_path: Path) -> None:
    toml = (
        HEAD.replace("edition = 1", "edition = true")
        + chapter("a.pgn")
        + chapter("b.pgn")
        + chapter("c.pgn", 'id = "x"')
        + chapter("d.pgn", kind="tactics")
        + chapter("e.pgn", 'after = "nothing"')
    )
    read = read_deck(
        folder(tmp_path / "deck", toml, a="1. e4 e9 *", b="1. Ke2 *", e="1. e4 (1. d9) *")
    )
    assert read.deck is None
    assert codes(read) == [
        ("wrong-type", "deck.toml", 3),
        ("unknown-chapter", "deck.toml", 30),
        ("missing-file", "deck.toml", 14),
        ("missing-file", "deck.toml", 20),
        ("unreadable-move", "a.pgn", 1),
        ("illegal-move", "b.pgn", 1),
        ("unreadable-move", "e.pgn", 1),
    ]


def test_warnings_do_not_keep_a_deck_out(tmp_path: Path) -> None:
    toml = HEAD + 'auhtor = "x"\n' + chapter("a.pgn")
    read = read_deck(folder(tmp_path / "deck", toml, a='[Result "1-0"]\n\n1. e4 *'))
    assert read.deck is not None
    assert codes(read) == [("unknown-key", "deck.toml", 4), ("result-differs", "a.pgn", 3)]


def test_the_same_deck_has_the_same_digest_anywhere(tmp_path: Path) -> None:
    toml = HEAD + chapter("a.pgn") + chapter("b.pgn")
    decks = [
        read_deck(folder(tmp_path / at, toml, a=PGN, b=text)).deck
        for at, text in (("one", PGN), ("two/deep", PGN), ("three", PGN + "\n"))
    ]
    one, two, three = (deck.digest for deck in decks if deck)
    assert one == two != three
    assert one == digest_of(
        {"b.pgn": PGN.encode(), "deck.toml": toml.encode(), "a.pgn": PGN.encode()}
    )


def test_the_digest_tells_names_and_borders_apart() -> None:
    files = ({"a": b"bc"}, {"ab": b"c"}, {"a": b"b", "c": b""}, {"a": b"", "bc": b""})
    assert len({digest_of(each) for each in files}) == 4


def test_a_folder_without_manifest(tmp_path: Path) -> None:
    read = read_deck(tmp_path)
    assert (read.deck, codes(read)) == (None, [("missing-file", "deck.toml", None)])


def test_files_in_folders_of_the_deck(tmp_path: Path) -> None:
    deck = folder(tmp_path / "deck", HEAD + chapter("part/a.pgn"))
    (deck / "part").mkdir()
    (deck / "part" / "a.pgn").write_text(PGN, encoding="utf-8")
    read = read_deck(deck)
    assert read.findings == ()


def test_a_link_out_of_the_deck_is_refused(tmp_path: Path) -> None:
    (tmp_path / "secret.pgn").write_text(PGN, encoding="utf-8")
    deck = folder(tmp_path / "deck", HEAD + chapter("a.pgn") + chapter("b/secret.pgn"))
    (deck / "a.pgn").symlink_to(tmp_path / "secret.pgn")
    (deck / "b").symlink_to(tmp_path)
    assert codes(read_deck(deck)) == [
        ("outside-deck", "deck.toml", 4),
        ("outside-deck", "deck.toml", 9),
    ]


def test_a_link_within_the_deck_is_fine(tmp_path: Path) -> None:
    deck = folder(tmp_path / "deck", HEAD + chapter("a.pgn"), b=PGN)
    (deck / "a.pgn").symlink_to("b.pgn")
    assert read_deck(deck).findings == ()


def test_a_link_in_a_circle(tmp_path: Path) -> None:
    deck = folder(tmp_path / "deck", HEAD + chapter("a.pgn"))
    (deck / "a.pgn").symlink_to("a.pgn")
    assert [code for code, _, _ in codes(read_deck(deck))] == ["unreadable-file"]


def test_what_is_no_plain_file_is_refused_without_waiting(tmp_path: Path) -> None:
    deck = folder(tmp_path / "deck", HEAD + chapter("a.pgn") + chapter("b.pgn"))
    (deck / "a.pgn").mkdir()
    os.mkfifo(deck / "b.pgn")
    assert [code for code, _, _ in codes(read_deck(deck))] == ["not-a-file", "not-a-file"]


def test_too_large_a_file_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reader, "PGN_BYTES", len(PGN) - 1)
    deck = folder(tmp_path / "deck", HEAD + chapter("a.pgn"), a=PGN)
    assert codes(read_deck(deck)) == [("too-large", "deck.toml", 4)]


def test_too_large_a_deck_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    toml = HEAD + chapter("a.pgn") + chapter("b.pgn") + chapter("c.pgn")
    monkeypatch.setattr(reader, "DECK_BYTES", len(toml) + 2 * len(PGN) - 1)
    deck = folder(tmp_path / "deck", toml, a=PGN, b=PGN, c=PGN)
    assert codes(read_deck(deck)) == [("too-large", "deck.toml", 9)]


def test_a_side_for_a_folder_is_a_warning(tmp_path: Path) -> None:
    read = read_deck(folder(tmp_path / "deck", HEAD + chapter("a.pgn"), a=PGN), "white")
    assert codes(read) == [("unneeded-side", "deck.toml", None)]
    assert read.deck is not None


# Worked by hand: the id is the file's stem and the side.
@pytest.mark.parametrize(
    ("name", "deck_id", "title"),
    [
        ("Vienna.pgn", "vienna-white", "Vienna"),
        ("my Lines (2026).PGN", "my-lines-2026-white", "my Lines (2026)"),
        ("Grünfeld.pgn", "grunfeld-white", "Grünfeld"),
        ("王.pgn", "lines-white", "王"),
        ("x" * 90 + ".pgn", "x" * 58 + "-white", "x" * 90),
    ],
)
def test_a_single_file_is_a_deck(tmp_path: Path, name: str, deck_id: str, title: str) -> None:
    path = tmp_path / name
    path.write_text(PGN, encoding="utf-8")
    read = read_deck(path, "white")
    assert read.findings == ()
    deck = read.deck
    assert deck is not None
    assert (deck.id, deck.title, deck.edition) == (deck_id, title, 1)
    assert [(part.file, part.kind, part.side) for part in deck.chapters] == [
        (name, Kind.LINES, "white")
    ]
    assert shape(deck.chapters[0].games[0]) == "e4 e5 Nc3"


def test_a_single_file_needs_a_side_and_is_read_all_the_same(tmp_path: Path) -> None:
    path = tmp_path / "a.pgn"
    path.write_text("1. e9 *", encoding="utf-8")
    read = read_deck(path)
    assert codes(read) == [("missing-side", "a.pgn", None), ("unreadable-move", "a.pgn", 1)]
    assert read_deck(path, "both").deck is None


@pytest.mark.parametrize(
    ("name", "code"),
    [("none.pgn", "missing-file"), ("a.txt", "not-a-deck"), ("x" * 300, "unreadable-file")],
)
def test_what_is_no_deck(tmp_path: Path, name: str, code: str) -> None:
    (tmp_path / "a.txt").write_text(PGN, encoding="utf-8")
    read = read_deck(tmp_path / name, "white")
    assert [found.code for found in read.findings] == [code]


def test_a_name_that_no_system_has() -> None:
    read = read_deck(Path("a\0b.pgn"), "white")
    assert [found.code for found in read.findings] == ["unreadable-file"]


def test_latin1_is_read_and_said(tmp_path: Path) -> None:
    path = tmp_path / "a.pgn"
    path.write_bytes('[White "Müller"]\n\n1. e4 {für d5} *'.encode("latin-1"))
    read = read_deck(path, "white")
    assert [(found.code, found.severity, found.line) for found in read.findings] == [
        ("latin-1", Severity.NOTE, 1)
    ]
    assert read.deck is not None
    game = read.deck.chapters[0].games[0]
    assert (game.tags["White"], game.children[0].comment.text) == ("Müller", "für d5")


def test_utf16_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.pgn"
    path.write_bytes(PGN.encode("utf-16"))
    assert [found.code for found in read_deck(path, "white").findings] == ["wrong-encoding"]


def test_the_shipped_deck_is_clean() -> None:
    read = read_deck(Path(__file__).parents[2] / "decks" / "vienna")
    assert read.findings == ()
    assert read.deck is not None
