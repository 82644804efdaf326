"""The handout as plain text. Expected values: worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.handout_decks import LINES, chapter, deck, whole_deck
from trainer.deck.deck import Kind
from trainer.deck.handout.as_text import WIDTH, text
from trainer.deck.handout.compose import handout_of
from trainer.deck.handout.exercises import letter
from trainer.deck.handout.pages import Diagram
from trainer.deck.handout.text_board import text_board

WHOLE = """\
All of it
=========
Edition 2
Nobody
CC-BY-4.0

For tests.

A percentage in brackets is the share of opponents who choose the reply.

In the diagrams White's pieces are capitals; an empty dark square is a colon.

Contents
--------
1 The lines
  1.1 The gambit


1 The lines
===========
Lines for White.

1.1 The gambit
--------------

We strike early.

1. e4 – Takes the centre.

1... e5 2. Nc3 – Guards e4.

  Not ours: 2. Nf3 – Sound.

  A mistake: 2. Qh5? – Chased. 2... Nc6 3. Bc4 g6

    3... Nf6? 4. Qxf7#

2... Nf6 (60%) – Hits e4.

3. f4

  Also right: 3. Bc4 – Quieter. 3... Nc6 4. d3

3... d5 4. fxe5

  8  r n b q k b . r
  7  p p p . : p p p
  6  . : . : . n . :
  5  : . : p P . : .
  4  . : . : P : . :
  3  : . N . : . : .
  2  P P P P . : P P
  1  R . B Q K B N R
     a b c d e f g h
  After 4. fxe5
"""


def test_a_chapter_of_lines() -> None:
    one = deck(chapter(Kind.LINES, LINES.split('\n[Event "By')[0]))
    assert text(handout_of(one)) == WHOLE


def test_black_sees_the_board_from_the_other_side() -> None:
    rows = text_board(Diagram("8/8/8/8/8/8/P7/K6k w - - 0 1", "black", ""))
    assert rows[:2] == ["1  k : . : . : . K", "2  : . : . : . : P"]
    assert rows[-1] == "   h g f e d c b a"


def test_marks_are_told_in_words() -> None:
    one = deck(chapter(Kind.LINES, "1. e4 e5 2. f4 {[%csl Gd5,Re4][%cal Gf4e5]} *"))
    told = text(handout_of(one))
    assert "  After 2. f4\n  Marked: d5, e4.\n  Arrows: f4-e5.\n" in told


def test_exercises_come_first_and_their_answers_last() -> None:
    told = text(handout_of(whole_deck()))
    asked, answered = told.index("Choose one."), told.index("Answers: 4 The ideas\n====")
    assert asked < told.index("\nSolutions: 2 The tactics\n====") < answered
    assert "  a) An attack\n  b) nothing\n  c) the centre\n" in told
    assert "c) the centre" in told[answered:]
    assert "4. Bxf7+" not in told[: told.index("\nSolutions: 2 The tactics\n====")]


@given(st.text(st.sampled_from("abcd –-'"), max_size=400))
def test_lines_are_broken_between_words(words: str) -> None:
    spoken = " ".join(words.replace("-", "- ").split())
    one = deck(chapter(Kind.LINES, LINES.replace("Takes the centre.", spoken)))
    longest = max(map(len, [*spoken.split(), ""]))
    for line in text(handout_of(one)).splitlines():
        assert len(line) <= max(WIDTH, longest + 2)
        assert line == line.rstrip()


def test_a_move_keeps_its_number() -> None:
    moves = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O *"
    told = text(handout_of(deck(chapter(Kind.LINES, moves)))).splitlines()
    assert not [line for line in told if line.endswith(".") and line[-2].isdigit()]


@pytest.mark.parametrize(
    ("place", "expected"), [(0, "a"), (25, "z"), (26, "aa"), (27, "ab"), (52, "ba")]
)
def test_choices_have_letters(place: int, expected: str) -> None:
    assert letter(place) == expected
