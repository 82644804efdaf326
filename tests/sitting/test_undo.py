"""Taking the last answer back, from wherever the sitting stands."""

from __future__ import annotations

import pytest

from tests.sitting.driver import Driver, sit
from tests.trees import graph
from trainer.sitting.events import Ask, Effect, Ended, MoveTyped, Undone, UndoWanted
from trainer.sitting.sitting import Phase
from trainer.sitting.step import step

BOOK = graph("white", "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7")


def undone(effects: list[Effect]) -> list[str]:
    """What an undo says: the move of the card asked again, `nothing`, the move asked."""
    names = []
    for effect in effects:
        if isinstance(effect, Undone):
            names.append("undone" if effect.card else "nothing")
        elif isinstance(effect, Ask):
            names.append(effect.prompt.card.move.san)
    return names


def test_nothing_to_undo_asks_the_same_again() -> None:
    driver = sit(BOOK)
    driver.miss()
    assert undone(driver.undo()) == ["nothing", "e4"]
    assert driver.prompt.misses == 1
    assert driver.sitting.prompts == 1


def test_nothing_to_undo_in_a_look() -> None:
    driver = sit(BOOK, fresh=["e4"])
    assert driver.undo() == [Undone(None)]
    assert driver.sitting.phase is Phase.LOOKING


def test_after_an_answer() -> None:
    driver = sit(BOOK)
    driver.answer(4)
    card = driver.prompt.card.key
    effects = driver.undo()
    assert undone(effects) == ["undone", "e4"]
    assert Undone(card) in effects
    assert driver.standing == []
    driver.answer_all()
    assert driver.asked == ["e4", "e4", "Nf3", "Bb5", "Ba4", "O-O"]
    assert driver.grades == [5] * 5


def test_while_the_next_is_asked_its_tries_help_and_time_survive() -> None:
    driver = sit(BOOK)
    driver.answer(5)
    driver.go_on()
    driver.miss(3)
    driver.hint(2)
    assert undone(driver.undo(1)) == ["undone", "e4"]
    driver.answer(5)
    (ask,) = driver.go_on()
    assert isinstance(ask, Ask)
    assert (ask.prompt.card.move.san, ask.prompt.misses, ask.prompt.hint) == ("Nf3", 1, True)
    assert (ask.prompt.seconds, ask.prompt.hesitated) == (6, 3)
    driver.right(1)
    assert driver.grades == [5, 1]


def test_in_a_look_the_look_comes_again() -> None:
    driver = sit(BOOK, fresh=["Nf3"])
    driver.answer(5)
    driver.go_on()
    assert undone(driver.undo()) == ["undone", "e4"]
    driver.answer_all()
    assert driver.asked == ["e4", "(Nf3)", "e4", "(Nf3)", "Bb5", "Ba4", "O-O", "Nf3"]


def test_a_card_asked_again_begins_anew() -> None:
    driver = sit(BOOK)
    driver.answer(1)
    driver.undo()
    assert (driver.prompt.tries, driver.prompt.hint, driver.prompt.seconds) == ((), False, 0)
    driver.answer(5)
    assert driver.grades == [5]


def test_a_fresh_card_is_asked_again_without_a_look_and_stays_fresh() -> None:
    driver = sit(BOOK, cards=["e4"], fresh=["e4"])
    driver.go_on()
    driver.answer(2)
    driver.undo()
    driver.answer(5)
    assert driver.asked == ["(e4)", "e4", "e4"]
    assert [row.prompt.fresh for row in driver.log] == [True, True]
    assert driver.sitting.left == 0


def test_the_repeat_that_the_answer_had_earned_is_off() -> None:
    driver = sit(BOOK)
    driver.answer(2)
    driver.undo()
    driver.answer_all()
    assert driver.asked == ["e4", "e4", "Nf3", "Bb5", "Ba4", "O-O"]


def test_the_repeat_is_off_even_where_it_stands_on_the_board() -> None:
    driver = sit(BOOK, cards=["e4"])
    driver.answer(2)
    driver.go_on()
    driver.hint()
    driver.undo()
    driver.answer_all()
    assert driver.asked == ["e4", "e4*", "e4"]
    assert driver.grades == [5]


