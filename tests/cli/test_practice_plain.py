"""A sitting in words: what is said, what can be asked, and how it ends."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.runs import PROGRAM, document, program, run
from tests.small_decks import write_deck
from trainer.cli.sitting_plain import HELP, WISHES

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


END_WITHOUT_AN_ANSWER = [
    "",
    "The sitting is over.",
    "Nothing was answered.",
    "Tomorrow: 0 positions due.",
]


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
            "Sound, but not asked for here.",
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
            "The answer now counts as 3 at most.",
            "To hear the move, type show.",
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
    "a kind of piece": (
        "Knights?",
        ["White: knights b1 g1.", "Black: knights b8 g8."],
    ),
    "the line": (
        "line",
        ["Move 1. White: pawn e2 to e4. Black: pawn e7 to e5.", "White to move."],
    ),
    "the facts": (
        "facts",
        [
            "Black covers d4 more often, 1 to 0.",
            "White covers d5 more often, 1 to 0.",
            "Material is even.",
            "Space is even.",
            "Development is even.",
            "Both have the bishop pair.",
            "Both may still castle on either side.",
            "No pawn is doubled, isolated or passed.",
            "No file is open.",
            "Nothing is pinned and nothing hangs.",
            "Neither covers e4 or e5.",
        ],
    ),
    "help": ("help", list(HELP)),
}


@pytest.mark.parametrize("name", SAID)
def test_what_is_said_to_a_line(name: str) -> None:
    typed, wanted = SAID[name]
    assert answered(typed) == wanted


def test_help_names_every_word() -> None:
    words = {*WISHES, "board", "facts", "line", "note", "why"}
    assert {word for word in words if not re.search(rf"\b{word}\b", " ".join(HELP))} == set()


def test_a_hint_after_a_miss_costs_more() -> None:
    assert answered("d3", "hint")[-3:] == [
        "The knight on b1 moves.",
        "The answer now counts as 1 at most.",
        "To hear the move, type show.",
    ]
    assert answered("show", "hint")[-1] == "The knight on b1 moves."


def test_an_empty_line_repeats_the_question() -> None:
    found = run("practice", "--branch", "1. e4 e5", "--plain", typed="\n").stdout
    assert "After 1. e4 e5. White to move.\nAfter 1. e4 e5. White to move.\n" in found


@pytest.mark.parametrize("word", ["note", "why"])
def test_the_last_note_is_said_again_and_never_that_of_the_card_asked(
    word: str, home: Path
) -> None:
    (home / "settings.toml").write_text('first_look = "ask"\n', encoding="utf-8")
    assert answered(word) == ["There is no note yet."]
    found = answered("Nf3", word)
    assert found[-2:] == ["Try again.", "Sound, but another course."]


def test_no_note_of_a_first_look_helps_with_what_is_asked() -> None:
    # The look at 1. e4 ends, 1. e4 is asked, and its reason would name the pawn.
    assert said("note") == [
        "There is no note yet.",
        *END_WITHOUT_AN_ANSWER,
    ]


def test_no_note_of_the_answer_helps_with_its_repeat() -> None:
    found = said("d3", "e4", "note")
    assert found[0] == "There is no note yet."


def test_after_an_undo_the_help_that_was_had_is_said_again(home: Path) -> None:
    (home / "settings.toml").write_text('first_look = "ask"\n', encoding="utf-8")
    lines = "e4\nhint\nundo\ne4\n\nshow\nundo\ne4\n"
    told = run("practice", "--plain", "--fresh", "2", typed=lines).stdout
    asked = "After 1. e4 e5. White to move.\n"
    assert f"{asked}You have had a hint.\n" in told
    assert f"{asked}The move is 2. Nc3, knight b1 to c3.\nPlay it to go on.\n" in told


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


def at_a_terminal(*typed: str, columns: int | None = None) -> str:
    """What is said to a person who typed these lines ahead at a pseudo-terminal.

    :param columns: what is said goes to the terminal too, this wide; else into a pipe.
    """
    import fcntl
    import pty
    import struct
    import termios

    ours, theirs = pty.openpty()
    if columns:
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    sitting = subprocess.Popen(
        [*PROGRAM, "practice", "--plain", "--fresh", "1"],
        stdin=theirs,
        stdout=theirs if columns else subprocess.PIPE,
    )
    os.close(theirs)
    with sitting:
        os.write(ours, "".join(f"{line}\n" for line in (*typed, "\x04")).encode())
        told = sitting.stdout.read() if sitting.stdout else _read_all(ours)
    os.close(ours)
    assert sitting.returncode == 0
    return told.decode()


def _read_all(terminal: int) -> bytes:
    told = b""
    try:
        while more := os.read(terminal, 4096):
            told += more
    except OSError:
        # What Linux says when the other end has gone.
        return told
    return told


no_terminals = pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals")


@no_terminals
def test_at_a_terminal_it_waits_for_enter() -> None:
    """Look, Enter, the move, Enter."""
    told = at_a_terminal("hint", "", "e4", "board", "")
    assert told.count("Press Enter to go on.") == 3
    assert told.index("> Press Enter to go on.") < told.index("> \n1 position to go.")
    assert "Next tomorrow, on Friday 4 December.\nPress Enter to go on.\n> The pos" in told
    assert told.endswith("Tomorrow: 1 position due.\n")


@no_terminals
def test_after_the_answer_all_questions_are_about_the_position_it_led_to() -> None:
    told = at_a_terminal("board", "", "e4", "board", "e4?", "pawns?", "line", "facts", "")
    look, _, answered = told.partition("In book: 1. e4")
    assert "> White to move.\nWhite: king e1" in look
    replies = answered.split("> The position after 1. e4.\n")[1:]
    assert [reply.splitlines()[0] for reply in replies] == [
        "Black to move.",
        "e4: white pawn.",
        "White: pawns a2 b2 c2 d2 e4 f2 g2 h2.",
        "Move 1. White: pawn e2 to e4.",
        "White has 5 squares more space, 5 to 0.",
    ]
    assert "Last move: White, pawn e2 to e4.\n" in replies[0]


@no_terminals
def test_a_move_other_than_the_shown_one_is_no_mistake_in_a_first_look() -> None:
    told = at_a_terminal("d4", "", "stop")
    assert "> This is a first look: play e4, or go on.\nPress Enter to go on.\n> " in told


@no_terminals
def test_a_terminal_breaks_no_word() -> None:
    told = at_a_terminal("board", "", "stop", columns=40).replace("\r", "")
    position = told.partition("Black: king")[0].partition("White: king")[2]
    assert position.splitlines() == [
        " e1, queen d1, rooks a1 h1,",
        "bishops c1 f1, knights b1 g1, pawns a2",
        "b2 c2 d2 e2 f2 g2 h2.",
    ]
    assert max(map(len, told.splitlines())) < 40


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
