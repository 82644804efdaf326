"""`trainer deck add` of pgn-extract's table of openings against a bare python-chess parse.

The table (2,014 lines) comes with Debian's pgn-extract; name another PGN file as the first
argument where it is not installed. Run by hand: python -m tests.bench.deck_add [FILE]
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.bench.pairs import report, seconds

TABLE = Path("/usr/share/pgn-extract/eco.pgn")
PARSE = """
import sys, chess.pgn
with open(sys.argv[1], encoding="latin-1") as file:
    while chess.pgn.read_game(file) is not None:
        pass
"""


def main() -> None:
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else TABLE
    if not file.exists():
        sys.exit(f"{file} is missing: install pgn-extract, or name a PGN file")

    def add() -> float:
        with tempfile.TemporaryDirectory() as home:
            command = [sys.executable, "-m", "trainer", "--home", home, "deck", "add"]
            return seconds([*command, str(file), "--side", "white"])

    report(
        f"trainer deck add {file.name}",
        add,
        "a bare parse by python-chess",
        lambda: seconds([sys.executable, "-c", PARSE, str(file)]),
        aim=0.5,
        rounds=7,
    )


if __name__ == "__main__":
    main()
