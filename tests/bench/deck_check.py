"""`trainer deck check` of pgn-extract's table of openings against a bare parse of the same file.

The baseline is python-chess's `read_game` alone, which finds hardly any fault and joins nothing.
The table (2,014 lines) comes with Debian's pgn-extract; name another PGN file as the first
argument where it is not installed. Run by hand: python -m tests.bench.deck_check [FILE]
"""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

from tests.bench.deck_add import PARSE, TABLE
from tests.bench.pairs import report, seconds


def main() -> None:
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else TABLE
    if not file.exists():
        sys.exit(f"{file} is missing: install pgn-extract, or name a PGN file")
    check = [sys.executable, "-m", "trainer", "deck", "check", str(file), "--side", "white"]
    report(
        f"trainer deck check {file.name}",
        partial(seconds, check),
        "read_game alone",
        partial(seconds, [sys.executable, "-c", PARSE, str(file)]),
        aim=3,
        rounds=7,
    )


if __name__ == "__main__":
    main()
