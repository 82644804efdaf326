"""Model games: every move of one side is guessed once, scored, and not scheduled."""

from __future__ import annotations

from tests.sitting.driver import Driver, said
from tests.sitting.exercises import model_game, sit_with
from trainer.sitting.events import Effect, Guessed, LogGuess, Reply
from trainer.sitting.sitting import Phase


def guesses(driver: Driver) -> list[tuple[str, bool]]:
    """What was to be logged: the move tried, and whether it was the game's."""
    return [(e.tried, e.right) for e in driver.effects if isinstance(e, LogGuess)]


def only_guess(effects: list[Effect]) -> Guessed:
    """The one guess among effects."""
    (guessed,) = [effect for effect in effects if isinstance(effect, Guessed)]
    return guessed


def test_a_game_is_guessed_move_by_move() -> None:
    driver = sit_with(model_game())
    for move in ("e4", "Nf3", "Nf3", "Qxf7"):
        driver.type(move)
        driver.go_on()
    assert said(driver.effects) == [
        "Ask",
        *["LogGuess", "Guessed", "Reply"] * 3,
        *["LogGuess", "Guessed", "Ended"],
    ]
    assert guesses(driver) == [("e4", True), ("Nf3", False), ("Nf3", False), ("Qxf7#", True)]
    ended = driver.effects[-1]
    assert ended.asked == 0  # type: ignore[union-attr]
    assert (ended.guesses, ended.guesses_right) == (4, 2)  # type: ignore[union-attr]
    assert driver.log == [], "no guess is among the answers"


def test_a_guess_tells_of_itself_and_of_the_game() -> None:
    driver = sit_with(model_game(guessed=(True, False)))
    assert driver.prompt.card.line == "1. e4 e5 2. Bc4 Nc6"
    guessed = only_guess(driver.type("Nf3"))
    assert guessed.judgement is not None
    assert guessed.judgement.note == "sound"
    assert guessed.prompt.answer == "Qh5"
    assert guessed.prompt.score == (1, 3)
    (reply,) = driver.go_on()
    assert isinstance(reply, Reply)
    assert reply.prompt.card.line == "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6"


def test_what_is_no_legal_move_is_no_guess() -> None:
    driver = sit_with(model_game())
    for text in ("e5", "rubbish", "N"):
        assert said(driver.type(text)) == ["Judged"]
    assert driver.sitting.phase is Phase.ASKING
    assert guesses(driver) == []


def test_a_shown_move_is_a_guess_given_up_and_a_hint_is_noted() -> None:
    driver = sit_with(model_game())
    driver.hint()
    only_guess(driver.type("e4"))
    assert driver.prompt.done[0].hint
    driver.go_on()
    guessed = only_guess(driver.show())
    assert (guessed.judgement, guessed.right) == (None, False)
    assert guesses(driver) == [("e4", True), ("", False)]


def test_black_guesses_behind_whites_first_move() -> None:
    driver = sit_with(model_game(side="black"))
    assert driver.prompt.card.line == "1. e4"
    driver.type("e5")
    driver.go_on()
    driver.type("Nc6")
    driver.go_on()
    guessed = only_guess(driver.type("g6"))
    assert guessed.prompt.card.closing == "4. Qxf7#"  # type: ignore[attr-defined]
    assert said(driver.go_on()) == ["Ended"]


def test_nothing_is_taken_back_in_a_game() -> None:
    driver = sit_with(model_game())
    driver.type("e4")
    driver.go_on()
    assert said(driver.undo()) == ["Undone", "Ask"]
    assert guesses(driver) == [("e4", True)]
