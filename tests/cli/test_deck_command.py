"""`trainer deck`: adding, listing and showing."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.runs import document, run
from tests.small_decks import BLACK, FIRST, SECOND, write_deck

NOTHING = {"kept": 0, "new": 0, "changed": 0, "withdrawn": 0}


def test_a_new_deck_brings_new_cards(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST})
    assert document("deck", "add", str(folder)) == {
        "deck": "small",
        "edition": 1,
        "cards": {**NOTHING, "new": 6},
        "findings": [],
        "changes": [],
    }
    assert document("deck", "add", str(folder))["cards"] == {**NOTHING, "kept": 6}


def test_a_new_edition_says_what_it_changes(tmp_path: Path) -> None:
    run("deck", "add", str(write_deck(tmp_path / "one", {"first": FIRST})))
    other = FIRST.replace(
        "4. fxe5 {Opens the f-file.} Nxe4 5. Nf3 {Keeps the queen off h4.}", "4. d3"
    )
    folder = write_deck(tmp_path / "two", {"first": other, "second": SECOND}, edition=2)
    added = document("deck", "add", str(folder))
    assert added["edition"] == 2
    # Worked by hand: 4. d3 for 4. fxe5, without 5. Nf3, and two cards after 2... Nc6 that
    # 3. Bc4 Nc6 of the first chapter does not lead to.
    assert added["cards"] == {"kept": 4, "new": 2, "changed": 1, "withdrawn": 1}
    assert document("deck", "show", "small")["edition"] == 2


def test_in_words(tmp_path: Path) -> None:
    bare = FIRST.replace("4. fxe5 {Opens the f-file.}", "4. fxe5")
    result = run("deck", "add", str(write_deck(tmp_path / "small", {"first": bare})))
    assert result.exit_code == 0
    first, *findings = result.stdout.splitlines()
    assert first == "Small (small), edition 1: cards: 6 new, 0 kept."
    assert all(line.startswith("first.pgn:") for line in findings)


@pytest.mark.parametrize("side", ["white", "black"])
def test_a_pgn_file_is_a_deck_whose_edition_rises(side: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.pgn"
    file.write_text(BLACK, encoding="utf-8")
    added = document("deck", "add", str(file), "--side", side)
    assert (added["deck"], added["edition"]) == (f"mine-{side}", 1)
    file.write_text(BLACK.replace(" 3. Nc3 dxe4 {Gives the knight no rest.}", ""), encoding="utf-8")
    assert document("deck", "add", str(file), "--side", side)["edition"] == 2


@pytest.mark.parametrize(
    ("edition", "why"), [(1, "is older than edition 2"), (2, "raise the edition")]
)
def test_an_edition_that_is_not_above_the_one_here_is_refused(
    edition: int, why: str, tmp_path: Path
) -> None:
    run("deck", "add", str(write_deck(tmp_path / "two", {"first": FIRST}, edition=2)))
    folder = write_deck(tmp_path / "other", {"first": SECOND}, edition=edition)
    result = run("deck", "add", str(folder), "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout) == {
        "deck": None,
        "edition": None,
        "cards": None,
        "findings": [],
        "changes": [],
    }
    assert why in result.stderr
    assert document("deck", "show", "small")["edition"] == 2


@pytest.mark.parametrize("as_json", [False, True])
def test_a_deck_with_errors_is_refused_with_all_its_findings(as_json: bool, tmp_path: Path) -> None:
    wrong = FIRST.replace("4. fxe5", "4. fxe6")
    folder = write_deck(tmp_path / "small", {"first": wrong, "second": SECOND.replace("d3", "d9")})
    result = run("deck", "add", str(folder), *(["--json"] if as_json else []))
    assert result.exit_code == 1
    assert result.stderr.count("\n") == 1
    assert "not added: first.pgn, line 11: " in result.stderr
    if as_json:
        findings = json.loads(result.stdout)["findings"]
        assert {(found["file"], found["severity"]) for found in findings} == {
            ("first.pgn", "error"),
            ("second.pgn", "error"),
        }
        assert {"code", "severity", "file", "game", "line", "message"} <= set(findings[0])
    else:
        assert any(line.startswith("first.pgn:11: error: ") for line in result.stdout.splitlines())
    assert document("deck", "list") == {"decks": []}


@pytest.mark.parametrize(
    "arguments",
    [["nosuch"], ["nosuch.pgn", "--side", "white"], ["x" * 5000], ["/dev/null", "--side", "white"]],
    ids=["folder", "file", "long name", "device"],
)
def test_a_path_without_a_deck_is_refused_in_one_line(arguments: list[str]) -> None:
    result = run("deck", "add", *arguments)
    assert result.exit_code == 1
    assert result.stderr.startswith("trainer: ")
    assert result.stderr.count("\n") == 1


def test_a_pgn_file_without_a_side_is_refused_with_the_option_that_says_it(tmp_path: Path) -> None:
    (tmp_path / "mine.pgn").write_text(BLACK, encoding="utf-8")
    result = run("deck", "add", str(tmp_path / "mine.pgn"))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--side white or --side black" in result.stderr


@pytest.mark.usefixtures("shelf")
def test_decks_are_listed() -> None:
    assert run("deck", "list").stdout == "small: Small, edition 1.\n"
    (listed,) = document("deck", "list")["decks"]
    assert (listed["id"], listed["title"], listed["edition"]) == ("small", "Small", 1)


def test_an_empty_shelf_says_what_to_do() -> None:
    assert "`trainer deck add PATH`" in run("deck", "list").stdout


@pytest.mark.usefixtures("shelf")
def test_a_deck_is_shown() -> None:
    shown = document("deck", "show", "small")
    # Worked by hand from tests/small_decks.py.
    counts = {name: shown[name] for name in ("lines", "positions", "cards", "transpositions")}
    assert counts == {"lines": 4, "positions": 22, "cards": 11, "transpositions": 1}
    assert [(c["id"], c["side"], c["cards"], c["open"]) for c in shown["chapters"]] == [
        ("first", "white", 6, True),
        ("second", "white", 5, True),
        ("answer", "black", 3, True),
    ]
    told = run("deck", "show", "small").stdout
    assert told.startswith("Small (small), edition 1.\nNobody, GPL-3.0-or-later\nFor tests.\n")
    assert "  answer: Chapter answer (lines, black), 3 cards.\n" in told


def test_a_closed_chapter_is_marked(tmp_path: Path) -> None:
    more = {"second": "opens = 2027-01-01"}
    folder = write_deck(tmp_path / "small", {"first": FIRST, "second": SECOND}, more=more)
    run("deck", "add", str(folder))
    assert "5 cards, not open yet." in run("deck", "show", "small").stdout
