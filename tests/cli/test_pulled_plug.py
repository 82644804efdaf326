"""A program killed at any moment, and two at once: no graded answer is ever lost."""

import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from tests.small_decks import FIRST, SECOND, write_deck
from trainer.service.decks.shelving import add_deck
from trainer.service.study import open_study
from trainer.service.upkeep import verify
from trainer.store.answers import read_log


@pytest.fixture
def practised_home(home: Path, tmp_path: Path) -> Path:
    """A home with a deck, in which fresh cards are asked at once."""
    home.mkdir()
    (home / "settings.toml").write_text('first_look = "ask"\nfresh_per_day = 100\n')
    with open_study(home) as study:
        add_deck(study, write_deck(tmp_path / "deck", {"first": FIRST, "second": SECOND}))
    return home


def sitting(home: Path) -> subprocess.Popen[str]:
    """A JSON sitting on one branch: it can be practised again and again."""
    command = ["practice", "--json", "--branch", ""]
    return subprocess.Popen(
        [sys.executable, "-m", "trainer", "--home", str(home), *command],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": str(Path.cwd())},
    )


def answer_until_it_ends(process: subprocess.Popen[str]) -> int:
    """Play each card's own move; how many answers were called graded."""
    graded = 0
    assert process.stdin is not None
    assert process.stdout is not None
    for line in process.stdout:
        try:
            event = json.loads(line)
        except json.JSONDecodeError:
            break  # killed in the middle of a line
        if event["event"] == "ask":
            move = event["card"].rpartition(" ")[2]
            try:
                process.stdin.write(json.dumps({"move": move, "seconds": 1}) + "\n")
                process.stdin.flush()
            except BrokenPipeError:
                break
        graded += event["event"] == "graded"
    return graded


def test_a_program_killed_at_any_moment_loses_no_graded_answer(practised_home: Path) -> None:
    chance = random.Random(2026)
    began = time.monotonic()
    whole = sitting(practised_home)
    graded = answer_until_it_ends(whole)
    whole.communicate()
    lasted = time.monotonic() - began
    assert graded == 8
    for _ in range(12):
        process = sitting(practised_home)
        # From before the first prompt to after the last answer, however slow the machine.
        moment = chance.uniform(0, 1.2 * lasted)
        killer = threading.Timer(moment, process.send_signal, [signal.SIGKILL])
        killer.start()
        graded += answer_until_it_ends(process)
        killer.cancel()
        process.kill()
        process.communicate()
        with open_study(practised_home) as study:
            assert verify(study).problems == ()
    with open_study(practised_home) as study:
        logged = sum(1 for _ in read_log(study.db))
    assert graded <= logged


def test_two_sittings_at_once_keep_every_answer(practised_home: Path) -> None:
    processes = [sitting(practised_home) for _ in range(2)]
    counts: list[int] = []
    threads = [
        threading.Thread(target=lambda p=process: counts.append(answer_until_it_ends(p)))
        for process in processes
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for process in processes:
        process.communicate()
    assert counts == [8, 8]
    with open_study(practised_home) as study:
        assert sum(1 for _ in read_log(study.db)) == 16
        assert verify(study).problems == ()


def test_programs_that_add_a_deck_together_all_succeed(home: Path, tmp_path: Path) -> None:
    deck = write_deck(tmp_path / "deck", {"first": FIRST, "second": SECOND})
    command = [sys.executable, "-m", "trainer", "--home", str(home), "deck", "add", str(deck)]
    programs = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for _ in range(5)
    ]
    said = [program.communicate() for program in programs]
    assert [program.returncode for program in programs] == [0] * 5, said
    assert {error for _, error in said} == {""}
    with open_study(home) as study:
        assert verify(study).problems == ()
    assert [folder.name for folder in (home / "decks" / "small").iterdir()] == ["edition-1"]
