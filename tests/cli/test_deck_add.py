"""`trainer deck add` of a new edition: what it says, and when it asks first."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.runs import document, events, run
from tests.small_decks import FIRST, SECOND, write_deck

BETTER = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3 {Hits e4 at once.}")
SHORTER = SECOND.replace("Bc5 5. Bg5 {Pins f6.}", "Bc5")
END = "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4"
QUIET = "1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6 4. d3 Bc5"


@pytest.fixture
def two(tmp_path: Path) -> str:
    """The first edition is here; the path of the second."""
    run("deck", "add", str(write_deck(tmp_path / "one", {"first": FIRST, "second": SECOND})))
    chapters = {"first": BETTER, "second": SHORTER}
    return str(write_deck(tmp_path / "two", chapters, edition=2))


@pytest.fixture
def answered(two: str) -> str:
    """Both cards were answered that the second edition does not ask."""
    for line, move in ((END, "Nf3"), (QUIET, "Bg5")):
        events("--branch", line, answers=[move])
    return two


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is typed comes from a person."""
    monkeypatch.setattr("trainer.cli.consent.sits_at_the_keyboard", lambda: True)


def edition() -> int:
    return int(document("deck", "list")["decks"][0]["edition"])


def test_what_changed_is_told_line_by_line(two: str) -> None:
    result = run("deck", "add", two)
    assert result.exit_code == 0, result.output
    assert result.stdout.splitlines()[:3] == [
        "Small (small), edition 2: cards: 0 new, 6 kept, 1 with another answer, 1 withdrawn.",
        f"  {END}: Qf3 in place of Nf3; asked afresh.",
        f"  {QUIET}: Bg5 is withdrawn.",
    ]


def test_all_changes_stand_in_the_document(two: str) -> None:
    added = document("deck", "add", two)
    assert added["cards"] == {"kept": 6, "new": 0, "changed": 1, "withdrawn": 1}
    changed, withdrawn = added["changes"]
    assert changed == {
        "what": "changed",
        "kind": "move",
        "chapter": "first",
        "line": END,
        "title": "The gambit",
        "old": "Nf3",
        "new": "Qf3",
        "remembered": False,
        "returned": False,
        "cards": 1,
    }
    assert (withdrawn["what"], withdrawn["line"], withdrawn["old"]) == ("withdrawn", QUIET, "Bg5")


def test_a_long_account_is_cut_in_words_and_whole_in_the_document(tmp_path: Path) -> None:
    moves = ["a3", "b3", "c3", "d3", "f3", "g3", "h3", "a4", "b4", "c4", "f4", "g4", "h4", "Nc3"]
    replies = ["a6", "b6", "c6", "d6", "f6", "g6", "h6", "a5", "b5", "c5", "f5", "g5", "h5", "Na6"]
    for number, others in ((1, moves), (2, [*moves[1:], moves[0]])):
        pgn = "\n\n".join(
            f"1. e4 {reply} 2. {move} *" for reply, move in zip(replies, others, strict=True)
        )
        folder = write_deck(tmp_path / str(number), {"first": pgn}, edition=number)
        result = run("deck", "add", str(folder))
    told = [line for line in result.stdout.splitlines() if line.startswith("  ")]
    assert len(told) == 13
    assert told[-1] == "  and 2 more (all with --json)."


def test_without_a_terminal_what_is_remembered_is_not_touched_unasked(answered: str) -> None:
    result = run("deck", "add", answered)
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.count("\n") == 1
    assert "2 cards that you have answered" in result.stderr
    assert "--yes" in result.stderr
    assert edition() == 1


@pytest.mark.usefixtures("terminal")
def test_json_is_refused_alike_and_says_what_would_change(answered: str) -> None:
    result = run("deck", "add", answered, "--json", typed="y\n")
    assert result.exit_code == 1
    refused = json.loads(result.stdout)
    assert (refused["deck"], refused["cards"]) == (None, None)
    assert [change["remembered"] for change in refused["changes"]] == [True, True]
    assert "--yes" in result.stderr
    assert edition() == 1


@pytest.mark.parametrize("as_json", [False, True])
def test_yes_is_enough(answered: str, as_json: bool) -> None:
    result = run("deck", "add", answered, "--yes", *(["--json"] if as_json else []))
    assert result.exit_code == 0
    if not as_json:
        assert f"  {END}: Qf3 in place of Nf3; asked afresh, Nf3 is remembered." in result.stdout
        assert f"  {QUIET}: Bg5 is withdrawn, and remembered." in result.stdout
    assert edition() == 2


@pytest.mark.usefixtures("terminal")
@pytest.mark.parametrize(("typed", "becomes"), [("y\n", 2), ("n\n", 1), ("\n", 1)])
def test_on_a_terminal_it_asks_after_the_account(answered: str, typed: str, becomes: int) -> None:
    result = run("deck", "add", answered, typed=typed)
    assert result.exit_code == 2 - becomes
    first = result.stdout.splitlines()[0]
    assert first == f"  {END}: Qf3 in place of Nf3; asked afresh, Nf3 is remembered."
    assert "changes or withdraws 2 cards that you have answered. Add it? [y/N]" in result.stderr
    assert ("edition 2: cards: " in result.stdout) == (becomes == 2)
    assert result.stdout.count("Bg5 is withdrawn") == 1
    assert edition() == becomes


@pytest.mark.usefixtures("terminal", "answered")
def test_what_touches_no_remembered_card_is_not_asked(tmp_path: Path) -> None:
    more = SECOND.replace("5. Bg5 {Pins f6.}", "5. Bg5 {Pins f6.} h6 6. Bh4 {Holds the pin.}")
    folder = write_deck(tmp_path / "three", {"first": FIRST, "second": more}, edition=3)
    result = run("deck", "add", str(folder))
    assert (result.exit_code, result.stderr) == (0, "")
    assert "  Chapter “Chapter second”: 1 new card.\n" in result.stdout


def test_what_comes_back_brings_its_history(answered: str, tmp_path: Path) -> None:
    run("deck", "add", answered, "--yes")
    chapters = {"first": FIRST, "second": SECOND}
    result = run("deck", "add", str(write_deck(tmp_path / "three", chapters, edition=3)))
    assert f"  {END}: Nf3 in place of Qf3; comes back with what you remember.\n" in result.stdout
    assert f"  {QUIET}: Bg5 comes back with what you remember.\n" in result.stdout
    assert document("today")["decks"][0]["known"] == 2
