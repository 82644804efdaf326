"""What holds of a sitting whatever happens, and in whatever order."""

from __future__ import annotations

from collections.abc import Callable

import chess
from hypothesis import given
from hypothesis import strategies as st

from tests.sitting.driver import Driver, sit
from tests.sitting.exercises import idea, model_game, sit_with, tactic
from tests.trees import graph
from trainer.lines.idea import Form
from trainer.memory.card_state import FRESH
from trainer.sitting.events import (
    AnswerChosen,
    Ask,
    Begin,
    Ended,
    Event,
    GoOn,
    Graded,
    HintWanted,
    LogAnswer,
    LogWithdrawal,
    MoveMade,
    MoveTyped,
    Recorded,
    Show,
    ShowWanted,
    SquaresChosen,
    Stop,
    Undone,
    UndoWanted,
    Withdrawn,
)
from trainer.sitting.sitting import Phase
from trainer.sitting.step import step

# At 1. e4 c5 2. Nf3 e6 the move 3. Nc3 transposes to the line that begins 2. Nc3.
BOOK = graph(
    "white",
    "1. e4 c5 2. Nf3 (2. b3 Nc6) (2. Qh5? Nf6) 2... e6 3. c3 (3. a3 {[%aside]}) 3... d5 4. e5",
    "1. e4 c5 2. Nc3 e6 3. Nf3 a6 4. g3 b5 5. Bg2",
)
NAMES = [card.deck_move.san for card in BOOK.cards if card.deck_move]
CARDS = [name for name in NAMES if NAMES.count(name) == 1]
TEXTS = [*CARDS, "Nc3", "Nf3", "Qh5", "a3", "h4", "b3", "Ke5", "", "[/x]", "0000", "O-O"]
SOLUTION = ["Nc7", "Nxa8", "Nb6", "Nf6", "Kd2", "Qh5", "Qxf7"]
SECONDS = st.sampled_from([0.0, 2.5, 9.0])
SQUARES = st.integers(0, 63)

ACTS: list[Callable[[Driver], object]] = [
    Driver.right,
    Driver.right,
    Driver.go_on,
    Driver.go_on,
    Driver.hint,
    Driver.show,
    Driver.undo,
    Driver.undo,
    lambda driver: driver.type("Nc3"),
    lambda driver: driver.type("h4"),
    lambda driver: driver.type("Qh5"),
    lambda driver: driver.type("castle"),
]

EVENTS = st.one_of(
    st.builds(Begin),
    st.builds(MoveTyped, st.sampled_from([*TEXTS, *SOLUTION]), SECONDS),
    st.builds(SquaresChosen, st.sampled_from([("f7",), ("d5", "f7"), ("x",)]), SECONDS),
    st.builds(AnswerChosen, st.integers(0, 4), SECONDS),
    st.builds(
        MoveMade, SQUARES, SQUARES, st.sampled_from([None, chess.QUEEN, chess.KING]), SECONDS
    ),
    st.builds(HintWanted, SECONDS),
    st.builds(ShowWanted, SECONDS),
    st.builds(UndoWanted, SECONDS),
    st.builds(GoOn, SECONDS),
    st.builds(Recorded, st.sampled_from(["a", "b"]), st.just(FRESH)),
    st.builds(Withdrawn),
)


def sittings() -> st.SearchStrategy[Driver]:
    """Some cards, some of them fresh, perhaps with an owed repeat of another."""
    return st.builds(
        lambda owed, fresh: sit(
            BOOK, repeats=CARDS[:owed], cards=CARDS[owed:], fresh=fresh - set(CARDS[:owed])
        ),
        st.integers(0, 2),
        st.frozensets(st.sampled_from(CARDS)),
    )


def act(driver: Driver, acts: list[Callable[[Driver], object]]) -> None:
    for one in acts:
        if driver.sitting.phase is not Phase.ENDED:
            needs_prompt = one is Driver.right and driver.sitting.phase is Phase.ANSWERED
            Driver.go_on(driver) if needs_prompt else one(driver)


