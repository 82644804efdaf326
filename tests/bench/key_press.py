"""A key in the Sitting screen to the first bytes at the terminal, against Textual's floor.

The floor is an app with one box for text. Bytes of a whole turn are printed as well.
Run by hand: python -m tests.bench.key_press
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
from pathlib import Path
from time import perf_counter
from typing import TextIO

os.environ["COLORTERM"] = "truecolor"

from textual.app import App, ComposeResult
from textual.events import Key
from textual.widgets import Input

from tests.app.shelf import AT_ONCE, study_of
from tests.bench.recorder import Recorder, medians
from trainer.app.app import TrainerApp
from trainer.service.preparation import Wish, prepare_practice

LINE = "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4 5. Nf3 Be7 6. d3 Nxc3 7. bxc3 O-O 8. Be2 c5 *"
PAUSE = 0.08
"""Seconds between two keys: shorter, and the clock of the frames is measured."""

ROUNDS = 12


class Floor(App[None]):
    """A box and nothing else."""

    def compose(self) -> ComposeResult:
        """The box."""
        box = Input()
        box.cursor_blink = False
        yield box


class Hand:
    """Presses keys in a running app and measures what comes of them."""

    def __init__(self, app: App[None], written: list[tuple[float, int]]) -> None:
        self.app, self.written = app, written

    async def press(self, key: str, wait: float = PAUSE) -> tuple[float, int]:
        """Milliseconds to the first bytes, and all bytes that followed."""
        self.written.clear()
        start = perf_counter()
        self.app.post_message(Key(key, key if len(key) == 1 else None))
        await asyncio.sleep(wait)
        sent = sum(length for _, length in self.written)
        return (1000 * (self.written[0][0] - start) if sent else 0.0), sent


async def running(app: App[None], written: list[tuple[float, int]]) -> asyncio.Task[None]:
    """The app, once it is quiet."""
    task = asyncio.create_task(app.run_async(size=(80, 24)))
    while not written or perf_counter() - written[-1][0] < 0.4:
        await asyncio.sleep(PAUSE)
    return task


async def letters(app: App[None], written: list[tuple[float, int]]) -> list[tuple[float, int]]:
    """A letter typed into the box and rubbed out again, some times over."""
    task = await running(app, written)
    hand = Hand(app, written)
    found = []
    for _ in range(ROUNDS):
        found.append(await hand.press("N"))
        await hand.press("backspace")
    app.exit()
    await task
    return found[1:]


async def turns(app: App[None], written: list[tuple[float, int]]) -> list[tuple[float, int]]:
    """The Enter that answers and the Enter that goes on, alternately."""
    task = await running(app, written)
    hand = Hand(app, written)
    found = []
    for move in ("e4", "Nc3", "f4", "fxe5", "Nf3", "d3", "bxc3"):
        for letter in move:
            await hand.press(letter)
        found += [await hand.press("enter", 0.3), await hand.press("enter", 0.4)]
    app.exit()
    await task
    return found


def driven(make: type[App[None]], *arguments: object) -> tuple[App[None], list[tuple[float, int]]]:
    """An app whose bytes are kept."""
    written: list[tuple[float, int]] = []
    driver = type("Driver", (Recorder,), {"written": written})
    return make(*arguments, driver_class=driver), written  # type: ignore[call-arg,arg-type]


def main(out: TextIO = sys.__stdout__ or sys.stdout) -> None:
    """Measure both in one process."""
    floor = asyncio.run(letters(*driven(Floor)))
    with (
        tempfile.TemporaryDirectory() as folder,
        study_of(Path(folder), LINE, settings=AT_ONCE) as study,
    ):
        ours = asyncio.run(letters(*driven(TrainerApp, study, prepare_practice(study, Wish()))))
        turn = asyncio.run(turns(*driven(TrainerApp, study, prepare_practice(study, Wish()))))
    (floor_ms, floor_bytes), (ms, sent) = medians(floor), medians(ours)
    answer, following = medians(turn[0::2]), medians(turn[1::2][:-1])
    print(
        f"a letter in the box: {ms:.1f} ms, {ms / floor_ms:.1f} times an app with one box "
        f"({floor_ms:.1f} ms); aim 3 times\n"
        f"bytes of a letter: {sent:.0f}, of the floor's: {floor_bytes:.0f}\n"
        f"the Enter that answers: {answer[1]:.0f} bytes, {answer[0]:.0f} ms\n"
        f"the Enter that goes on, with the opponent's move in two steps: "
        f"{following[1]:.0f} bytes, {following[0]:.0f} ms",
        file=out,
    )


if __name__ == "__main__":
    main()
