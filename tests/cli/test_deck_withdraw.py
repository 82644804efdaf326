"""`trainer deck withdraw`: what it says, and that it asks first."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.runs import document, events, run

pytestmark = pytest.mark.usefixtures("shelf")


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is typed comes from a person."""
    monkeypatch.setattr("trainer.cli.consent.sits_at_the_keyboard", lambda: True)


def ids() -> list[str]:
    return [entry["id"] for entry in document("deck", "list")["decks"]]


def test_with_yes_it_goes_and_its_files_with_it(home: Path) -> None:
    events("--fresh", "1", answers=["e4"])
    assert document("deck", "withdraw", "small", "--yes") == {
        "deck": "small",
        "cards": 11,
        "remembered": 1,
    }
    assert ids() == []
    assert list((home / "decks").iterdir()) == []


def test_the_same_deck_again_brings_all_back(tmp_path: Path) -> None:
    events("--fresh", "1", answers=["e4"])
    folder = str(tmp_path / "small")
    assert run("deck", "withdraw", folder, "--yes").stdout == (
        "Small (small) is withdrawn. 1 remembered card leaves practice; what you remember stays, "
        "should the deck come back.\n"
    )
    result = run("deck", "add", folder)
    assert result.stdout.splitlines()[:2] == [
        "Small (small), edition 1: cards: 11 new, 0 kept.",
        "  Start of “The gambit”: e4 comes back with what you remember.",
    ]
    assert document("today")["decks"][0]["known"] == 1


@pytest.mark.parametrize("as_json", [False, True])
def test_without_a_terminal_nothing_goes_unasked(as_json: bool) -> None:
    result = run("deck", "withdraw", "small", *(["--json"] if as_json else []), typed="y\n")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "0 remembered cards of 'small' would leave practice" in result.stderr
    assert "--yes" in result.stderr
    assert result.stderr.count("\n") == 1
    assert ids() == ["small"]


@pytest.mark.usefixtures("terminal")
@pytest.mark.parametrize(("typed", "left"), [("y\n", []), ("n\n", ["small"]), ("\n", ["small"])])
def test_on_a_terminal_it_asks(typed: str, left: list[str]) -> None:
    events("--fresh", "1", answers=["e4"])
    result = run("deck", "withdraw", "small", typed=typed)
    assert "Small (small): 1 remembered card leaves practice" in result.stderr
    assert "Withdraw it? [y/N]" in result.stderr
    assert result.exit_code == (1 if left else 0)
    assert ids() == left


def test_what_is_not_here_is_refused() -> None:
    result = run("deck", "withdraw", "nosuch", "--yes")
    assert result.exit_code == 1
    assert "no deck 'nosuch'; the decks are: small" in result.stderr
