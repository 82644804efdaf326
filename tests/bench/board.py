"""What one move costs on the board: `python -m tests.bench.board`.

Plays a line on a board of each size and prints the bytes sent to the terminal and the time to
the last of them, for the changed squares alone and, in the same run, for the whole board.
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable
from statistics import median
from time import perf_counter

os.environ["COLORTERM"] = "truecolor"

import chess
from textual.app import App, ComposeResult
from textual.drivers.headless_driver import HeadlessDriver

from trainer.app.widgets.board import Board, BoardView, board_variables

LINE = ["e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6", "d3", "Be7", "c3", "b5", "Bb3", "d6"]
PAUSE = 0.05
"""Seconds between two moves: shorter, and the clock of the frames is measured."""

SIZES = {"6x3": (80, 24), "8x4": (120, 40), "10x5": (160, 50), "5x2": (76, 21)}


class Recorder(HeadlessDriver):
    """Keeps the time and the length of everything that is sent to the terminal."""

    written: list[tuple[float, int]]

    @property
    def is_headless(self) -> bool:
        """Textual writes nothing to a driver that says it is headless."""
        return False

    def write(self, data: str) -> None:
        """Note what would be sent."""
        self.written.append((perf_counter(), len(data.encode())))


class Table(App[None]):
    """An app that has a board and nothing else."""

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The board's colours."""
        return board_variables(self.current_theme)

    def compose(self) -> ComposeResult:
        """The board alone."""
        yield Board()


def views() -> list[BoardView]:
    """The positions of the line, each with its last move."""
    board, found = chess.Board(), []
    for san in LINE:
        move = board.push_san(san)
        found.append(BoardView(fen=board.fen(), last_move=move))
    return found


async def measure(
    terminal: tuple[int, int], also: Callable[[Board], None]
) -> tuple[float, float, int]:
    """Median bytes and milliseconds of a move, and the bytes of the first frame."""
    written: list[tuple[float, int]] = []
    driver = type("Driver", (Recorder,), {"written": written})
    app = Table(driver_class=driver)
    running = asyncio.create_task(app.run_async(size=terminal))
    while not written or perf_counter() - written[-1][0] < 0.3:
        await asyncio.sleep(PAUSE)
    first, board = sum(length for _, length in written), app.query_one(Board)
    figures = []
    for view in views():
        written.clear()
        start = perf_counter()
        board.view = view
        also(board)
        await asyncio.sleep(PAUSE)
        figures.append((sum(n for _, n in written), 1000 * (written[-1][0] - start)))
    app.exit()
    await running
    sizes, times = zip(*figures[1:], strict=True)
    return median(sizes), median(times), first


def nothing(_board: Board) -> None:
    """Leave it at the squares that changed."""


def whole_board(board: Board) -> None:
    """Repaint everything, changed or not."""
    for part in board.children:
        part.refresh()


def main() -> None:
    """Print one line a size."""
    print("square   one move          whole board       first frame")
    for name, terminal in SIZES.items():
        few, soon, first = asyncio.run(measure(terminal, nothing))
        many, late, _ = asyncio.run(measure(terminal, whole_board))
        print(f"{name:6} {few:6.0f} B {soon:5.1f} ms {many:7.0f} B {late:5.1f} ms {first:8} B")


if __name__ == "__main__":
    main()
