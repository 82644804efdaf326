"""What a try counts, what help costs, and what quality it comes to."""

from __future__ import annotations

from collections.abc import Callable

import chess
import pytest

from tests.sitting.driver import Driver, said, sit
from tests.trees import graph
from trainer.lines.letters import LANGUAGES
from trainer.sitting.events import (
    Graded,
    Hinted,
    Judged,
    MoveMade,
    Shown,
)
from trainer.sitting.sitting import Phase, Rules
from trainer.sitting.verdict import Verdict

LONG = graph("white", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. O-O")
# Seven cards: e4, after it Nf3 and Nc3, then Bb5, Nxe5 and g3, at last Ba4.
WORKED = graph(
    "white",
    "1. e4 e5 (1... c5 2. Nc3 Nc6 3. g3) 2. Nf3 Nc6 (2... Nf6 3. Nxe5) 3. Bb5 a6 4. Ba4",
)

# At 1. e4 e6 2. d3 c5 the knight's move transposes and the bishop's does too.
TRICKY = graph(
    "white",
    """1. e4 e6 2. d3 c5 3. g3 {Our move.} (3. c3 Nc6 4. f4) (3. Qg4? {Out too early.} Nf6)
       3... Nc6""",
    "1. e4 c5 2. Nf3 e6 3. d3",
    "1. e4 e6 2. Be2 c5 3. d3",
)


def tricky(**others: str) -> Driver:
    """The card that asks for 3. g3."""
    return sit(TRICKY, cards=["g3"], other_decks=others)


# --- Tries


def test_in_book_is_judged_logged_and_only_then_graded() -> None:
    driver = sit(WORKED, cards=["e4"])
    effects = driver.right()
    assert said(effects) == ["Judged", "LogAnswer", "Graded"]
    graded = effects[-1]
    assert isinstance(graded, Graded)
    assert graded.quality == 5
    assert graded.state.schedule.interval == 1
    assert driver.sitting.phase is Phase.ANSWERED


def test_an_accepted_alternative_earns_the_same() -> None:
    driver = tricky()
    judged, _, graded = driver.type("c3")
    assert isinstance(judged, Judged)
    assert isinstance(graded, Graded)
    assert (judged.judgement.verdict, graded.quality) == (Verdict.IN_BOOK, 5)
    assert "g3" in judged.judgement.reason


def test_a_transposing_try_is_spared_once_then_out_of_book() -> None:
    driver = tricky()
    assert driver.verdict("Nf3") is Verdict.TRANSPOSES
    assert driver.prompt.misses == 0
    assert driver.verdict("Be2") is Verdict.OUT_OF_BOOK
    assert driver.prompt.misses == 1
    assert [(one.san, one.verdict) for one in driver.prompt.tries] == [
        ("Nf3", Verdict.TRANSPOSES),
        ("Be2", Verdict.OUT_OF_BOOK),
    ]
    driver.right()
    assert driver.grades == [2]


def test_a_transposing_try_alone_costs_nothing() -> None:
    driver = tricky()
    driver.verdict("Nf3")
    driver.right()
    assert driver.grades == [5]


def test_a_transposing_try_is_spared_once_a_prompt_not_once_a_sitting() -> None:
    driver = tricky()
    driver.verdict("Nf3")
    driver.verdict("Nf3")
    driver.right()
    driver.go_on()
    assert driver.verdict("Nf3") is Verdict.TRANSPOSES


def test_another_decks_move_is_spared_once_then_out_of_book() -> None:
    driver = tricky(h2h4="The Storm")
    (judged,) = driver.type("h4")
    assert isinstance(judged, Judged)
    assert judged.judgement.verdict is Verdict.OTHER_DECK
    assert "The Storm" in judged.judgement.reason
    assert driver.verdict("Nf3") is Verdict.TRANSPOSES
    assert driver.prompt.misses == 0
    assert driver.verdict("h4") is Verdict.OUT_OF_BOOK
    assert driver.prompt.misses == 1


@pytest.mark.parametrize("text", ["", "hello", "Kf3", "Ke2 e4", "O-O"])
def test_what_the_deck_does_not_judge_is_no_try(text: str) -> None:
    driver = tricky()
    assert driver.verdict(text) in (Verdict.UNREADABLE, Verdict.UNCLEAR, Verdict.ILLEGAL)
    assert driver.prompt.tries == ()
    driver.right()
    assert driver.grades == [5]


def test_a_known_mistake_is_a_miss_and_its_comment_is_at_hand() -> None:
    driver = tricky()
    (judged,) = driver.type("Qg4")
    assert isinstance(judged, Judged)
    assert judged.judgement.verdict is Verdict.KNOWN_MISTAKE
    assert judged.judgement.book_move is not None
    assert judged.judgement.book_move.note == "Out too early."
    assert judged.prompt.misses == 1


def test_moves_made_on_the_board() -> None:
    driver = tricky()
    driver.send(MoveMade(chess.H2, chess.H4, None, 1.0))
    effects = driver.send(MoveMade(chess.G2, chess.G3, None, 1.0))
    assert said(effects) == ["Judged", "LogAnswer", "Graded"]
    assert driver.grades == [2]


def test_typed_moves_are_read_in_the_students_letters() -> None:
    driver = sit(WORKED, cards=["Nf3"], rules=Rules(letters=LANGUAGES["de"]))
    assert driver.verdict("Sf3") is Verdict.IN_BOOK


# --- Quality by what happened


def _transpose(driver: Driver) -> None:
    driver.verdict("Nf3")


# Source: Wozniak (1990), 3.2, the scale; what happened, then the seconds of the right move.
QUALITIES: dict[str, tuple[int, list[Callable[[Driver], object]], float]] = {
    "at once": (5, [], 8.0),
    "after the hesitation time": (4, [], 8.1),
    "a hint": (3, [Driver.hint], 1.0),
    "two hints, slowly": (3, [Driver.hint, Driver.hint], 30.0),
    "a miss": (2, [Driver.miss], 1.0),
    "three misses": (2, [Driver.miss, Driver.miss, Driver.miss], 1.0),
    "a miss, then a hint": (1, [Driver.miss, Driver.hint], 1.0),
    "a hint, then a miss": (1, [Driver.hint, Driver.miss], 1.0),
    "shown": (0, [Driver.show], 1.0),
    "a hint, then shown": (0, [Driver.hint, Driver.show], 1.0),
    "shown, then a hint": (0, [Driver.show, Driver.hint], 1.0),
    "shown, then a miss": (0, [Driver.show, Driver.miss], 1.0),
    "everything": (0, [Driver.miss, Driver.hint, Driver.show], 1.0),
    "transposed": (5, [_transpose], 1.0),
    "transposed twice": (2, [_transpose, _transpose], 1.0),
    "transposed, then a hint": (3, [_transpose, Driver.hint], 1.0),
}


@pytest.mark.parametrize("case", QUALITIES)
def test_quality_by_what_happened(case: str) -> None:
    quality, before, seconds = QUALITIES[case]
    driver = tricky()
    for act in before:
        act(driver)
    driver.right(seconds)
    assert driver.grades == [quality]


def test_a_hint_names_the_piece_and_a_look_at_the_answer_the_move() -> None:
    driver = sit(LONG, cards=["O-O"])
    assert driver.hint() == [Hinted("e1", "king")]
    (shown,) = driver.show()
    assert isinstance(shown, Shown)
    assert shown.prompt.card.move.san == "O-O"
    assert driver.sitting.phase is Phase.ASKING


def test_the_move_is_never_shown_unasked() -> None:
    driver = tricky()
    for _ in range(20):
        driver.miss()
    assert set(said(driver.effects)) == {"Ask", "Judged"}
    driver.right()
    assert driver.grades == [2]


def test_hesitation_runs_to_the_first_counted_try_over_those_that_are_none() -> None:
    driver = tricky()
    driver.type("hello", 3)
    driver.type("Kf3", 3)
    driver.undo(1)
    assert driver.prompt.hesitated is None
    driver.right(2)
    assert driver.grades == [4]
    assert driver.log[0].prompt.hesitated == driver.log[0].prompt.seconds == 9


def test_a_try_that_is_spared_does_not_end_the_hesitation() -> None:
    driver = tricky()
    driver.type("Nf3", 3)
    driver.right(6)
    assert driver.grades == [4]
    assert driver.log[0].prompt.hesitated == 9


def test_hesitation_ends_with_the_first_counted_try() -> None:
    driver = tricky()
    driver.miss(5)
    driver.right(60)
    assert driver.log[0].prompt.hesitated == 5
    assert driver.log[0].prompt.seconds == 65


def test_time_outside_a_prompt_is_the_sittings_alone() -> None:
    driver = sit(WORKED, cards=["e4", "Nf3"], fresh=["e4"])
    driver.go_on(25)
    driver.right(2)
    driver.go_on(11)
    driver.right(3)
    assert [row.prompt.seconds for row in driver.log] == [2, 3]
    assert driver.stop(4).seconds == 45


def test_the_hesitation_time_is_a_rule() -> None:
    driver = sit(WORKED, cards=["e4"], rules=Rules(hesitation=20))
    driver.right(19)
    assert driver.grades == [5]


def test_a_repeat_begins_anew() -> None:
    driver = tricky()
    driver.verdict("Nf3")
    driver.answer(1)
    driver.go_on()
    prompt = driver.prompt
    assert (prompt.tries, prompt.hint, prompt.seconds, prompt.hesitated) == ((), False, 0, None)
    assert (prompt.repeat, prompt.fresh) == (True, False)
