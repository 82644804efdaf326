"""`trainer deck check`: its lines, its document, its exit codes, and how it ends its engine."""

from __future__ import annotations

import json
import os
import pty
import select
import signal
import subprocess
import time
from pathlib import Path

import pytest

from tests.cli.runs import PROGRAM, document, run
from tests.service.fake_engine import are_gone, fake_engine, processes, searches
from tests.small_decks import FIRST, SECOND, write_deck

GAMES = "1. e4 c5 * 1. e4 c5 2. Nf3 * 1. e4 e5 2. Nc3 Bc5 * 1. e4 Sf6 *"


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write_deck(tmp_path / "small", {"first": FIRST, "second": SECOND})


def broken(tmp_path: Path) -> Path:
    """A deck with one error and one warning."""
    text = FIRST.replace("4. fxe5 {Opens", "4. fxe6 {Opens").replace('Result "*"', 'Result "1-0"')
    return write_deck(tmp_path / "broken", {"first": text})


def test_a_sound_deck_in_words(small: Path) -> None:
    result = run("deck", "check", str(small))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == (
        "Small (small), edition 1: 0 errors, 0 warnings, 0 notes.\n8 of 8 cards say why (100 %).\n"
    )


def test_findings_are_lines_that_editors_can_follow(tmp_path: Path) -> None:
    result = run("deck", "check", str(broken(tmp_path)))
    assert result.exit_code == 1
    error, warning, summary = result.stdout.splitlines()
    assert error.startswith("first.pgn:11: error: 4. fxe6 is not legal here: ")
    assert error.endswith(" (illegal-move)")
    assert warning.startswith("first.pgn:11: warning: the tag Result ")
    assert "1 error, 1 warning, 0 notes. What needs a readable deck " in summary


def test_the_document(tmp_path: Path) -> None:
    bare = FIRST.replace(" {Opens the f-file.}", "")
    folder = write_deck(tmp_path / "small", {"first": bare})
    (found,) = (told := document("deck", "check", str(folder)))["findings"]
    assert {name: told[name] for name in ("deck", "edition", "errors", "warnings", "notes")} == {
        "deck": "small",
        "edition": 1,
        "errors": 0,
        "warnings": 0,
        "notes": 1,
    }
    assert (told["cards"], told["with_reason"]) == (6, 5)
    assert found["message"] == (
        "nothing says why fxe5 is played after 1. e4 e5 2. Nc3 Nf6 3. f4 d5; add a comment"
    )
    del found["message"]
    assert found == {
        "code": "card-without-reason",
        "severity": "note",
        "file": "first.pgn",
        "game": 1,
        "line": 11,
        "column": 12,
    }


def test_a_deck_with_errors_has_a_document_too(tmp_path: Path) -> None:
    result = run("deck", "check", str(broken(tmp_path)), "--json")
    told = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (1, "")
    assert (told["deck"], told["errors"], told["warnings"], told["notes"]) == (None, 1, 1, 0)


def test_many_notes_of_a_kind_are_cut_short_in_words_alone(tmp_path: Path) -> None:
    lines = "\n\n".join(f'[Result "*"]\n\n1. e4 {{a}} {reply} *' for reply in _REPLIES)
    folder = write_deck(tmp_path / "small", {"first": lines})
    result = run("deck", "check", str(folder))
    *_, more, _, _ = result.stdout.splitlines()
    assert result.stdout.count("(position-without-move)\n") == 20
    assert document("deck", "check", str(folder))["notes"] == 20
    assert "more notes" not in more
    lines = lines.replace("e4", "Nf3") + "\n\n" + lines
    folder = write_deck(tmp_path / "small", {"first": lines})
    result = run("deck", "check", str(folder))
    assert (
        "\n15 more notes of this kind (position-without-move); --json lists all.\n" in result.stdout
    )
    assert document("deck", "check", str(folder))["notes"] == 40


# Black's twenty first moves.
_REPLIES = [f"{file}{rank}" for file in "abcdefgh" for rank in "65"] + ["Na6", "Nc6", "Nf6", "Nh6"]