def test_the_cards_can_be_told_apart() -> None:
    assert CARDS == ["e4", "c3", "e5", "g3", "Bg2"]


@given(sittings(), st.lists(st.sampled_from(ACTS), max_size=60), st.booleans())
def test_the_end_counts_what_was_graded_and_not_undone(
    driver: Driver, acts: list[Callable[[Driver], object]], stops: bool
) -> None:
    act(driver, acts)
    if stops and driver.sitting.phase is not Phase.ENDED:
        driver.stop()
    if driver.sitting.phase is Phase.ENDED:
        ended = driver.effects[-1]
        assert isinstance(ended, Ended)
        graded = sum(isinstance(effect, Graded) for effect in driver.effects)
        undone = sum(isinstance(e, Undone) and e.card is not None for e in driver.effects)
        assert ended.asked == graded - undone == len(driver.standing)
        assert ended.right == sum(quality >= 3 for quality in driver.grades)


@given(sittings(), st.lists(st.sampled_from(ACTS), max_size=60))
def test_every_card_is_answered_once_and_again_until_it_holds(
    driver: Driver, acts: list[Callable[[Driver], object]]
) -> None:
    act(driver, acts)
    driver.answer_all()
    for card in {row.prompt.card.key for row in driver.log}:
        rows = [row for row in driver.standing if row.prompt.card.key == card]
        owed = rows[0].prompt.repeat
        assert [row.prompt.repeat for row in rows] == [owed, *[True] * (len(rows) - 1)]
        assert all(row.quality < 4 for row in rows[:-1])
        assert rows[-1].quality >= 4
    assert len({row.prompt.card.key for row in driver.standing}) == len(CARDS)


@given(sittings(), st.lists(st.sampled_from(ACTS), max_size=60))
def test_a_fresh_card_is_looked_at_before_it_is_asked(
    driver: Driver, acts: list[Callable[[Driver], object]]
) -> None:
    act(driver, acts)
    looked_at: set[str] = set()
    for effect in driver.effects:
        if isinstance(effect, Show):
            looked_at.add(effect.prompt.card.key)
        elif isinstance(effect, Ask) and effect.prompt.fresh:
            assert effect.prompt.card.key in looked_at


def of_all_kinds(dice: int) -> Driver:
    """A question of each form, a tactic, and a model game."""
    return sit_with(
        idea(Form.SQUARES, "f7"),
        idea(Form.MOVE, "g1f3"),
        tactic(),
        idea(Form.CHOOSE, "a", "b", "c"),
        model_game(),
        dice=dice,
    )


@given(
    st.one_of(sittings(), st.builds(of_all_kinds, st.integers(0, 99))),
    st.lists(EVENTS, max_size=60),
    st.booleans(),
)
def test_any_events_in_any_order(driver: Driver, events: list[Event], stops: bool) -> None:
    sitting = driver.sitting
    unwritten = 0
    for event in [*events, *[Stop(1.0)] * stops]:
        before = sitting
        sitting, effects = step(before, event)
        if before.phase is Phase.ENDED:
            assert (sitting, effects) == (before, ())
            continue
        assert sitting.seconds == before.seconds + getattr(event, "seconds", 0.0)
        for effect in effects:
            if isinstance(effect, LogAnswer | LogWithdrawal):
                assert not unwritten, "the one before is not written yet"
                unwritten += 1
            elif isinstance(effect, Graded | Undone) and isinstance(event, Recorded | Withdrawn):
                unwritten -= 1
            elif isinstance(effect, Graded):
                raise AssertionError("graded before it was written")
        assert (sitting.current is None) == (
            sitting.phase in (Phase.BEGINNING, Phase.WITHDRAWING, Phase.ENDED)
        )
        assert unwritten == (sitting.phase in (Phase.RECORDING, Phase.WITHDRAWING)) or (
            sitting.phase is Phase.ENDED
        )
    if stops:
        assert sitting.phase is Phase.ENDED
