"""A tactic is played out against every defence; its worst move is its quality."""

from __future__ import annotations

import pytest

from tests.sitting.driver import Driver, said
from tests.sitting.exercises import FORK, sit_with, tactic
from trainer.sitting.events import Ask, Effect, Graded, Judged, Reply, RestShown
from trainer.sitting.sitting import Phase
from trainer.sitting.verdict import Verdict


def replies(effects: list[Effect]) -> list[str]:
    """Each reply with the line to the position that it leads to."""
    return [f"{effect.prompt.card.line}" for effect in effects if isinstance(effect, Reply)]


def solve(driver: Driver, *moves: tuple[str, float]) -> list[Effect]:
    """Type moves, reading on wherever something is told."""
    effects: list[Effect] = []
    for move, seconds in moves:
        effects += driver.type(move, seconds)
        if driver.sitting.phase is Phase.TOLD:
            effects += driver.go_on()
    return effects


RIGHT = (("Nc7", 1.0), ("Nxa8", 1.0), ("Nxa8", 1.0), ("Nb6", 1.0))


def test_every_defence_is_played_within_one_prompt() -> None:
    driver = sit_with(tactic())
    effects = solve(driver, *RIGHT)
    assert replies(effects) == [
        "1. Nc7+ Kd7",
        "1. Nc7+ Kd8",
        "1. Nc7+ Kd8 2. Nxa8 Kc8",
    ]
    assert said(effects)[-3:] == ["Judged", "LogAnswer", "Graded"]
    assert driver.grades == [5]
    assert [attempt.san for attempt in driver.log[0].prompt.all_tries] == [
        "Nc7+",
        "Nxa8",
        "Nxa8",
        "Nb6+",
    ]
    assert said(driver.go_on()) == ["Ended"]


@pytest.mark.parametrize(
    ("moves", "grade"),
    [
        # Source: design of the deck format, section 3: the worst move's, hesitation per move.
        (RIGHT, 5),
        ((("Nc7", 8.0), ("Nxa8", 8.0), ("Nxa8", 8.0), ("Nb6", 8.0)), 5),
        ((("Nc7", 1.0), ("Nxa8", 8.1), ("Nxa8", 1.0), ("Nb6", 1.0)), 4),
        ((("Nb6", 1.0), ("Nxa8", 1.0), ("Nxa8", 1.0), ("Nb6", 1.0)), 5),
        ((("Nf6", 1.0), ("Nxa8", 1.0), ("Nb6", 1.0)), 2),
        ((("Nc7", 1.0), ("Kd2", 1.0), ("Nxa8", 1.0), ("Nb6", 1.0)), 2),
        ((("Nc7", 1.0), ("Nxa8", 1.0), ("Nxa8", 1.0), ("Kd2", 1.0)), 2),
        ((("rubbish", 7.0), ("Nc7", 1.0), *RIGHT[1:]), 5),
        ((("rubbish", 7.1), ("Nc7", 1.0), *RIGHT[1:]), 4),
    ],
    ids=[
        "all right",
        "each just in time",
        "one too slow",
        "an accepted alternative",
        "a known mistake",
        "a miss in the main line",
        "a miss at the end",
        "rubbish in time",
        "rubbish costs time",
    ],
)
def test_the_worst_move_grades(moves: tuple[tuple[str, float], ...], grade: int) -> None:
    driver = sit_with(tactic())
    solve(driver, *moves)
    assert driver.grades == [grade]


@pytest.mark.parametrize(
    ("before", "grade"), [("hint", 3), ("show", 0), ("hint, miss", 1), ("show, miss", 0)]
)
def test_help_at_one_move_grades_the_whole(before: str, grade: int) -> None:
    driver = sit_with(tactic())
    driver.right()
    driver.hint() if "hint" in before else driver.show()
    solve(driver, ("Kd2", 1.0) if "miss" in before else ("Nxa8", 1.0), *RIGHT[2:])
    assert driver.grades == [grade]
    logged = driver.log[0].prompt
    assert (logged.hint_ever, logged.shown_ever) == ("hint" in before, "show" in before)


