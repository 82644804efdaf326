"""What it costs to change the window's size while a Sitting stands: `python -m tests.bench.resize`.

Prints the time and the bytes to the last byte for each change between the sizes of the board,
and both as a ratio to an app with one Static that fills the same window, in the same run.
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
from itertools import pairwise
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import TextIO

os.environ["COLORTERM"] = "truecolor"

from textual.app import App, ComposeResult
from textual.events import Resize
from textual.geometry import Size
from textual.widgets import Static

from tests.app.shelf import AT_ONCE, SHORT, study_of
from tests.bench.recorder import Recorder
from trainer.app.app import TrainerApp
from trainer.service.preparation import Wish, prepare_practice

WINDOWS = [(160, 50), (120, 40), (100, 30), (80, 24), (76, 21), (60, 15)]
"""One for each size of the board, and one without."""

CHANGES = list(pairwise([*WINDOWS, *WINDOWS[-2::-1]]))
"""All the way down and up again."""

ROUNDS, PAUSE = 4, 0.35
Figures = dict[tuple[tuple[int, int], tuple[int, int]], tuple[float, float]]
"""Milliseconds to the last byte and bytes, by change."""


class Floor(App[None]):
    """One Static that fills the window."""

    def compose(self) -> ComposeResult:
        """Text enough for the largest window."""
        columns, rows = WINDOWS[0]
        yield Static("\n".join("x" * columns for _ in range(rows)))


async def measure(app: App[None], written: list[tuple[float, int]]) -> Figures:
    """The medians of every change, some times over."""
    task = asyncio.create_task(app.run_async(size=WINDOWS[0]))
    while not written or perf_counter() - written[-1][0] < 0.4:
        await asyncio.sleep(0.05)
    found: dict[tuple[tuple[int, int], tuple[int, int]], list[tuple[float, int]]] = {}
    for change in CHANGES * ROUNDS:
        written.clear()
        start, window = perf_counter(), Size(*change[1])
        app.post_message(Resize(window, window))
        await asyncio.sleep(PAUSE)
        late = 1000 * (written[-1][0] - start) if written else 0.0
        found.setdefault(change, []).append((late, sum(length for _, length in written)))
    app.exit()
    await task
    return {
        change: (median(late for late, _ in times), median(sent for _, sent in times))
        for change, times in found.items()
    }


def driver(written: list[tuple[float, int]]) -> type[Recorder]:
    """A driver that keeps what is sent in this list."""
    return type("Driver", (Recorder,), {"written": written})


def main(out: TextIO = sys.__stdout__ or sys.stdout) -> None:
    """Measure both in one process, print a line a change."""
    written: list[tuple[float, int]] = []
    floor = asyncio.run(measure(Floor(driver_class=driver(written)), written))
    with (
        tempfile.TemporaryDirectory() as folder,
        study_of(Path(folder), SHORT, settings=AT_ONCE) as study,
    ):
        written = []
        practice = prepare_practice(study, Wish())
        app = TrainerApp(study, practice, driver_class=driver(written))
        ours = asyncio.run(measure(app, written))
    print(
        "window             to the last byte      of one Static     bytes  of one Static", file=out
    )
    for (before, after), (late, sent) in ours.items():
        floor_late, floor_sent = floor[before, after]
        print(
            f"{_named(before):>7} to {_named(after):<7} {late:7.1f} ms {late / floor_late:13.1f} "
            f"of {floor_late:4.1f} ms {sent:9.0f} {sent / floor_sent:7.1f} of {floor_sent:6.0f}",
            file=out,
        )
    totals = [sum(late for late, _ in figures.values()) for figures in (ours, floor)]
    print(f"all changes: {totals[0] / totals[1]:.1f} times the Static's time", file=out)


def _named(window: tuple[int, int]) -> str:
    return f"{window[0]}x{window[1]}"


if __name__ == "__main__":
    main()