def test_a_file_of_games_shows_what_is_not_answered(small: Path, tmp_path: Path) -> None:
    (tmp_path / "club.pgn").write_text(GAMES)
    (tmp_path / "more.pgn").write_text("1. e4 d5 * 1. e4 d5 * 1. e4 d5 *")
    files = ("--games", str(tmp_path / "club.pgn"), "--games", str(tmp_path / "more.pgn"))
    result = run("deck", "check", str(small), *files)
    assert result.exit_code == 0
    first, second, summary, _, games = result.stdout.splitlines()
    assert first.startswith(
        "first.pgn:6: note: 1... d5 after 1. e4 was seen in 3 of 6 games (50 %)"
    )
    assert second.startswith(
        "first.pgn:6: note: 1... c5 after 1. e4 was seen in 2 of 6 games (33 %)"
    )
    assert "0 warnings, 2 notes" in summary
    assert games == "7 played games looked at, 1 of them not to be read to the end."
    assert document("deck", "check", str(small), *files)["games"] == {"games": 7, "unreadable": 1}


def test_an_engine_is_asked_once(small: Path, tmp_path: Path) -> None:
    engine = fake_engine(tmp_path / "engine")
    arguments = ("deck", "check", str(small), "--engine", engine, "--nodes", "1000")
    told = document(*arguments)
    assert told["engine"]["name"] == "Fake 1"
    asked = told["engine"]["searches"]
    assert asked == searches(tmp_path / "engine") > 0
    last = run(*arguments).stdout.splitlines()[-1]
    assert last == (
        "Fake 1 looked at 8 positions with 1000 nodes a search; 0 answers not known before."
    )
    assert searches(tmp_path / "engine") == asked


@pytest.mark.parametrize(
    "arguments",
    [
        ["nosuch"],
        ["{small}", "--games", "nosuch.pgn"],
        ["{small}", "--games", "{small}"],
        ["{small}", "--engine", "nosuch"],
    ],
    ids=["deck", "games", "games in a folder", "engine"],
)
def test_what_is_not_there_is_said_in_one_line(arguments: list[str], small: Path) -> None:
    result = run("deck", "check", *(word.format(small=small) for word in arguments))
    assert result.exit_code == 1
    assert len((result.stdout + result.stderr).splitlines()) <= 2
    assert "nosuch" in result.output or str(small) in result.output


def test_a_pgn_file_needs_a_side(tmp_path: Path) -> None:
    (tmp_path / "mine.pgn").write_text(FIRST)
    result = run("deck", "check", str(tmp_path / "mine.pgn"))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--side white or --side black" in result.stderr
    assert run("deck", "check", str(tmp_path / "mine.pgn"), "--side", "white").exit_code == 0


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize(
    ("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)]
)
@pytest.mark.parametrize("fault", ["hangs", "mute", "brings a child"])
def test_no_engine_is_left_behind(
    number: signal.Signals, code: int, fault: str, small: Path, tmp_path: Path
) -> None:
    engine = fake_engine(tmp_path / "engine", fault=fault)
    with subprocess.Popen(
        [*PROGRAM, "deck", "check", str(small), "--engine", engine],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as started:
        pids = processes(tmp_path / "engine", 2 if "child" in fault else 1)
        time.sleep(0.1)
        started.send_signal(number)
        out, error = started.communicate(timeout=20)
    assert (started.returncode, out) == (code, b"")
    assert b"Traceback" not in error
    assert are_gone(pids)


@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
def test_progress_is_shown_on_a_terminal_and_nowhere_else(small: Path, tmp_path: Path) -> None:
    engine = fake_engine(tmp_path / "engine")
    command = [*PROGRAM, "deck", "check", str(small), "--engine", engine, "--nodes", "10"]
    ours, theirs = pty.openpty()
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=theirs) as started:
        os.close(theirs)
        shown = _all_of(ours)
        assert started.stdout is not None
        assert b"The engine looks" not in started.stdout.read()
    os.close(ours)
    assert b"The engine looks" in shown
    assert b"100%" in shown
    silent = subprocess.run([*command, "--json"], capture_output=True, timeout=60, check=True)
    assert silent.stderr == b""


def _all_of(terminal: int) -> bytes:
    """Everything written to a pseudo-terminal until the other end is closed."""
    shown = b""
    while select.select([terminal], [], [], 30)[0]:
        try:
            part = os.read(terminal, 65536)
        except OSError:  # Linux says so of a closed one
            break
        if not part:
            break
        shown += part
    return shown
