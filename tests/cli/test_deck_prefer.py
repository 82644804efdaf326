"""`trainer deck prefer`: in words and as JSON."""

from __future__ import annotations

import pytest

from tests.cli.runs import document, events, run

FORK = "1. e4 e5 2. Nc3 Nf6"

pytestmark = pytest.mark.usefixtures("shelf")


def test_keeping_a_move_and_taking_it_back_in_words() -> None:
    events("--branch", FORK, answers=["f4"])
    kept = run("deck", "prefer", "small", FORK, "Bc4").stdout.splitlines()
    assert kept == [
        f"{FORK} (white): f4 or Bc4; you keep Bc4.",
        "3 cards leave practice, 1 of them answered and remembered. 1 card comes into practice.",
    ]
    assert run("deck", "prefer", "small", FORK).stdout == f"{kept[0]}\n"
    assert run("deck", "prefer", "small").stdout.splitlines() == [
        "small: you can choose in 1 position.",
        f"  {kept[0]}",
    ]
    back = run("deck", "prefer", "small", FORK, "--take-back").stdout.splitlines()
    assert back == [
        f"{FORK} (white): f4 or Bc4.",
        "1 card leaves practice. 3 cards come into practice, 1 of them with what you remember.",
    ]


def test_as_a_document() -> None:
    here = {
        "deck": "small",
        "side": "white",
        "line": FORK,
        "fen": "rnbqkb1r/pppp1ppp/5n2/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR w KQkq - 2 3",
        "moves": ["f4", "Bc4"],
        "kept": None,
        "sleeps": False,
    }
    assert document("deck", "prefer", "small", FORK) == here
    kept = {**here, "kept": "Bc4"}
    counts = {"come": 1, "returned": 0, "gone": 3, "remembered": 0}
    assert document("deck", "prefer", "small", FORK, "Bc4") == {**kept, **counts}
    listed = {name: value for name, value in kept.items() if name != "deck"}
    assert document("deck", "prefer", "small") == {"deck": "small", "choices": [listed]}


def test_the_kept_move_is_asked_and_another_is_out_of_book() -> None:
    run("deck", "prefer", "small", FORK, "Bc4")
    found = events("--branch", FORK, answers=["f4", "Bc4"])
    first, second = (event for event in found if event["event"] == "verdict")
    assert (first["verdict"], second["verdict"]) == ("out of book", "in book")
    assert first["note"].startswith("You keep Bc4 here.")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nosuch"], "no deck 'nosuch'; the decks are: small"),
        (["small", FORK, "d4"], "the right moves there are f4 and Bc4"),
        (["small", "1. e4 e9"], "neither a FEN nor a line"),
        (["small", FORK, "--take-back"], "you keep no move"),
    ],
)
def test_what_cannot_be_done_is_said_in_one_line(arguments: list[str], said: str) -> None:
    result = run("deck", "prefer", *arguments)
    assert (result.exit_code, result.stdout) == (1, "")
    assert said in result.stderr
    assert result.stderr.count("\n") == 1


@pytest.mark.parametrize("arguments", [["--take-back"], [FORK, "Bc4", "--take-back"]])
def test_wrong_usage(arguments: list[str]) -> None:
    assert run("deck", "prefer", "small", *arguments).exit_code == 2


def test_a_position_with_one_right_move_says_so() -> None:
    assert run("deck", "prefer", "small", "1. e4 e5").stdout == "1. e4 e5 (white): Nc3.\n"
