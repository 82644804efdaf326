"""A sitting from the first prompt to the summary: order, first looks, repeats, the end."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.sitting.driver import Driver, said, sit
from tests.trees import graph
from trainer.sitting.events import (
    Ask,
    Begin,
    Ended,
    Event,
    GoOn,
    Graded,
    HintWanted,
    Judged,
    LogAnswer,
    MoveMade,
    MoveTyped,
    Recorded,
    ShowWanted,
    Stop,
    UndoWanted,
    Withdrawn,
)
from trainer.sitting.sitting import Phase, Rules, Sitting
from trainer.sitting.step import step
from trainer.sitting.verdict import Verdict

LONG = graph(
    "white",
    """1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O
       9. h3 Nb8 10. d3 Nbd7 11. Nbd2 Bb7 12. Bc2 Re8 13. Nf1 Bf8 14. Ng3 g6""",
)
FOURTEEN = [card.deck_move.san for card in LONG.cards if card.deck_move]

# Seven cards: e4, after it Nf3 and Nc3, then Bb5, Nxe5 and g3, at last Ba4.
WORKED = graph(
    "white",
    "1. e4 e5 (1... c5 2. Nc3 Nc6 3. g3) 2. Nf3 Nc6 (2... Nf6 3. Nxe5) 3. Bb5 a6 4. Ba4",
)


# --- Order


def test_travel_order_is_kept() -> None:
    driver = sit(LONG)
    driver.answer_all()
    assert driver.asked == FOURTEEN
    assert driver.grades == [5] * 14


@pytest.mark.parametrize(
    ("missed", "expected"),
    [
        (2, [*FOURTEEN[:12], "Nf3*", *FOURTEEN[12:]]),
        (9, [*FOURTEEN, "h3*"]),
        (14, [*FOURTEEN, "Ng3*"]),
        (4, [*FOURTEEN, "Ba4*"]),
        (3, [*FOURTEEN[:13], "Bb5*", FOURTEEN[13]]),
    ],
)
def test_a_repeat_comes_after_ten_other_prompts_or_after_all_the_rest(
    missed: int, expected: list[str]
) -> None:
    # Worked by hand: of 14 prompts the 2nd is missed, ten others are the 3rd to the 12th, so
    # its repeat is the 13th; of the 9th only five are left.
    driver = sit(LONG)
    driver.answer_all({missed: 2})
    assert driver.asked == expected


def test_of_several_the_longest_waiting_comes_first() -> None:
    driver = sit(LONG)
    driver.answer_all({1: 2, 2: 3, 13: 0})
    # Worked by hand: shown after 1 and 2, so they are the 12th and the 13th; that last again.
    assert driver.asked == [*FOURTEEN[:11], "e4*", "Nf3*", *FOURTEEN[11:], "Nf3*"]


def test_a_first_look_comes_before_the_first_asking_and_the_gap_between() -> None:
    driver = sit(LONG, fresh=["Nf3"])
    driver.answer_all()
    # Worked by hand: the look is the 2nd, ten others are the 3rd to the 12th.
    assert driver.asked == ["e4", "(Nf3)", *FOURTEEN[2:12], "Nf3", *FOURTEEN[12:]]


def test_the_worked_sitting() -> None:
    # Worked by hand: in travel order, the look where the fresh card stands, its asking last.
    driver = sit(WORKED, cards=["e4", "Nf3", "Nxe5", "Nc3", "g3"], fresh=["g3"])
    driver.answer_all()
    assert driver.asked == ["e4", "Nf3", "Nxe5", "Nc3", "(g3)", "g3"]


def test_a_sitting_of_fresh_cards_only() -> None:
    driver = sit(LONG, fresh=FOURTEEN)
    driver.answer_all()
    looks = [f"({name})" for name in FOURTEEN]
    # Worked by hand: after the 11th look ten lie between the first and now.
    assert driver.asked == [*looks[:11], *FOURTEEN[:11], *looks[11:], *FOURTEEN[11:]]


def test_owed_repeats_come_first_and_are_repeats() -> None:
    driver = sit(WORKED, repeats=["Bb5"], cards=["e4", "Nf3"])
    driver.answer_all()
    assert driver.asked == ["Bb5*", "e4", "Nf3"]
    assert [row.prompt.repeat for row in driver.log] == [True, False, False]


def test_nothing_to_practise() -> None:
    driver = sit(WORKED, cards=[])
    assert driver.effects == [Ended(0, 0, 0.0)]
    assert driver.sitting.phase is Phase.ENDED


# --- First looks


def test_a_look_asks_nothing_and_its_move_may_be_played_to_go_on() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"], fresh=["e4"])
    assert said(driver.effects) == ["Show"]
    assert driver.sitting.phase is Phase.LOOKING
    (judged,) = driver.type("d3")
    assert isinstance(judged, Judged)
    assert judged.judgement.verdict is Verdict.UNREADABLE
    assert "e4" in judged.judgement.reason
    assert driver.hint() == driver.show() == []
    assert said(driver.right()) == ["Ask"]
    driver.right()
    (ask,) = driver.go_on()
    assert isinstance(ask, Ask)
    assert (ask.prompt.card.move.san, ask.prompt.fresh, ask.prompt.tries) == ("e4", True, ())
    assert ask.prompt.seconds == 0


def test_the_first_answer_after_a_look_is_graded_and_no_repeat() -> None:
    driver = sit(WORKED, cards=["e4"], fresh=["e4"])
    driver.go_on()
    driver.answer(5)
    assert [(row.quality, row.prompt.repeat, row.prompt.fresh) for row in driver.log] == [
        (5, False, True)
    ]
    assert driver.state(driver.log[0].prompt.card.key).schedule.repetition == 1


def test_without_first_looks_a_fresh_card_is_asked_at_once() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"], fresh=["e4"], rules=Rules(first_look=False))
    driver.answer_all()
    assert driver.asked == ["e4", "Nf3"]


# --- Repeats


def test_a_card_below_four_comes_again_until_it_scores_four() -> None:
    driver = sit(WORKED, cards=["e4"])
    for quality in (2, 3, 0, 1, 4):
        driver.answer(quality)
        driver.go_on()
    assert driver.asked == ["e4", "e4*", "e4*", "e4*", "e4*"]
    assert driver.sitting.phase is Phase.ENDED
    state = driver.state(driver.log[0].prompt.card.key)
    assert (state.schedule.interval, state.counted_quality) == (1, 2)
    assert driver.effects[-1] == Ended(asked=5, right=2, seconds=driver.sitting.seconds)


@pytest.mark.parametrize(("quality", "again"), [(5, 0), (4, 0), (3, 1), (2, 1), (1, 1), (0, 1)])
def test_what_comes_again(quality: int, again: int) -> None:
    driver = sit(WORKED, cards=["e4"])
    driver.answer(quality)
    assert driver.sitting.left == again


# --- The end


def _answered(driver: Driver) -> None:
    driver.answer(5)


def _next_asked(driver: Driver) -> None:
    driver.answer(5)
    driver.go_on()


def _half_tried(driver: Driver) -> None:
    _next_asked(driver)
    driver.miss()


@pytest.mark.parametrize(
    ("before", "asked"),
    [([], 0), ([Driver.miss], 0), ([_answered], 1), ([_next_asked], 1), ([_half_tried], 1)],
)
def test_stop_at_any_moment(before: list[Callable[[Driver], object]], asked: int) -> None:
    driver = sit(WORKED)
    for act in before:
        act(driver)
    ended = driver.stop()
    assert (ended.asked, ended.right) == (asked, asked)
    assert len(driver.log) == asked
    assert driver.sitting.phase is Phase.ENDED
    assert driver.sitting.current is None
    assert driver.type("e4") == driver.undo() == driver.send(Stop(0.0)) == []


def test_stop_in_a_look_counts_nothing() -> None:
    driver = sit(WORKED, fresh=["e4"])
    assert driver.stop(25) == Ended(0, 0, 25.0)


def test_what_stood_open_at_a_stop_is_still_left() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3", "Nc3"])
    driver.answer(5)
    driver.go_on()
    driver.stop()
    assert (driver.sitting.left, len(driver.sitting.answered)) == (2, 1)


def test_first_looks_are_counted() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3", "Nc3"], fresh=["e4", "Nf3", "Nc3"])
    seen = [driver.sitting.looks]
    for _ in range(2):
        driver.go_on()
        seen.append(driver.sitting.looks)
    assert seen == [(1, 3), (2, 3), (3, 3)]


def test_stop_before_the_beginning() -> None:
    _, effects = step(Sitting({}, ()), Stop(0.0))
    assert effects == (Ended(0, 0, 0.0),)


def test_the_end_counts_repeats_and_what_was_right_at_the_first_try() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3", "Nc3"])
    driver.answer_all({1: 2, 2: 3})
    ended = driver.effects[-1]
    assert isinstance(ended, Ended)
    assert driver.grades == [2, 3, 5, 5, 5]
    assert (ended.asked, ended.right) == (5, 4)


# --- Events that make no sense


@pytest.mark.parametrize("phase", [Phase.LOOKING, Phase.ASKING, Phase.ANSWERED, Phase.RECORDING])
def test_events_that_make_no_sense_change_nothing(phase: Phase) -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"], fresh=["e4"] if phase is Phase.LOOKING else [])
    if phase is Phase.ANSWERED:
        driver.answer(5)
    sitting = driver.sitting
    if phase is Phase.RECORDING:
        sitting, _ = step(sitting, MoveTyped("e4", 1.0))
    assert sitting.phase is phase
    state = driver.state("")
    events: dict[Event, tuple[Phase, ...]] = {
        Begin(): (),
        GoOn(0.0): (Phase.LOOKING, Phase.ANSWERED),
        HintWanted(0.0): (Phase.ASKING,),
        ShowWanted(0.0): (Phase.ASKING,),
        MoveTyped("zz", 0.0): (Phase.LOOKING, Phase.ASKING),
        MoveMade(0, 0, None, 0.0): (Phase.LOOKING, Phase.ASKING),
        UndoWanted(0.0): (Phase.LOOKING, Phase.ASKING, Phase.ANSWERED),
        Recorded("0", state): (Phase.RECORDING,),
        Withdrawn(): (),
    }
    for event, welcome in events.items():
        if phase not in welcome:
            assert step(sitting, event) == (sitting, ()), event


def test_nothing_is_graded_before_it_is_recorded() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"])
    sitting, effects = step(driver.sitting, MoveTyped("e4", 1.0))
    assert [type(effect) for effect in effects] == [Judged, LogAnswer]
    assert (sitting.answered, sitting.phase) == ((), Phase.RECORDING)
    sitting, effects = step(sitting, Recorded("a", driver.state("")))
    assert [type(effect) for effect in effects] == [Graded]
    assert [one.id for one in sitting.answered] == ["a"]


def test_a_step_leaves_the_sitting_it_was_given() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"])
    before = driver.sitting
    driver.miss()
    driver.answer(2)
    assert before.current is not None
    assert (before.current.tries, before.answered, before.phase) == ((), (), Phase.ASKING)


def test_what_is_left() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3", "Bb5"])
    assert driver.sitting.left == 2
    driver.answer(2)
    assert driver.sitting.left == 3
    driver.go_on()
    driver.undo()
    assert driver.sitting.left == 2
