"""Peak memory with a generated deck of 100,000 positions, each command in a process of its own.

`trainer deck add`, `trainer today` and what the Lines screen reads, against python-chess
reading the same files: `chess.pgn.read_game` with every game kept, and, for today, a Python
that imports chess and sqlite3. Run by hand: python -m tests.bench.big_deck
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter

POSITIONS, PLIES, CHAPTERS = 100_000, 40, 5

READ_ALL = """
import sys, chess.pgn
games = []
for name in sys.argv[1:]:
    with open(name, encoding="utf-8") as file:
        while (game := chess.pgn.read_game(file)) is not None:
            games.append(game)
"""
LINES = """
from trainer.service.lines_report import report_lines
from trainer.service.study import open_study
with open_study() as study:
    report_lines(study)
"""
MEGABYTE = 1024**2 if sys.platform == "darwin" else 1024
"""In the unit in which the system counts a process's memory."""


def peak(*command: str) -> tuple[float, float]:
    """The most memory that a process had, in MB, and its seconds.

    The system also counts what this process has when it starts the other, so this one never
    loads chess or the deck.
    """
    started = perf_counter()
    with subprocess.Popen([sys.executable, *command], stdout=subprocess.DEVNULL) as process:
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, command
    return usage.ru_maxrss / MEGABYTE, perf_counter() - started


def write(folder: Path) -> None:
    """The deck: games with common beginnings, a comment at every second move."""
    games = _games()
    share = -(-len(games) // CHAPTERS)
    manifest = ['id = "big"', 'title = "Big"', "edition = 1"]
    for number in range(CHAPTERS):
        name = f"{number + 1:02}-part.pgn"
        part = games[number * share : (number + 1) * share]
        (folder / name).write_text("\n\n".join(part) + "\n", encoding="utf-8")
        manifest += ["[[chapter]]", f'id = "part-{number + 1}"', f'file = "{name}"']
        manifest += [f'title = "Part {number + 1}"', 'kind = "lines"', 'side = "white"']
    (folder / "deck.toml").write_text("\n".join(manifest) + "\n", encoding="utf-8")


def _games() -> list[str]:
    """Seeded walks, until they pass through enough positions."""
    import chess

    chance, keys, games = random.Random(5), set[str](), list[str]()
    while len(keys) < POSITIONS:
        board, words = chess.Board(), []
        for ply in range(PLIES):
            moves = sorted(board.legal_moves, key=chess.Move.uci)
            if not moves:
                break
            # The student always plays the same move in a position, opponents choose.
            place = 7 if ply % 2 == 0 else chance.randrange(2 + ply % 3)
            move = moves[place % len(moves)] if ply else chess.Move.from_uci("e2e4")
            words.append(f"{ply // 2 + 1}. " if ply % 2 == 0 else f"{ply // 2 + 1}... ")
            words[-1] += board.san(move) + " {The knight looks at the centre.}" * (ply % 2 == 0)
            board.push(move)
            keys.add(board.epd())
        games.append(f'[Event "Generated line {len(games) + 1}"]\n\n{" ".join(words)} *')
    return games


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        deck, home = Path(name) / "big", Path(name) / "home"
        deck.mkdir()
        os.environ.update(TRAINER_HOME=str(home), TRAINER_NOW="2026-12-03T18:00:00+01:00")
        subprocess.run([sys.executable, "-m", "tests.bench.big_deck", str(deck)], check=True)
        files = sorted(str(path) for path in deck.glob("*.pgn"))
        size = sum(Path(file).stat().st_size for file in files) / 1024**2
        theirs, their_seconds = peak("-c", READ_ALL, *files)
        bare, _ = peak("-c", "import chess, sqlite3")
        print(
            f"{POSITIONS} positions in {CHAPTERS} chapters, {size:.1f} MB of PGN; python-chess "
            f"with every game kept: {theirs:.0f} MB, {their_seconds:.1f} s; "
            f"importing chess and sqlite3: {bare:.0f} MB"
        )
        for said, command, baseline in (
            ("trainer deck add", ("-m", "trainer", "deck", "add", str(deck)), theirs),
            ("what Lines reads", ("-c", LINES), theirs),
            ("trainer today", ("-m", "trainer", "today"), bare),
        ):
            ours, seconds = peak(*command)
            print(f"{said}: {ours:.0f} MB, {ours / baseline:.2f} times; {seconds:.1f} s")


if __name__ == "__main__":
    write(Path(sys.argv[1])) if sys.argv[1:] else main()
