"""Ideas are graded by the program, in their three forms."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sitting.driver import Driver, said
from tests.sitting.exercises import idea, sit_with
from trainer.lines.idea import Form
from trainer.sitting.events import AnswerChosen, Event, Judged, MoveMade, MoveTyped, SquaresChosen
from trainer.sitting.shuffle import shuffled
from trainer.sitting.verdict import Verdict

SQUARES = idea(Form.SQUARES, "f7", "d5")
MOVE = idea(Form.MOVE, "g1f3")
CHOOSE = idea(Form.CHOOSE, "a pawn", "a knight", "the queen")


def verdict(driver: Driver, event: Event) -> tuple[str, str]:
    """The verdict and its note."""
    (judged,) = [effect for effect in driver.send(event) if isinstance(effect, Judged)]
    return judged.judgement.verdict.value, judged.judgement.note


@pytest.mark.parametrize(
    ("card", "event", "wanted"),
    [
        (SQUARES, SquaresChosen(("f7", "d5"), 1), "in book"),
        (SQUARES, SquaresChosen(("d5", "f7", "d5"), 1), "in book"),
        (SQUARES, SquaresChosen(("f7",), 1), "out of book"),
        (SQUARES, SquaresChosen(("f7", "d5", "d4"), 1), "out of book"),
        (SQUARES, SquaresChosen((), 1), "unreadable"),
        (SQUARES, SquaresChosen(("f7", "d9"), 1), "unreadable"),
        (SQUARES, MoveTyped("f7", 1), "unreadable"),
        (SQUARES, AnswerChosen(1, 1), "unreadable"),
        (MOVE, MoveTyped("nf3", 1), "in book"),
        (MOVE, MoveMade(6, 21, None, 1), "in book"),
        (MOVE, MoveTyped("Nc3", 1), "out of book"),
        (MOVE, MoveTyped("N", 1), "unreadable"),
        (MOVE, MoveTyped("Nf6", 1), "illegal"),
        (MOVE, SquaresChosen(("f3",), 1), "unreadable"),
        (CHOOSE, AnswerChosen(0, 1), "unreadable"),
        (CHOOSE, AnswerChosen(4, 1), "unreadable"),
        (CHOOSE, MoveTyped("a pawn", 1), "unreadable"),
        (CHOOSE, SquaresChosen(("d4",), 1), "unreadable"),
    ],
    ids=lambda value: "" if not isinstance(value, str) else value,
)
def test_an_answer_is_judged_by_its_form(card: object, event: Event, wanted: str) -> None:
    # Source: design of the deck format, section 3: sets match as a whole; what has another
    # form, or is out of range, is unreadable.
    driver = sit_with(card)  # type: ignore[arg-type]
    assert verdict(driver, event) == (wanted, "So it is." if wanted == "in book" else "")
    assert len(driver.log) == (wanted == "in book")


def test_choices_count_in_the_order_shown_which_is_new_each_time() -> None:
    driver = sit_with(CHOOSE, dice=7)
    order = driver.prompt.order
    assert sorted(driver.prompt.choices) == ["a knight", "a pawn", "the queen"]
    wrong = order.index(1) + 1
    assert verdict(driver, AnswerChosen(wrong, 1)) == ("out of book", "")
    assert driver.prompt.order == order, "the order stays within a prompt"
    assert verdict(driver, AnswerChosen(order.index(0) + 1, 1)) == ("in book", "So it is.")
    assert driver.grades == [2]
    orders = {sit_with(CHOOSE, dice=dice).prompt.order for dice in range(100)}
    assert len(orders) == 6


@given(st.integers(1, 9), st.integers(0, 2**32), st.integers(0, 1000))
def test_an_order_has_each_number_once(count: int, dice: int, prompts: int) -> None:
    order = shuffled(count, dice, prompts)
    assert sorted(order) == list(range(count))
    assert order == shuffled(count, dice, prompts)


def test_every_place_is_the_right_one_about_equally_often() -> None:
    # By hand: 3,000 draws of 3 give 1,000 each, with a deviation of 26; five of them is 130.
    places = [shuffled(3, dice * 7919, 4).index(0) for dice in range(3000)]
    assert all(abs(places.count(place) - 1000) < 130 for place in range(3))


def test_a_hint_is_none_and_a_shown_answer_must_be_given() -> None:
    driver = sit_with(SQUARES)
    effects = driver.hint()
    assert said(effects) == ["Judged"]
    assert verdict(driver, MoveTyped("x", 1))[0] == Verdict.UNREADABLE
    assert said(driver.show()) == ["Shown"]
    assert driver.prompt.answer == "d5 f7"
    driver.send(SquaresChosen(("d5", "f7"), 1))
    assert driver.grades == [0]


@pytest.mark.parametrize(("card", "answer"), [(MOVE, "Nf3"), (CHOOSE, "a pawn")])
def test_the_answer_in_a_few_words(card: object, answer: str) -> None:
    assert sit_with(card).prompt.answer == answer  # type: ignore[arg-type]


def test_an_idea_is_logged_as_it_was_answered() -> None:
    driver = sit_with(SQUARES, fresh=True)
    driver.send(SquaresChosen(("e5",), 3))
    driver.send(SquaresChosen(("f7", "d5"), 3))
    (row,) = driver.log
    assert [(tried.san, tried.verdict.value) for tried in row.prompt.all_tries] == [
        ("e5", "out of book"),
        ("d5 f7", "in book"),
    ]
    assert (row.quality, row.prompt.seconds, row.prompt.hesitated) == (2, 6, 3)
