"""What engines answered, kept in a file of its own beside the data file.

Nothing here is the student's: the file can be removed at any time, and one of another
version is begun anew.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from trainer.errors import TrainerError
from trainer.store.database import BUSY_SECONDS, UNREADABLE

_VERSION = 1

_TABLE = """
DROP TABLE IF EXISTS answer;
CREATE TABLE answer (
    engine TEXT NOT NULL,
    nodes INTEGER NOT NULL,
    position TEXT NOT NULL,
    moves TEXT NOT NULL,
    best TEXT NOT NULL,
    score INTEGER NOT NULL,
    PRIMARY KEY (engine, nodes, position, moves)
) STRICT, WITHOUT ROWID;
"""


class EngineCache:
    """The answers of one engine at one number of nodes."""

    def __init__(self, connection: sqlite3.Connection, engine: str, nodes: int) -> None:
        self._connection = connection
        self._asked_of = (engine, nodes)

    def get(self, position: str, moves: str) -> tuple[str, int] | None:
        """The best of these moves in a position (UCI) and its score, if they are known.

        :param moves: those among which it was chosen, separated by blanks; empty for all.
        """
        row = self._connection.execute(
            "SELECT best, score FROM answer"
            " WHERE engine = ? AND nodes = ? AND position = ? AND moves = ?",
            [*self._asked_of, position, moves],
        ).fetchone()
        return None if row is None else (row[0], row[1])

    def put(self, position: str, moves: str, best: str, score: int) -> None:
        """Keep an answer at once: a search that is broken off loses nothing."""
        self._connection.execute(
            "INSERT OR REPLACE INTO answer VALUES (?, ?, ?, ?, ?, ?)",
            [*self._asked_of, position, moves, best, score],
        )


@contextmanager
def engine_cache(path: Path, engine: str, nodes: int) -> Iterator[EngineCache]:
    """The answers kept in this file, which is made where it is missing.

    :raises TrainerError: the file cannot be made, read or written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TrainerError(
            f"{path}: cannot be made ({error}); name a folder with --home"
        ) from error
    try:
        # Without Python's own transactions: each statement is one.
        with closing(sqlite3.connect(path, BUSY_SECONDS, isolation_level=None)) as connection:
            _make_table(connection)
            yield EngineCache(connection, engine, nodes)
    except UNREADABLE as error:
        raise TrainerError(
            f"{path}: cannot be used ({error}); remove it, it only keeps what engines answered"
        ) from error


def _make_table(connection: sqlite3.Connection) -> None:
    """Begin anew where the file is of another version, or just made."""
    connection.execute("BEGIN IMMEDIATE")
    if connection.execute("PRAGMA user_version").fetchone()[0] != _VERSION:
        for statement in _TABLE.split(";"):
            connection.execute(statement)
        connection.execute(f"PRAGMA user_version = {_VERSION}")
    connection.execute("COMMIT")