def test_a_miss_again_earns_a_repeat_again() -> None:
    driver = sit(BOOK, cards=["e4"])
    driver.answer(2)
    driver.undo()
    driver.answer(3)
    driver.go_on()
    driver.answer_all()
    assert driver.asked == ["e4", "e4", "e4*"]
    assert driver.grades == [3, 5]


def test_of_a_repeat() -> None:
    driver = sit(BOOK, cards=["e4"])
    driver.answer(2)
    driver.go_on()
    driver.answer(2)
    driver.go_on()
    assert undone(driver.undo()) == ["undone", "e4"]
    assert driver.prompt.repeat
    driver.answer_all()
    assert driver.asked == ["e4", "e4*", "e4*", "e4*"]
    assert driver.grades == [2, 5]


def test_of_an_owed_repeat() -> None:
    driver = sit(BOOK, repeats=["Nf3"], cards=["e4"])
    driver.answer(2)
    driver.undo()
    driver.answer_all()
    assert driver.asked == ["Nf3*", "Nf3*", "e4"]


def test_twice_in_a_row() -> None:
    driver = sit(BOOK)
    for quality in (5, 4):
        driver.answer(quality)
        driver.go_on()
    driver.miss()
    assert undone(driver.undo()) == ["undone", "Nf3"]
    driver.hint()
    assert undone(driver.undo()) == ["undone", "e4"]
    assert undone(driver.undo()) == ["nothing", "e4"]
    assert driver.standing == []
    driver.right()
    driver.go_on()
    driver.right()
    driver.go_on()
    driver.right()
    assert driver.grades == [5, 3, 2]
    assert driver.asked == ["e4", "Nf3", "Bb5", "Nf3", "e4", "e4", "Nf3", "Bb5"]


def test_twice_in_a_row_over_a_miss_and_its_repeat() -> None:
    driver = sit(BOOK, cards=["e4", "Nf3"])
    driver.answer(2)
    driver.go_on()
    driver.answer(5)
    driver.go_on()
    assert driver.asked == ["e4", "Nf3", "e4*"]
    driver.undo()
    driver.undo()
    driver.answer_all()
    assert driver.asked == ["e4", "Nf3", "e4*", "Nf3", "e4", "Nf3"]
    assert driver.grades == [5, 5]


def test_back_to_the_beginning_and_through() -> None:
    driver = sit(BOOK)
    for _ in range(4):
        driver.answer(2)
        driver.go_on()
    for _ in range(4):
        driver.undo()
    driver.answer_all()
    assert driver.grades == [5] * 5
    assert driver.asked[-5:] == ["e4", "Nf3", "Bb5", "Ba4", "O-O"]


def test_not_while_the_answer_is_being_written() -> None:
    driver = sit(BOOK)
    sitting, _ = step(driver.sitting, MoveTyped("e4", 1.0))
    assert step(sitting, UndoWanted(0.0)) == (sitting, ())


@pytest.mark.parametrize("then", ["undo", "undo and miss", "undo and answer"])
def test_the_end_leaves_out_what_was_undone(then: str) -> None:
    driver = sit(BOOK)
    driver.answer(5)
    driver.go_on()
    driver.answer(5)
    driver.undo()
    if then == "undo and miss":
        driver.miss()
    elif then == "undo and answer":
        driver.answer(2)
    ended = driver.stop()
    assert (ended.asked, ended.right) == {"undo and answer": (2, 1)}.get(then, (1, 1))


def test_what_comes_again_after_an_undo_keeps_its_place() -> None:
    driver: Driver = sit(BOOK, cards=["e4", "Nf3", "Bb5"], fresh=["Bb5"])
    driver.answer(2)
    driver.go_on()
    driver.answer(5)
    driver.go_on()
    assert driver.sitting.phase is Phase.LOOKING
    driver.undo()
    driver.answer_all()
    assert driver.asked == ["e4", "Nf3", "(Bb5)", "Nf3", "(Bb5)", "e4*", "Bb5"]
    assert isinstance(driver.effects[-1], Ended)
