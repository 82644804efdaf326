"""`trainer deck add` of pgn-extract's table of openings against a parse by python-chess.

Two baselines: `read_game` with the position's EPD at every ply, which is what a deck needs of
a file, and `read_game` alone.

The table (2,014 lines) comes with Debian's pgn-extract; name another PGN file as the first
argument where it is not installed. Run by hand: python -m tests.bench.deck_add [FILE]
"""

from __future__ import annotations

import sys
import tempfile
from functools import partial
from pathlib import Path

from tests.bench.pairs import report, seconds

TABLE = Path("/usr/share/pgn-extract/eco.pgn")
PARSE = """
import sys, chess.pgn
with open(sys.argv[1], encoding="latin-1") as file:
    while (game := chess.pgn.read_game(file)) is not None:
        if len(sys.argv) > 2:
            board = game.board()
            for move in game.mainline_moves():
                board.push(move)
                board.epd()
"""


def main() -> None:
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else TABLE
    if not file.exists():
        sys.exit(f"{file} is missing: install pgn-extract, or name a PGN file")

    def add() -> float:
        with tempfile.TemporaryDirectory() as home:
            command = [sys.executable, "-m", "trainer", "--home", home, "deck", "add"]
            return seconds([*command, str(file), "--side", "white"])

    for name, extra in (("python-chess with an EPD a ply", ["epd"]), ("read_game alone", [])):
        parse = [sys.executable, "-c", PARSE, str(file), *extra]
        report(
            f"trainer deck add {file.name}",
            add,
            name,
            partial(seconds, parse),
            aim=0.5 if extra else None,
            rounds=7,
        )


if __name__ == "__main__":
    main()
