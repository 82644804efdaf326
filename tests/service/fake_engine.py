"""A small UCI engine for tests: a script whose opinions, and whose faults, a test chooses."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path

SCRIPT = """\
#!{python}
import subprocess, sys, time
import chess

SCORES = {scores!r}
FAULT = {fault!r}
LOG = open({log!r}, "a", buffering=1)


def say(text):
    print(text, flush=True)


def go(board, words):
    if FAULT == "hangs":
        time.sleep(1000)
    if FAULT == "dies":
        sys.exit(3)
    moves = words[words.index("searchmoves") + 1 :] if "searchmoves" in words else []
    if not moves or FAULT == "deaf":
        moves = [move.uci() for move in board.legal_moves]
    best = max(moves, key=lambda uci: (SCORES.get(board.epd() + " " + uci, 0), uci))
    score = SCORES.get(board.epd() + " " + best, 0)
    told = f"mate {{score - 100000}}" if score > 50000 else f"cp {{score}}"
    if FAULT != "silent":
        say(f"info depth 1 score {{told}} nodes 1 pv {{best}}")
    say(f"bestmove {{best}}")


LOG.write(f"pid {{__import__('os').getpid()}}\\n")
if FAULT == "brings a child":
    child = subprocess.Popen(["sleep", "1000"])
    LOG.write(f"pid {{child.pid}}\\n")
    FAULT = "hangs"
board = chess.Board()
if FAULT == "mute":
    time.sleep(1000)
for line in sys.stdin:
    words = line.split()
    if words[0] in ("uci", "go", "setoption"):
        LOG.write(line)
    if words[0] == "uci":
        say("id name Fake 1")
        say("option name Threads type spin default 4 min 1 max 8")
        say("uciok")
    elif words[0] == "isready":
        say("readyok")
    elif words[0] == "position":
        board = chess.Board() if words[1] == "startpos" else chess.Board(" ".join(words[2:8]))
    elif words[0] == "go":
        go(board, words)
    elif words[0] == "quit":
        break
"""

MATE_IN_2 = 100_002
"""A score that the fake engine tells as a mate."""


def fake_engine(folder: Path, scores: Mapping[str, int] | None = None, fault: str = "") -> str:
    """The path of a new engine that writes what it hears to `heard.txt` beside it.

    :param scores: centipawns for the mover by position key and UCI; other moves have 0.
    :param fault: `mute`, `dies`, `hangs`, `silent`, `deaf` or `brings a child`.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "engine"
    path.write_text(
        SCRIPT.format(
            python=sys.executable, scores=dict(scores or {}), fault=fault, log=str(heard(folder))
        ),
        encoding="utf-8",
    )
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return str(path)


def heard(folder: Path) -> Path:
    """What the engine in this folder was told, and the numbers of its processes."""
    return folder / "heard.txt"


def searches(folder: Path) -> int:
    """How often the engine in this folder was sent to search."""
    return heard(folder).read_text().count("\ngo ")


def processes(folder: Path, wanted: int = 1) -> list[int]:
    """The processes of the engine in this folder, once so many have begun."""
    end = time.monotonic() + 10
    while time.monotonic() < end:
        text = heard(folder).read_text() if heard(folder).exists() else ""
        found = [int(line[4:]) for line in text.splitlines() if line.startswith("pid ")]
        if len(found) >= wanted:
            return found
        time.sleep(0.02)
    raise AssertionError("the engine was not started")


def are_gone(pids: list[int]) -> bool:
    """Whether none of these processes runs, waiting a little for the system to notice."""
    end = time.monotonic() + 10
    while any(_runs(pid) for pid in pids) and time.monotonic() < end:
        time.sleep(0.02)
    return not any(_runs(pid) for pid in pids)


def _runs(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    # What has ended stays in the table until its parent asks.
    shown = subprocess.run(["ps", "-o", "stat=", "-p", str(pid)], capture_output=True, text=True)
    return shown.stdout.strip()[:1] not in ("Z", "")
