"""Tactics, ideas and model games in the JSON face and in words, from `ask` to the end."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.runs import document, events, run
from tests.course import FORK_FEN, write_course


@pytest.fixture
def course(tmp_path: Path) -> None:
    """The small course is on the shelf."""
    result = run("deck", "add", str(write_course(tmp_path / "course")))
    assert result.exit_code == 0, result.output


pytestmark = pytest.mark.usefixtures("course")


def kinds(found: list[dict[str, Any]]) -> list[str]:
    return [event["event"] for event in found]


def test_ideas_are_asked_and_graded() -> None:
    answers = [
        {"hint": True},
        {"move": "f7"},
        {"squares": ["f7", "d4"]},
        {"squares": ["f7"]},
        {"move": "Nf3", "seconds": 9},
        {"choose": 9},
        {"show": True},
    ]
    found = events("course", "--chapter", "ideas", answers=answers)
    asks = [event for event in found if event["event"] == "ask"]
    assert [ask["kind"] for ask in asks[:3]] == ["idea"] * 3
    assert [ask["form"] for ask in asks[:3]] == ["squares", "move", "choose"]
    assert asks[0]["question"].startswith("Which square")
    assert asks[0]["choices"] == []
    assert sorted(asks[2]["choices"]) == ["a knight", "a pawn", "the queen"]
    assert asks[2]["line"] == "1. e4 e5 2. f4"
    assert asks[2]["side"] == "black", "no side in the chapter: the side to move sees the board"
    verdicts = [event["verdict"] for event in found if event["event"] == "verdict"]
    assert verdicts == [
        *["unreadable"] * 2,
        *["out of book", "in book"],
        "in book",
        "unreadable",
    ]
    notes = [event["note"] for event in found if event.get("verdict") == "in book"]
    assert notes == [
        "Every other square there has a second guard.",
        "From f3 the knight sees e5.",
    ]
    (shown,) = [event for event in found if event["event"] == "shown"]
    assert (shown["move"], asks[2]["choices"][shown["choose"] - 1]) == ("a pawn", "a pawn")
    assert [event["quality"] for event in found if event["event"] == "graded"] == [2, 4]


def test_a_tactic_is_played_out() -> None:
    answers = ["Nc7+", "Nxa8", {"move": "Kd2"}, "Nxa8"]
    found = events("course", "--chapter", "tricks", answers=answers)
    assert kinds(found) == [
        "ask",
        *["verdict", "reply"],
        *["verdict", "reply"],
        *["verdict", "shown", "reply"],
        *["verdict", "graded"],
        *["ask", "end"],
    ]
    ask, replies = found[0], [event for event in found if event["event"] == "reply"]
    assert (ask["kind"], ask["fen"], ask["line"], ask["side"]) == ("tactic", FORK_FEN, "", "white")
    assert ask["title"] == "King and rook"
    assert [reply["san"] for reply in replies] == ["Kd7", "Kd8", "Kf7"]
    assert replies[1]["fen"] == "r2k4/2N5/8/8/8/8/8/4K3 w - - 2 2"
    (shown,) = [event for event in found if event["event"] == "shown"]
    assert shown["move"] == "2. Nxa8 Kc8 3. Nb6+"
    graded = found[-3]
    assert (graded["quality"], graded["card"]) == (2, ask["card"])


def test_a_model_game_is_guessed_and_resumed() -> None:
    first = events("course", "--chapter", "games", answers=["e4", "rubbish", "Nf3"])
    assert kinds(first) == ["ask", "guessed", "reply", "verdict", "guessed", "reply", "end"]
    assert [event["right"] for event in first if event["event"] == "guessed"] == [True, False]
    assert first[4]["san"] == "Bc4"
    assert (first[-1]["asked"], first[-1]["guesses"], first[-1]["guesses_right"]) == (0, 2, 1)
    second = events("course", "--chapter", "games", answers=[{"hint": True}, "Qh5", {"show": True}])
    ask = second[0]
    assert (ask["kind"], ask["line"], ask["fresh"]) == ("guess", "1. e4 e5 2. Bc4 Nc6", False)
    assert kinds(second)[1:] == ["hint", "guessed", "reply", "guessed", "end"]
    last = second[-2]
    assert (last["san"], last["found"], last["guesses"]) == ("Qxf7#", 2, 4)
    third = events("course", "--chapter", "games", answers=[])
    assert (third[0]["line"], third[0]["fresh"]) == ("", False), "a finished game begins anew"


def test_no_guess_is_an_answer_and_no_game_a_card() -> None:
    events("course", "--chapter", "games", answers=["e4", "Bc4"])
    log = document("data", "export")
    assert log["answers"] == []
    assert [(guess["tried"], guess["right"]) for guess in log["guesses"]] == [
        ("e4", True),
        ("Bc4", True),
    ]
    report = document("deck", "show", "course")
    assert {chapter["id"]: chapter["cards"] for chapter in report["chapters"]} == {
        "first": 2,
        "tricks": 1,
        "games": 0,
        "ideas": 3,
    }
    assert report["cards"] == 6


def test_the_days_sitting_asks_lines_then_ideas_then_tactics_and_no_games() -> None:
    found = events(answers=[])
    assert [event["event"] for event in found[:3]] == ["show", "show", "ask"]
    answers: list[object] = [{"squares": ["f7"]}, "Nf3"]
    found = events("--fresh", "6", answers=answers)
    chapters = [event["chapter"] for event in found if event["event"] in ("show", "ask")]
    assert chapters == ["first", "first", "ideas", "ideas", "ideas"]


def test_all_that_was_done_is_sound() -> None:
    events("course", "--chapter", "ideas", answers=[{"squares": ["f7"]}, "Nf3"])
    events("course", "--chapter", "tricks", answers=["Nc7+", "Nxa8", "Nxa8", "Nb6", "Nxa8"])
    assert document("data", "verify")["ok"]
    cards = {
        card["card"]: (card["fen"], card["move"]) for card in document("data", "export")["cards"]
    }
    assert cards["idea course hit-e5"][1] == "Nf3"
    assert cards["idea course weak-square"][1] == "f7"
    tactic = next(card for card in cards if card.startswith("r3k3"))
    assert cards[tactic] == (FORK_FEN, "1. Nc7+ Kd7 2. Nxa8")


# --- In words


def words(*typed: str, chapter: str) -> list[str]:
    """What the plain face says."""
    lines = "".join(f"{line}\n" for line in typed)
    result = run("practice", "course", "--chapter", chapter, "--plain", typed=lines)
    assert result.exit_code == 0, result.output
    return result.stdout.splitlines()


def test_ideas_in_words() -> None:
    said = words("f7 d4", "F7", "Nf3", "show", "9", chapter="ideas")
    text = "\n".join(said)
    assert "Type the squares with blanks between, such as d4 e5." in said
    assert "No, not d4 f7." in said
    assert "Right: f7." in said
    assert "From f3 the knight sees e5." in said
    assert "What does White offer?" in said
    assert "The answers are numbered from 1 to 3." in said
    assert ", a pawn." in next(line for line in said if line.startswith("The answer is"))
    assert "Quality 2: after a miss." in text


def test_a_tactic_in_words() -> None:
    said = words("Nc7", "note", "Nxa8", "Kd2", "Nxa8", chapter="tricks")
    assert "A tactic: King and rook." in said
    assert "Both stand within the knight's reach." in said
    assert "Black replies 1... Kd7, king e8 to d7." in said
    assert "The solution here: 2. Nxa8 Kc8 3. Nb6+." in said
    assert "After 1. Nc7+, 1... Kf7, king e8 to f7." in said
    assert "Quality 2: after a miss." in said
    assert any(line.startswith("Missed: the tactic King and rook") for line in said)


def test_a_game_in_words() -> None:
    said = words("e4", "Nf3", "Nf3", "board", "Qxf7", chapter="games")
    assert (
        "A model game: Asha Penrose against Otto Brandreth, Club evening (invented), 2026." in said
    )
    assert "Found: 1. e4, pawn e2 to e4." in said
    assert "Not Nf3. The game went 2. Bc4, bishop f1 to c4." in said
    assert "The author on Nf3:" in said
    assert "Sounder." in said
    assert "The result was 1-0." in said
    assert "You found 2 of 4 moves." in said
    again = words("e4", chapter="games")
    assert "Watch f7." in again


def test_a_game_left_in_the_middle_says_how_far_it_came() -> None:
    words("e4", "Nf3", chapter="games")
    assert "It goes on where you left it: 1 of 2 moves found so far." in words(chapter="games")


def test_the_comment_on_a_reply_is_told_once_the_answer_is_in() -> None:
    found = events("course", "--chapter", "tricks", answers=["Nc7+", "Nxa8"])
    verdicts = [event for event in found if event["event"] == "verdict"]
    assert [event.get("reply_note", "") for event in verdicts] == ["", "Towards the knight."]
    assert "Towards the knight." not in str([e for e in found if e["event"] == "reply"])


def test_the_notes_of_a_defence_are_held_back_until_it_is_over() -> None:
    said = words("Nc7", chapter="tricks")
    assert not any("A fork." in line or "Towards the knight." in line for line in said)
    said = words("Nc7", "Nxa8", chapter="tricks")
    notes = ["1. Nc7+: A fork.", "1... Kd7: Towards the knight.", "2. Nxa8: A whole rook."]
    assert [line for line in said if line in notes] == notes
    said = words("Nc7", "Kd2", chapter="tricks")
    assert [line for line in said if line in notes] == notes
    assert "Another defence." in said


@pytest.mark.parametrize("back", ["undo", ""])
def test_the_note_of_a_missed_defence_is_forgotten_when_the_tactic_is_asked_again(
    back: str,
) -> None:
    missed = ["Nc7", "Nxa8", "Kd2", "Kd2"]
    said = words(*missed, *[back] * bool(back), "why", chapter="tricks")
    assert said.count("2. Nxa8: Far from the king.") == 1
    assert "There is no note yet." in said


def test_what_the_author_gives_beside_a_game_is_told_after_the_guess() -> None:
    said = words("e4", "Bc4", "Qh5", "note", chapter="games")
    assert "Instead: 3. Nf3 – Sounder. 3... Nf6" in said
    assert said.count("Threatens mate.") == 2, "the note is told again"
    guessed = events("course", "--chapter", "games", answers=[{"hint": True}, "Qxf7"])[2]
    assert guessed["reply_note"] == "Sees the queen, not the mate."


def test_a_hint_at_a_guess_costs_no_quality() -> None:
    said = words("hint", "e4", chapter="games")
    assert "The guess is kept as one with a hint." in said
    assert not any("position" in line and "to go" in line for line in said)


def test_help_names_what_a_question_wants() -> None:
    said = " ".join(words("help", chapter="ideas"))
    assert "squares such as d4 e5" in said
