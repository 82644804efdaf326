"""A sitting in words: what is said, what can be asked, and how it ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.runs import PROGRAM, document, program, run
from tests.small_decks import write_deck
from trainer.cli.sitting_plain import HELP

pytestmark = pytest.mark.usefixtures("shelf")

FIRST_LOOK = """\
Type help to hear what can be typed.

A first look at a fresh position, 1 of 1.
Small, chapter Chapter first.
At the start of the game. White to move.
The move is 1. e4, pawn e2 to e4.
Takes the centre and frees the f1 bishop.

1 position to go.
Small.
At the start of the game. White to move.
"""


def said(*typed: str, fresh: int = 1) -> list[str]:
    """What is said after the first prompt of a sitting with so many fresh cards."""
    result = run(
        "practice", "--plain", "--fresh", str(fresh), typed="".join(f"{line}\n" for line in typed)
    )
    assert (result.exit_code, result.stderr) == (0, "")
    prompt = "At the start of the game. White to move.\n"
    return result.stdout.rpartition(prompt if fresh == 1 else "\n\n")[2].splitlines()


def answered(*typed: str) -> list[str]:
    """What is said to these lines, after 1. e4 e5, up to the next thing asked or the end."""
    branch = ["practice", "--branch", "1. e4 e5", "--plain"]
    result = run(*branch, typed="".join(f"{line}\n" for line in typed))
    assert result.exit_code == 0
    asked = result.stdout.rpartition("After 1. e4 e5. White to move.\n")[2]
    return asked.partition("\n\n")[0].splitlines()


def test_an_empty_standard_input_hears_the_first_prompt_and_ends_well() -> None:
    done = program("practice", "--fresh", "1")
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode() == (
        FIRST_LOOK + "\nThe sitting is over.\nNothing was answered.\nTomorrow: 0 positions due.\n"
    )


def test_an_answer_and_the_summary() -> None:
    assert said("e4") == [
        "In book: 1. e4, pawn e2 to e4.",
        "Takes the centre and frees the f1 bishop.",
        "Quality 5: at once, at the first try.",
        "Next tomorrow, on Friday 4 December.",
        "",
        "The sitting is over.",
        "1 position answered.",
        "1 right at the first try.",
        "Tomorrow: 1 position due.",
    ]


def test_what_was_missed_is_named_at_the_end() -> None:
    found = said("d3", "e4", "stop")
    assert found[-5:] == [
        "1 position answered.",
        "0 right at the first try.",
        "Missed: at the start of the game the move is 1. e4, pawn e2 to e4.",
        "1 position still to be asked again today.",
        "Tomorrow: 1 position due.",
    ]


SAID = {
    "a known mistake": (
        "Qh5",
        [
            "A known mistake: 2. Qh5, queen d1 to h5.",
            "The queen is chased: 2... Nc6 and 3... g6.",
            "It goes on: 2... Nc6 3. Bc4 g6",
            "Try again.",
        ],
    ),
    "a sound move that is not ours": (
        "Nf3",
        [
            "Out of book: 2. Nf3, knight g1 to f3.",
            "Sound, but not a move of this deck.",
            "Sound, but another course.",
            "Try again.",
        ],
    ),
    "out of book": (
        "d3",
        ["Out of book: 2. d3, pawn d2 to d3.", "Not a move of this deck.", "Try again."],
    ),
    "illegal": ("Ke3", ["Not legal.", "A king moves one square.", "Try again."]),
    "rubbish": (
        "x\x1by",
        [
            "Not understood.",
            '"xy" is no move; a move looks like Nf3, exd5 or O-O.',
            "Type help to hear what can be typed.",
        ],
    ),
    "hint": (
        "hint",
        [
            "The knight on b1 moves.",
            "The answer counts as 3 at most; show tells the move.",
        ],
    ),
    "show": ("SHOW", ["The move is 2. Nc3, knight b1 to c3.", "Play it to go on."]),
    "a square": ("e4?", ["e4: white pawn."]),
    "a square in capitals": ("E4?", ["e4: white pawn."]),
    "an empty square": ("d4?", ["d4: empty."]),
    "a rank": ("5?", ["e5: black pawn."]),
    "an empty rank": ("6?", ["Nothing stands on rank 6."]),
    "a file": (
        "e?",
        ["e1: white king.", "e4: white pawn.", "e5: black pawn.", "e8: black king."],
    ),
    "the board": (
        "board",
        [
            "White to move.",
            "Last move: Black, pawn e7 to e5.",
            "White: king e1, queen d1, rooks a1 h1, bishops c1 f1, knights b1 g1, "
            "pawns a2 b2 c2 d2 e4 f2 g2 h2.",
            "Black: king e8, queen d8, rooks a8 h8, bishops c8 f8, knights b8 g8, "
            "pawns a7 b7 c7 d7 e5 f7 g7 h7.",
        ],
    ),
    "help": ("help", list(HELP)),
}


@pytest.mark.parametrize("name", SAID)
def test_what_is_said_to_a_line(name: str) -> None:
    typed, wanted = SAID[name]
    assert answered(typed) == wanted


@pytest.mark.parametrize("typed", ["line", ""])
def test_the_question_is_repeated(typed: str) -> None:
    found = run("practice", "--branch", "1. e4 e5", "--plain", typed=f"{typed}\n").stdout
    assert "After 1. e4 e5. White to move.\nAfter 1. e4 e5. White to move.\n" in found


@pytest.mark.parametrize("word", ["note", "why"])
def test_the_last_note_is_said_again_and_never_that_of_the_card_asked(
    word: str, home: Path
) -> None:
    (home / "settings.toml").write_text('first_look = "ask"\n', encoding="utf-8")
    assert answered(word) == ["There is no note yet."]
    found = answered("Nf3", word)
    assert found[-2:] == ["Try again.", "Sound, but another course."]


def test_undo_takes_the_last_answer_back(home: Path) -> None:
    (home / "settings.toml").write_text('first_look = "ask"\n', encoding="utf-8")
    result = run("practice", "--plain", "--fresh", "2", typed="d3\ne4\nundo\ne4\n")
    assert "The last answer is taken back. It is asked again.\n" in result.stdout
    found = document("data", "export")
    assert [answer["quality"] for answer in found["answers"]] == [2, 5]
    assert len(found["withdrawals"]) == 1


def test_with_nothing_to_take_back_it_says_so() -> None:
    assert "There is nothing to take back.\n" in run("practice", "--plain", typed="undo\n").stdout


@pytest.mark.parametrize("word", ["stop", "quit", "STOP"])
def test_a_sitting_can_be_stopped(word: str) -> None:
    assert said(word, "e4")[1] == "The sitting is over."


def test_moves_are_read_with_the_letters_of_the_settings(home: Path) -> None:
    (home / "settings.toml").write_text('piece_letters = "de"\n', encoding="utf-8")
    assert answered("Sc3")[0] == "In book: 2. Nc3, knight b1 to c3."


def test_a_repeat_is_announced() -> None:
    found = run("practice", "--plain", "--fresh", "1", typed="d3\ne4\ne4\n").stdout
    assert "1 position to go. This one comes again.\n" in found
    assert "It comes again in this sitting.\n" in found


def test_with_nothing_to_practise_it_says_what_to_do() -> None:
    result = run("practice", "--plain", "--fresh", "0")
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        "There is nothing to practise here now.",
        "In all decks 10 positions can be practised today: `trainer practice`.",
        "`trainer practice --fresh 5` brings fresh positions.",
        "`trainer practice --branch LINE` asks a branch at any time.",
    ]


def test_without_a_deck_it_says_how_to_add_one(tmp_path: Path) -> None:
    result = run("--home", str(tmp_path / "empty"), "practice", "--plain")
    assert result.exit_code == 0
    assert "`trainer deck add PATH`" in result.stdout
    assert "`trainer demo`" in result.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals")
def test_at_a_terminal_it_waits_for_enter() -> None:
    """Typed ahead through a pseudo-terminal: look, Enter, the move, Enter."""
    import pty

    ours, theirs = pty.openpty()
    sitting = subprocess.Popen(
        [*PROGRAM, "practice", "--plain", "--fresh", "1"], stdin=theirs, stdout=subprocess.PIPE
    )
    os.close(theirs)
    with sitting:
        os.write(ours, b"hint\n\ne4\nboard\n\n")
        assert sitting.stdout is not None
        told = sitting.stdout.read().decode()
    os.close(ours)
    assert sitting.returncode == 0
    assert told.count("Press Enter to go on.") == 3
    assert told.index("> Press Enter to go on.") < told.index("> \n1 position to go.")
    assert "Next tomorrow, on Friday 4 December.\nPress Enter to go on.\n> White to move." in told
    assert told.endswith("Tomorrow: 1 position due.\n")


def test_a_position_set_up_by_the_deck_is_named_so(tmp_path: Path) -> None:
    text = '[SetUp "1"]\n[FEN "4k3/8/8/8/8/8/4q3/4K3 w - - 0 1"]\n\n1. Kxe2 *\n'
    folder = write_deck(tmp_path / "set", {"set": text}, deck_id="set")
    assert run("deck", "add", str(folder)).exit_code == 0
    told = run("practice", "set", "--plain", typed="board\nKd1\nKxe2\nstop\n").stdout.splitlines()
    way = "In the position set up by the deck. White to move, in check."
    first_look, asked = (number for number, line in enumerate(told) if line == way)
    assert told[first_look + 1] == "The deck has set this position up; type board to hear it."
    assert told[asked + 2 :][:6] == [
        "White to move.",
        "White is in check.",
        "White: king e1.",
        "Black: king e8, queen e2.",
        "Not legal.",
        "The king would stand in check from the queen on e2.",
    ]
    assert told[-2] == "1 right at the first try."


def test_ctrl_c_says_what_was_kept() -> None:
    sitting = subprocess.Popen(
        [*PROGRAM, "practice", "--plain", "--fresh", "2"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with sitting:
        assert sitting.stdin is not None
        assert sitting.stdout is not None
        sitting.stdin.write("e4\n")
        sitting.stdin.flush()
        while "Next tomorrow" not in sitting.stdout.readline():
            pass
        sitting.send_signal(signal.SIGINT)
        said = sitting.stdout.read()
    assert "The sitting is over." in said
    assert len(document("data", "export")["answers"]) == 1
