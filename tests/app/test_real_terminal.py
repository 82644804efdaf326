"""The program in a real pseudo-terminal: what it paints, and how it is left."""

from __future__ import annotations

import contextlib
import fcntl
import os
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pyte
import pytest

from tests.app.shelf import AT_ONCE, SHORT, qualities, study_of
from trainer.service.study import open_study
from trainer.service.upkeep import verify

PATIENCE = 20.0
"""Seconds after which a test gives up; no test passes or fails by how quick anything is."""


class Terminal:
    """The program at a terminal of 80x24, and what the terminal shows."""

    def __init__(self, home: Path) -> None:
        self.screen = pyte.Screen(80, 24)
        self._stream = pyte.ByteStream(self.screen)
        self.master, slave = os.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.program = subprocess.Popen(
            [sys.executable, "-m", "trainer", "--home", str(home)],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            env=os.environ | {"TERM": "xterm-256color", "PYTHONPATH": str(Path.cwd())},
            start_new_session=True,
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),
        )
        os.close(slave)

    @property
    def shown(self) -> str:
        """The text on the screen."""
        return "\n".join(self.screen.display)

    def type(self, text: str) -> None:
        """Press keys."""
        os.write(self.master, text.encode())

    def wait_until(self, wanted: Callable[[], bool]) -> None:
        """Let the program paint until this holds."""
        end = time.monotonic() + PATIENCE
        while not wanted():
            assert time.monotonic() < end, f"never came:\n{self.shown}"
            if select.select([self.master], [], [], 0.05)[0]:
                with contextlib.suppress(OSError):
                    self._stream.feed(os.read(self.master, 65536))

    def wait_for(self, text: str) -> None:
        """Let the program paint until this text is on the screen."""
        self.wait_until(lambda: text in self.shown)

    def close(self) -> None:
        """Close the terminal's window."""
        os.close(self.master)
        self.program.wait(PATIENCE)


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[Terminal]:
    with study_of(tmp_path, SHORT, settings=f"{AT_ONCE}hesitation_seconds = 600\n") as study:
        home = study.home.folder
    opened = Terminal(home)
    opened.wait_for("start")
    yield opened
    if opened.program.poll() is None:
        opened.program.kill()
        opened.program.wait()
    with contextlib.suppress(OSError):
        os.close(opened.master)


def answer_one(terminal: Terminal) -> None:
    """Start the day's sitting and answer its first card."""
    terminal.type("\r")
    terminal.wait_for("White to move")
    terminal.type("e4\r")
    terminal.wait_for("In book")


def kept(tmp_path: Path) -> list[int]:
    with open_study(tmp_path / "home") as study:
        assert verify(study).problems == ()
        return qualities(study)


def test_control_c_leaves_at_once_and_loses_nothing(terminal: Terminal, tmp_path: Path) -> None:
    answer_one(terminal)
    terminal.type("\x03")
    terminal.wait_until(lambda: terminal.program.poll() is not None)
    assert terminal.program.returncode == 0
    assert kept(tmp_path) == [5]


def test_keys_that_come_in_one_burst_are_answered_one_by_one(
    terminal: Terminal, tmp_path: Path
) -> None:
    answer_one(terminal)
    terminal.type("\rQh5\rQh6\rNc3\r\rf4\r\rBc4\r\rNc3\r\r")
    terminal.wait_for("Done: 5 answered")
    terminal.type("\x11")
    terminal.wait_until(lambda: terminal.program.poll() is not None)
    assert kept(tmp_path) == [5, 2, 5, 5, 5]


def test_a_closed_terminal_loses_nothing(terminal: Terminal, tmp_path: Path) -> None:
    answer_one(terminal)
    terminal.close()
    assert kept(tmp_path) == [5]


def test_a_killed_program_loses_nothing(terminal: Terminal, tmp_path: Path) -> None:
    answer_one(terminal)
    terminal.program.send_signal(signal.SIGKILL)
    terminal.program.wait(PATIENCE)
    assert kept(tmp_path) == [5]
