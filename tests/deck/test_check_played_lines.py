"""Main lines out of files of played games, however they are written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.check.played_lines import PlayedLine, played_lines

FEN = "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"


# Worked by hand.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", []),
        ("[Event x]\n\n*", []),
        ("1. e4 e5 2. Nf3 1-0", ["e4 e5 Nf3"]),
        ("1.e4 c5 1-0 1.c4 *", ["e4 c5", "c4"]),
        ('[A "1"]\n\n1. e4\n\n[A "2"]\n\n1. c4', ["e4", "c4"]),
        ("1. e4 {sharp (1. c4 1-0)} e5! $1 (1... c5 (1... e6) 1-0) 2. Nf3 *", ["e4 e5 Nf3"]),
        ("7. e4 5... e5 ) 2. Nf3 *", ["e4 e5 Nf3"]),
        ('1. e4 (1. c4\n\n[A "2"]\n\n1. g3 *', ["e4", "g3"]),
        ("1. e4 -- {null} Nf3 *", ["e4 -- Nf3"]),
        ("1. e4 {never closed e5 *", ["e4"]),
        ('1. e4 {never closed\n\n[A "2"]\n\n1. c4 *', ["e4", "c4"]),
        ("1. e4 e5\n% 2. Nf3\n; 2. Nc3\n2. Bc4 *", ["e4 e5 Bc4"]),
    ],
    ids=[
        "nothing",
        "a game without moves",
        "one game",
        "games end with their results",
        "or where tags begin",
        "what stands beside the game",
        "wrong numbers and parentheses",
        "a variation that is never closed",
        "a null move",
        "a comment that is never closed",
        "it ends with its game",
        "escape lines and rests of lines",
    ],
)
def test_main_lines(text: str, expected: list[str]) -> None:
    assert [" ".join(game.moves) for game in played_lines(text)] == expected


def test_where_and_by_which_rules_a_game_begins() -> None:
    first, second, third = played_lines(
        f'[SetUp "1"]\n[FEN "{FEN}"]\n\n1. e4 *\n\n[Variant "Atomic"]\n\n1. e4 *\n\n'
        '[Variant "Standard"]\n\n1. e4 *'
    )
    assert first == PlayedLine(fen=FEN, moves=["e4"])
    assert second.variant == "Atomic"
    assert third == PlayedLine(moves=["e4"])


def test_the_tags_of_a_game_without_moves_are_its_own() -> None:
    (only,) = played_lines('[Variant "Chess960"]\n\n1-0\n\n[Event "x"]\n\n1. e4 *')
    assert only == PlayedLine(moves=["e4"])


@given(st.text(alphabet='[](){};%$"1.-*eN f\n'))
def test_any_text_is_read_to_its_end(text: str) -> None:
    assert all(game.moves for game in played_lines(text))
