"""Opening Lines on a generated deck of 10,000 positions, and one step down in it.

Three baselines of the same run: reading the compiled lines alone, Textual's own Tree with the
same rows beside the same board, and Lines on the tests' deck of a few positions.
Run by hand: python -m tests.bench.lines
"""

from __future__ import annotations

import asyncio
import os
import random
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import TextIO

os.environ["COLORTERM"] = "truecolor"

import chess
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.screen import Screen
from textual.widgets import Tree
from textual.widgets.tree import TreeNode

from tests.app.shelf import SHORT, study_of
from tests.bench.key_press import Hand, driven, running
from tests.bench.recorder import medians
from trainer.app.app import TrainerApp
from trainer.app.screens.lines import LinesScreen
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.line_tree import LineTree
from trainer.lines.graph import graph_from_data
from trainer.service.collection import set_apart, take_back
from trainer.service.lines_report import LinesReport, report_lines
from trainer.service.study import Study
from trainer.store.decks import read_lines

POSITIONS, PLIES, ROUNDS = 10_000, 40, 9
QUIET = 0.7
"""Seconds after which no more bytes belong to an opening."""


def generated() -> list[str]:
    """Games with common beginnings, a comment at every second move, as movetext."""
    chance, keys, games = random.Random(5), set[str](), list[str]()
    while len(keys) < POSITIONS:
        board, words = chess.Board(), []
        for ply in range(PLIES):
            moves = sorted(board.legal_moves, key=chess.Move.uci)
            move = chess.Move.from_uci("e2e4") if not ply else moves[_choice(chance, ply, moves)]
            words.append(f"{ply // 2 + 1}. " if ply % 2 == 0 else f"{ply // 2 + 1}... ")
            words[-1] += board.san(move) + " {The knight looks at the centre.}" * (ply % 2 == 0)
            board.push(move)
            keys.add(board.epd())
            if board.is_game_over():
                break
        games.append(f'[Event "Generated line {len(games) + 1}"]\n\n{" ".join(words)} *')
    return games


def _choice(chance: random.Random, ply: int, moves: list[chess.Move]) -> int:
    """The student always plays the same move in a position, opponents choose."""
    return 7 % len(moves) if ply % 2 == 0 else chance.randrange(min(len(moves), 2 + ply % 3))


class TreeScreen(Screen[None]):
    """The same report and board, and Textual's Tree with a node a stretch, all of them open."""

    def __init__(self, study: Study) -> None:
        super().__init__()
        self._report = reported(study)

    def compose(self) -> ComposeResult:
        """Board and tree."""
        tree: Tree[None] = Tree("lines")
        nodes: list[TreeNode[None]] = []
        for stretch in self._report.tree.stretches:
            parent = nodes[stretch.parent] if stretch.parent >= 0 else tree.root
            label = " ".join(move.san for move in stretch.moves)
            nodes.append(parent.add(label, expand=True))
        tree.root.expand()
        with Horizontal():
            yield BoardSide()
            yield tree


def reported(study: Study) -> LinesReport:
    """What both screens show."""
    report = report_lines(study)
    assert report is not None
    return report


async def openings(study: Study, make: Callable[[], Screen[None]]) -> list[tuple[float, int]]:
    """Milliseconds from the wish to the last byte, and the bytes; some times over."""
    app, written = driven(TrainerApp, study)
    task = await running(app, written)
    found = []
    for _ in range(ROUNDS):
        written.clear()
        started = perf_counter()
        app.call_later(app.push_screen, make())
        await asyncio.sleep(QUIET)
        found.append((1000 * (written[-1][0] - started), sum(sent for _, sent in written)))
        app.call_later(app.pop_screen)
        await asyncio.sleep(QUIET)
    app.exit()
    await task
    return found[1:]


async def steps(study: Study) -> list[tuple[float, int]]:
    """The down key in the whole tree: milliseconds to the first byte, and the bytes."""
    app, written = driven(TrainerApp, study)
    task = await running(app, written)
    app.call_later(app.push_screen, LinesScreen(study))
    await asyncio.sleep(QUIET)
    app.screen.query_one(LineTree).fold_all(False)
    await asyncio.sleep(QUIET)
    hand = Hand(app, written)
    found = [await hand.press("down", 0.2) for _ in range(ROUNDS)]
    app.exit()
    await task
    return found[1:]


def reading(study: Study) -> list[tuple[float, int]]:
    """The compiled lines, from the data file to a graph."""
    found = []
    for _ in range(ROUNDS):
        started = perf_counter()
        with set_apart():
            graph_from_data(read_lines(study.db, "vienna", "white") or {})
        found.append((1000 * (perf_counter() - started), 0))
    take_back()
    return found


def main(out: TextIO = sys.__stdout__ or sys.stdout) -> None:
    """Measure all in one process."""
    with tempfile.TemporaryDirectory() as folder, study_of(Path(folder), SHORT) as study:
        small, _ = medians(asyncio.run(openings(study, lambda: LinesScreen(study))))
    with tempfile.TemporaryDirectory() as folder, study_of(Path(folder), *generated()) as study:
        tree = reported(study).tree
        size = f"{len(tree.keys)} positions in {len(tree.stretches)} stretches"
        read, _ = medians(reading(study))
        ours, sent = medians(asyncio.run(openings(study, lambda: LinesScreen(study))))
        theirs, _ = medians(asyncio.run(openings(study, lambda: TreeScreen(study))))
        step, step_sent = medians(asyncio.run(steps(study)))
    print(
        f"Lines on {size}, opened until nothing more is sent: {ours:.0f} ms, {sent:.0f} bytes\n"
        f"  {ours / theirs:.2f} times Textual's Tree with these rows ({theirs:.0f} ms); aim 1\n"
        f"  {(ours - read) / small:.2f} times Lines on a small deck ({small:.0f} ms) without "
        f"reading the compiled lines ({read:.0f} ms); aim 2\n"
        f"one row down: {step:.1f} ms to the first byte, {step_sent:.0f} bytes",
        file=out,
    )


if __name__ == "__main__":
    main()
