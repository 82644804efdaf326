"""The program to its first frame of Today, against an empty Textual app.

Run by hand: python -m tests.bench.first_frame
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from tests.bench.pairs import report, seconds

SIZE = (80, 24)


def empty() -> None:
    """An app with nothing in it, left after its first frame."""
    from textual.app import App

    class Empty(App[None]):
        def on_ready(self) -> None:
            self.call_after_refresh(self.exit)

    Empty().run(headless=True, size=SIZE)


def ours(home: Path) -> None:
    """The program on a home, left after the first frame of Today."""
    from trainer.app.app import TrainerApp
    from trainer.service.study import open_study

    class Started(TrainerApp):
        def on_ready(self) -> None:
            self.call_after_refresh(self.exit)

    with open_study(home) as study:
        Started(study).run(headless=True, size=SIZE)


def fill(home: Path) -> None:
    """The demo's home: a deck of some 170 cards and a month of practice."""
    from trainer.service.demo import open_demo
    from trainer.service.first_minute import note_introduced

    with open_demo() as study:
        note_introduced(study)
        study.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        shutil.copytree(study.home.folder, home)


def main() -> None:
    """Time both, each in a process of its own."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "home"
        fill(home)
        command = [sys.executable, "-m", "tests.bench.first_frame"]
        report(
            "Today, started and left after its first frame",
            lambda: seconds([*command, str(home)]),
            "an empty Textual app",
            lambda: seconds([*command, "empty"]),
            aim=2,
        )


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["empty"]:
            empty()
        case [place]:
            ours(Path(place))
        case _:
            main()
