"""Position facts in sentences: differences first, short, and never a verdict."""

from __future__ import annotations

import re

import chess
import pytest
from hypothesis import given

from tests.lines.second_opinion import played_boards
from tests.trees import after
from trainer.lines.facts import position_facts
from trainer.lines.facts_in_words import tell_facts


def told(where: str) -> list[str]:
    """What is told of a FEN, or after moves."""
    board = chess.Board(where) if "/" in where else after(where)
    return tell_facts(position_facts(board))


def test_differences_come_first_and_what_is_shared_follows() -> None:
    assert told("1. e4 c5 2. Nf3 Nc6 3. Bb5 g6 4. Bxc6 bxc6") == [
        "White has two squares more space, 4 to 2.",
        "White is one piece ahead in development, 1 to 0.",
        "Black has the bishop pair.",
        "Black has doubled pawns on c5 and c6.",
        "Black has an isolated pawn on a7.",
        "The b-file is half-open for Black.",
        "White covers e5 more often, 1 to 0.",
        "Material is even.",
        "Both may still castle on either side.",
        "No pawn is passed.",
        "No file is open.",
        "Nothing is pinned and nothing hangs.",
        "Both cover d4 and d5 once.",
        "Neither covers e4.",
    ]


def test_at_the_start_all_is_alike() -> None:
    assert told("") == [
        "Material is even.",
        "Space is even.",
        "Development is even.",
        "Both have the bishop pair.",
        "Both may still castle on either side.",
        "No pawn is doubled, isolated or passed.",
        "No file is open.",
        "Nothing is pinned and nothing hangs.",
        "Neither covers d4, e4, d5 or e5.",
    ]


# Worked by hand: a sentence that is told, and where.
SENTENCES = [
    ("1. e4 d5 2. exd5", "White has one point more material, 39 to 38."),
    ("1. f4 e5 2. fxe5 Nc6 3. Nf3 Nxe5 4. Nxe5", "White has three points more material, 38 to 35."),
    ("4k3/8/8/8/8/8/8/Q3K3 w - - 0 1", "White has 9 points more material, 9 to 0."),
    ("1. e4 e5 2. Nf3 d6 3. Bc4", "White is two pieces ahead in development, 2 to 0."),
    ("1. e4 e5 2. Nf3 Nc6 3. Rg1", "White may still castle queenside."),
    ("1. e4 e5 2. Nf3 Nc6 3. Rg1", "Black may still castle on either side."),
    ("1. e4 e5 2. Ke2", "White may no longer castle."),
    ("1. e4 e5 2. Ke2 Ke7", "Neither may castle any more."),
    ("4k2r/8/8/8/8/8/8/4K2R w Kk - 0 1", "Both may still castle kingside."),
    ("8/5k2/8/3P4/8/2p3p1/6P1/4K3 w - - 0 1", "White has a passed pawn on d5."),
    ("4k3/8/8/4P3/4P3/4P3/8/4K3 w - - 0 1", "White has passed pawns on e3, e4 and e5."),
    ("4k3/pp6/8/8/8/8/P1P5/4K3 w - - 0 1", "The files d, e, f, g and h are open."),
    ("4k3/pp6/8/8/8/8/P1P5/4K3 w - - 0 1", "The b-file is half-open for White."),
    ("1. e4 e6 2. d4 d5 3. Nc3 Bb4", "White's c3 is pinned to the king."),
    ("1. e4 e6 2. d4 d5 3. Nc3 Bb4", "Nothing hangs."),
    ("1. e4 e5 2. Nf3", "Black's e5 hangs: attacked and not defended."),
    ("1. e4 e5 2. Nf3", "Nothing is pinned."),
    ("4k3/8/8/8/8/8/2p1p3/3K4 w - - 0 1", "Black's c2 and e2 hang: attacked and not defended."),
    ("1. f4 e5 2. g4 Qh4", "White is in check from h4."),
    ("4k3/8/3N4/8/8/8/8/K3R3 b - - 0 1", "Black is in double check from d6 and e1."),
    ("1. e4 e5 2. Nf3 Nc6 3. Nc3 Nf6", "Both cover e4 and e5 once."),
    ("1. e4 e6 2. d4 d5 3. Nc3 Bb4", "Both cover d5 twice."),
    ("4k3/8/2n1n3/1n6/8/1N3N2/4N3/4K3 w - - 0 1", "Both cover d4 3 times."),
]


@pytest.mark.parametrize(("where", "sentence"), SENTENCES, ids=[case[1] for case in SENTENCES])
def test_a_sentence_is_told(where: str, sentence: str) -> None:
    assert sentence in told(where)


@given(played_boards())
def test_every_sentence_is_one_plain_sentence(board: chess.Board) -> None:
    sentences = tell_facts(position_facts(board))
    assert len(sentences) == len(set(sentences))
    for sentence in sentences:
        assert re.fullmatch(r"[A-Z][A-Za-z0-9 ,:'-]*\.", sentence)
        assert not re.search(r"\b(better|worse|winning|lost|advantage|equal)\b", sentence)
        assert not re.search(r"\b(one|1) (points|squares|pieces)\b", sentence)
        # Only a list of many squares is longer than a breath.
        assert len(sentence) <= 70 or len(re.findall(r"\b[a-h][1-8]\b", sentence)) > 4


@given(played_boards())
def test_the_sides_are_told_alike(board: chess.Board) -> None:
    """The board turned round gives the same sentences about the other side."""
    kinds = [_without_squares(facts) for facts in (board, board.mirror())]
    swapped = [_swap(sentence) for sentence in kinds[1]]
    assert sorted(kinds[0]) == sorted(swapped)


def _without_squares(board: chess.Board) -> list[str]:
    sentences = tell_facts(position_facts(board))
    return [s for s in sentences if not re.search(r"\b[a-h][1-8]\b", s)]


def _swap(sentence: str) -> str:
    swap = {"White": "Black", "Black": "White"}
    return re.sub("White|Black", lambda found: swap[found[0]], sentence)
