"""Replies seen in played games that a deck does not answer."""

from __future__ import annotations

import pytest

from tests.deck.check_decks import written_of
from tests.trees import games
from trainer.deck.check.played_lines import played_lines
from trainer.deck.check.unanswered import Followed, unanswered_replies

DECK = (
    "1. e4 e5 (1... c5 2. Nf3 d6)\n2. Nf3 Nc6\n3. Bb5",
    "1. e4 Nc6 2. Nf3 e5",
)


def followed(text: str, side: str = "white") -> Followed:
    return unanswered_replies([written_of(games(*DECK), side)], played_lines(text))


# Worked by hand. Before 1... there are 4 games with 1. e4 where nothing else is said.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "1. e4 c6 * 1. e4 c6 2. Nf3 * 1. e4 e6 * 1. e4 e5 2. Nf3 Nc6 *",
            ["1... c6 after 1. e4 was seen in 2 of 4 games (50 %); "
             "the deck does not have it: add it with an answer"],
        ),
        (
            "1. e4 c6 * 1. e4 c6 * 1. e4 e6 * 1. e4 e6 * 1. e4 e6 * 1. c4 *",
            ["1... e6 after 1. e4 was seen in 3 of 5 games (60 %)",
             "1... c6 after 1. e4 was seen in 2 of 5 games (40 %)"],
        ),
        ("1. e4 c6 * 1. e4 e6 *", []),
        (
            "1. e4 c5 2. Nf3 d6 * 1. e4 c5 2. Nf3 d6 *",
            ["2... d6 after 1. e4 c5 2. Nf3 was seen in 2 of 2 games (100 %); "
             "the deck has the reply but no answer to it: add one"],
        ),
        (
            "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 * 1. e4 Nc6 2. Nf3 e5 3. Bb5 a6 *",
            ["3... a6 after 1. e4 e5 2. Nf3 Nc6 3. Bb5 was seen in 2 of 2 games (100 %); "
             "the line ends here: add the reply and its answer, if it matters"],
        ),
        (
            "1. Nf3 c6 2. e4 e5 * 1. Nf3 e5 2. e4 d6 * 1. Nf3 e5 2. e4 d6 *",
            ["2... d6 after 1. e4 e5 2. Nf3 was seen in 2 of 2 games (100 %)"],
        ),
        ("1. e4 Nc6 2. Nf3 e5 * 1. e4 Nc6 2. Nf3 e5 *", []),
        (
            "1. e4 c6 2. Ng1f3 Qxh9 * 1. e4 c6 *",
            ["1... c6 after 1. e4 was seen in 2 of 2 games (100 %)"],
        ),
        ('[Variant "Atomic"]\n\n1. e4 c6 *\n\n[Variant "Atomic"]\n\n1. e4 c6 *', []),
    ],
    ids=[
        "by share",
        "most frequent first",
        "once is not enough",
        "given but not answered",
        "behind the end of a line",
        "another move order into the deck",
        "answered by transposition",
        "a game that is broken later",
        "other chess",
    ],
)  # fmt: skip
def test_replies(text: str, expected: list[str]) -> None:
    found = followed(text).findings
    assert len(found) == len(expected)
    assert all(one.message.startswith(start) for one, start in zip(found, expected, strict=True)), (
        found
    )
    assert {one.severity.value for one in found} <= {"note"}


def test_the_place_is_that_of_the_reply_or_of_the_move_before_it() -> None:
    found = followed("1. e4 c6 * 1. e4 c6 * 1. e4 c5 2. Nf3 d6 * 1. e4 c5 2. Nf3 d6 *").findings
    assert [(one.code, one.file, one.game, one.line, one.column) for one in found] == [
        ("unanswered-reply", "c.pgn", 1, 1, 4),
        ("unanswered-reply", "c.pgn", 1, 1, 26),
    ]


def test_a_game_counts_once_in_a_position_and_its_first_reply_there() -> None:
    back_and_forth = "1. e4 Nf6 2. Nf3 Ng8 3. Ng1 c6 *"
    (found,) = followed(f"{back_and_forth} 1. e4 c6 * 1. e4 c6 *").findings
    assert found.message.startswith("1... c6 after 1. e4 was seen in 2 of 3 games (67 %)")


def test_games_that_cannot_be_read_are_counted() -> None:
    text = "1. e4 Sf6 * 1. e4 -- * 1. e4 c6 * " + '[FEN "nothing"]\n\n1. e4 *'
    result = followed(text)
    assert (result.games, result.unreadable) == (4, 3)


def test_the_same_games_seen_from_the_other_side() -> None:
    found = followed("1. c4 * 1. c4 e5 * 1. e4 c6 *", "black").findings
    assert [one.message.split(";")[0] for one in found] == [
        "1. c4 at the start was seen in 2 of 3 games (67 %)"
    ]
