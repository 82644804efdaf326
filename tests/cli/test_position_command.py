"""`trainer position`: what the decks have, and what they say of a try."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.runs import document, run
from tests.small_decks import write_deck

pytestmark = pytest.mark.usefixtures("shelf")

AFTER_E5 = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq -"


@pytest.mark.parametrize(
    ("where", "line", "fen"),
    [
        ("1. e4 e5", "1. e4 e5", f"{AFTER_E5} 0 2"),
        ("e2e4 e7-e5", "1. e4 e5", f"{AFTER_E5} 0 2"),
        (AFTER_E5, "", f"{AFTER_E5} 0 1"),
        (f"{AFTER_E5.replace('-', 'e6')} 0 2", "", f"{AFTER_E5} 0 2"),
    ],
    ids=["line", "long algebraic", "four fields", "idle en passant"],
)
def test_a_position_is_found_by_line_and_by_fen(where: str, line: str, fen: str) -> None:
    found = document("position", where)
    assert set(found.pop("facts")) == {"white", "black"}
    assert found == {
        "fen": fen,
        "epd": AFTER_E5,
        "line": line,
        "decks": [
            {
                "deck": "small",
                "chapter": "first",
                "side": "white",
                "move": "Nc3",
                "accepted": [],
                "mistakes": ["Qh5"],
                "replies": [],
            }
        ],
    }


def test_the_facts_have_their_names_and_forms() -> None:
    # Worked by hand from design.md, section 10.
    found = document("position", "1. e4 c5 2. Nf3 Nc6 3. Bb5 g6 4. Bxc6 bxc6")["facts"]
    assert found["black"] == {
        "material": 36,
        "bishop_pair": True,
        "developed": 0,
        "castling": "O-O, O-O-O",
        "space": 2,
        "doubled": ["c5", "c6"],
        "isolated": ["a7"],
        "passed": [],
        "open_files": [],
        "half_open_files": ["b"],
        "pinned": [],
        "hanging": [],
        "checks": [],
        "centre": {"d4": 1, "e4": 0, "d5": 1, "e5": 0},
    }
    assert found["white"]["developed"] == 1
    checked = document("position", "1. e4 e5 2. Nf3 d6 3. Bb5")["facts"]
    assert (checked["white"]["checks"], checked["black"]["checks"]) == ([], ["b5"])


TRIES: dict[str, tuple[str, str, dict[str, Any]]] = {
    "the deck's move": ("1. e4 e5", "Nc3", {"verdict": "in book", "san": "Nc3", "reason": ""}),
    "an alternative": (
        "1. e4 e5 2. Nc3 Nf6",
        "bc4",
        {"verdict": "in book", "reason": "Right too; the deck's first choice is f4."},
    ),
    "a known mistake": (
        "1. e4 e5",
        "d1h5",
        {"verdict": "known mistake", "note": "The queen is chased: 2... Nc6 and 3... g6."},
    ),
    "out of book": ("1. e4 e5", "d3", {"verdict": "out of book", "san": "d3"}),
    "illegal": (
        "1. e4 e5",
        "Ke3",
        {"verdict": "illegal", "reason": "A king moves one square."},
    ),
    "unreadable": ("1. e4 e5", "\x1b[31m", {"verdict": "unreadable", "san": ""}),
    "unclear": ("1. e4 e5 2. Nf3 Nc6 3. d3 Nf6", "Nd2", {"verdict": "unclear", "san": ""}),
    "a reply that the deck answers": (
        "1. e4 e5 2. Nc3",
        "Nf6",
        {"verdict": "in book", "note": "Hits e4.", "reason": ""},
    ),
    "a reply that it does not": (
        "1. e4 e5 2. Nc3",
        "f5",
        {"verdict": "out of book", "reason": "No deck here has this move."},
    ),
    "where no deck is": (
        "1. c4",
        "c5",
        {"verdict": "out of book", "reason": "No deck here has this move."},
    ),
}


@pytest.mark.parametrize("name", TRIES)
def test_a_try_is_judged(name: str) -> None:
    where, tried, wanted = TRIES[name]
    found = document("position", where, "--try", tried)["try"]
    assert set(found) == {"verdict", "san", "reason", "note"}
    assert wanted.items() <= found.items()


def test_in_words() -> None:
    assert run("position", "1. e4 e5", "--try", "Qh5").stdout.splitlines() == [
        "After 1. e4 e5.",
        f"{AFTER_E5} 0 2",
        "small, chapter first (white): the move is Nc3; known mistakes: Qh5.",
        "Qh5: known mistake.",
        "The queen is chased: 2... Nc6 and 3... g6.",
        "",
        "What can be counted:",
        "Black covers d4 more often, 1 to 0.",
        "White covers d5 more often, 1 to 0.",
        "Material is even.",
        "Space is even.",
        "Development is even.",
        "Both have the bishop pair.",
        "Both may still castle on either side.",
        "No pawn is doubled, isolated or passed.",
        "No file is open.",
        "Nothing is pinned and nothing hangs.",
        "Neither covers e4 or e5.",
    ]
    assert "No deck here has this position.\n" in run("position", "1. c4").stdout
    assert "(white): replies: Nf6, Nc6." in run("position", "1. e4 e5 2. Nc3").stdout


def test_a_try_is_judged_as_a_sitting_would(tmp_path: Path) -> None:
    # The first deck's line ends where the second asks for a move; the third starts otherwise.
    home = ("--home", str(tmp_path / "other"))
    for deck, pgn in (("one", "1. e4 e5 *"), ("two", "1. e4 e5 2. Nf3 *"), ("three", "1. c4 *")):
        folder = write_deck(tmp_path / deck, {"first": pgn}, deck_id=deck, title=deck.title())
        run("deck", "add", str(folder), *home)
    found = document("position", "1. e4 e5", "--try", "Nf3", *home)
    assert found["try"]["verdict"] == "in book"
    assert [deck["deck"] for deck in found["decks"]] == ["two", "one"]
    spared = document("position", "", "--try", "c4", *home)["try"]
    assert (spared["verdict"], "Three" in spared["reason"]) == ("other deck", True)