def test_a_miss_ends_its_defence_and_the_next_one_follows() -> None:
    driver = sit_with(tactic())
    driver.right()
    effects = driver.type("Kd2")
    assert said(effects) == ["Judged", "RestShown"]
    (rest,) = [effect.rest for effect in effects if isinstance(effect, RestShown)]
    assert rest == "2. Nxa8"
    assert driver.sitting.phase is Phase.TOLD
    assert said(driver.type("Nxa8")) == [], "nothing is read while the rest is told"
    assert replies(driver.go_on()) == ["1. Nc7+ Kd8"]


def test_a_miss_at_the_first_move_goes_on_where_the_next_defence_parts() -> None:
    driver = sit_with(tactic())
    effects = solve(driver, ("Ke2", 1.0))
    (judged,) = [effect for effect in effects if isinstance(effect, Judged)]
    assert judged.judgement.verdict is Verdict.OUT_OF_BOOK
    assert judged.judgement.reason == "Sound, but not the solution."
    assert judged.judgement.note == "slow"
    assert replies(effects) == ["1. Nc7+ Kd8"]


def test_an_alternative_is_right_and_the_solution_goes_on() -> None:
    driver = sit_with(tactic())
    effects = driver.type("Nb6")
    (judged,) = [effect for effect in effects if isinstance(effect, Judged)]
    assert judged.judgement.reason == "Right too; the solution goes on with Nc7+."
    assert replies(effects) == ["1. Nc7+ Kd7"]


def test_a_tactic_below_four_comes_again_from_its_first_move() -> None:
    driver = sit_with(tactic())
    solve(driver, ("Nf6", 1.0), ("Nxa8", 1.0), ("Nb6", 1.0))
    (ask,) = [effect for effect in driver.go_on() if isinstance(effect, Ask)]
    assert (ask.prompt.repeat, ask.prompt.card.line, ask.prompt.done) == (True, "", ())
    solve(driver, *RIGHT)
    assert driver.grades == [2, 5]


def test_undo_asks_the_whole_tactic_again() -> None:
    driver = sit_with(tactic(), tactic("[6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1]1. Ra8#"))
    solve(driver, *RIGHT)
    driver.go_on()
    (undone, ask) = driver.undo()[1:]
    assert said([undone, ask]) == ["Undone", "Ask"]
    assert driver.prompt.card.line == ""
    solve(driver, *RIGHT)
    assert driver.grades == [5]
    driver.go_on()
    assert driver.prompt.card.fen.startswith("6k1/")


def test_what_an_undo_pushed_aside_comes_back_where_it_stood() -> None:
    driver = sit_with(tactic("[6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1]1. Ra8#"), tactic())
    driver.right()
    driver.go_on()
    solve(driver, ("Nc7", 1.0), ("Kd2", 1.0))
    driver.undo()
    driver.right()
    driver.go_on()
    assert driver.prompt.card.line == "1. Nc7+ Kd8"
    solve(driver, ("Nxa8", 1.0), ("Nb6", 1.0))
    assert driver.grades == [5, 2]


def test_where_the_opponent_begins_the_first_question_stands_behind_his_move() -> None:
    text = "[r3k3/8/8/3N4/8/8/8/4K3 b - - 0 1]1... Kf7 (1... Kd7 2. Nb6+) 2. Nc7"
    driver = sit_with(tactic(text, "white"))
    assert driver.prompt.card.line == "1... Kf7"
    effects = solve(driver, ("Nc7", 1.0))
    assert replies(effects) == ["1... Kd7"]
    solve(driver, ("Nb6", 1.0))
    assert driver.grades == [5]


def test_stopping_in_the_middle_counts_nothing() -> None:
    driver = sit_with(tactic())
    driver.right()
    ended = driver.stop()
    assert (ended.asked, driver.log) == (0, [])


def test_the_grade_is_told_once_it_is_written() -> None:
    driver = sit_with(tactic(FORK), fresh=True)
    effects = solve(driver, *RIGHT)
    (graded,) = [effect for effect in effects if isinstance(effect, Graded)]
    assert (graded.quality, graded.prompt.fresh) == (5, True)
