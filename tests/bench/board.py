"""What one move costs on the board: `python -m tests.bench.board`.

Plays a line on a board of each size and face and prints the bytes sent to the terminal and the
time to the last of them: for the changed squares alone, as a ratio to the whole board in the
same run, and for the two steps of an opponent's move.
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable
from statistics import median
from time import perf_counter
from typing import NamedTuple

os.environ["COLORTERM"] = "truecolor"

import chess
from textual.app import App, ComposeResult
from textual.driver import Driver

from tests.bench.recorder import Recorder
from trainer.app.widgets.board import Board, BoardView, Taste, board_variables
from trainer.app.widgets.board.geometry import Size

LINE = ["e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6", "d3", "Be7", "c3", "b5", "Bb3", "d6"]
PAUSE = 0.05
"""Seconds between two moves: shorter, and the clock of the frames is measured."""

WINDOWS = {"10x5": (160, 50), "8x4": (120, 40), "6x3": (80, 24), "5x2": (76, 21)}
FACES = {
    "drawn": ("textual-dark", Taste()),
    "letters": ("textual-dark", Taste(letters=True)),
    "plain": ("ansi-dark", Taste()),
}


class Table(App[None]):
    """An app that has a board and nothing else."""

    def __init__(self, theme: str, taste: Taste, driver_class: type[Driver]) -> None:
        super().__init__(driver_class=driver_class)
        self.theme, self._taste = theme, taste

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The board's colours."""
        return board_variables(self.current_theme)

    def compose(self) -> ComposeResult:
        """The board alone."""
        yield Board(taste=self._taste)


Played = tuple[chess.Move, BoardView]


class Cost(NamedTuple):
    """Of one kind of move at one size."""

    size: Size | None
    sent: float
    """Bytes, the median of the line."""
    late: float
    """Milliseconds to the last byte, likewise."""
    first: int
    """Bytes of the first frame."""


def line() -> list[Played]:
    """The moves of the line, each with the position it leads to."""
    board, found = chess.Board(), []
    for san in LINE:
        move = board.push_san(san)
        found.append((move, BoardView(fen=board.fen(), last_move=move)))
    return found


async def measure(
    window: tuple[int, int], face: str, show: Callable[[Board, Played], None], wait: float = PAUSE
) -> Cost:
    """What it costs to show a move in this way."""
    written: list[tuple[float, int]] = []
    app = Table(*FACES[face], type("Driver", (Recorder,), {"written": written}))
    running = asyncio.create_task(app.run_async(size=window))
    while not written or perf_counter() - written[-1][0] < 0.3:
        await asyncio.sleep(PAUSE)
    first, board = sum(length for _, length in written), app.query_one(Board)
    size, figures = board.square_size, []
    for played in line():
        written.clear()
        start = perf_counter()
        show(board, played)
        await asyncio.sleep(wait)
        figures.append((sum(n for _, n in written), 1000 * (written[-1][0] - start)))
    app.exit()
    await running
    sizes, times = zip(*figures[1:], strict=True)
    return Cost(size, median(sizes), median(times), first)


def changed_squares(board: Board, played: Played) -> None:
    """Leave it at the squares that changed."""
    board.view = played[1]


def whole_board(board: Board, played: Played) -> None:
    """Repaint everything, changed or not."""
    board.view = played[1]
    for part in board.children:
        part.refresh()


def two_steps(board: Board, played: Played) -> None:
    """Frame the piece, then let it stand on its square."""
    board.call_later(board.play, *played)  # its timer wants the app's own context


def main() -> None:
    """Print one line a size and face."""
    print("face     square  one move           of the whole board          two steps  first frame")
    for face in FACES:
        for window in WINDOWS.values():
            few = asyncio.run(measure(window, face, changed_squares))
            many = asyncio.run(measure(window, face, whole_board))
            steps = asyncio.run(measure(window, face, two_steps, 0.25))
            square = f"{few.size.width}x{few.size.height}" if few.size else "none"
            print(
                f"{face:8} {square:6} {few.sent:6.0f} B {few.late:4.1f} ms "
                f"{few.sent / many.sent:6.2f} of {many.sent:6.0f} B {many.late:4.1f} ms "
                f"{steps.sent:8.0f} B {few.first:8} B"
            )


if __name__ == "__main__":
    main()
