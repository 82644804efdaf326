"""Opening the data file, and the one way to change it.

Every change runs inside `transaction`, which begins IMMEDIATE: what is read in it cannot
be changed by another program before it is written. Files of other programs, and of newer
versions of this one, are refused before anything is written to them.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from urllib.parse import quote

import sqlite_utils

from trainer.errors import TrainerError
from trainer.store.schema import APPLICATION_ID, KNOWN, migrations

BUSY_SECONDS = 10.0
"""How long one program waits for another to finish its transaction."""


UNREADABLE = (sqlite3.DatabaseError, UnicodeDecodeError)
"""What SQLite's module raises on broken pages and on text that is none."""


class DataFileError(TrainerError):
    """The data file cannot be used as it is."""


class BrokenRow(DataFileError):
    """A row holds what this program never writes."""

    def __init__(self, what: str, error: Exception) -> None:
        super().__init__(f"{what} cannot be read ({error}); see `trainer data verify`")


def open_database(path: Path) -> sqlite_utils.Database:
    """Open the data file for this thread, making or migrating it where needed.

    :raises DataFileError: the file is no data file of ours, belongs to a newer version,
        is damaged, or cannot be written.
    """
    try:
        _refuse_what_is_not_ours(path)
        path.parent.mkdir(parents=True, exist_ok=True)
        connection = sqlite3.connect(path, timeout=BUSY_SECONDS)
        db = sqlite_utils.Database(connection, execute_plugins=False)
        _retried(db.enable_wal)
        db.execute("PRAGMA synchronous = FULL")
        db.execute("PRAGMA foreign_keys = ON")
        if migrations.pending(db):
            with transaction(db):
                migrations.apply(db)
    except (*UNREADABLE, sqlite3.Error, OSError) as error:
        raise DataFileError(
            f"{path}: cannot be opened ({error}); check that the folder can be written, "
            "or name another with --home"
        ) from error
    return db


@contextmanager
def transaction(db: sqlite_utils.Database) -> Iterator[None]:
    """All or nothing; what is read inside holds until it is committed.

    :raises DataFileError: another program held the file too long, or it cannot be written.
    """
    try:
        db.conn.execute("BEGIN IMMEDIATE")
        try:
            yield
            db.conn.commit()
        except BaseException:
            db.conn.rollback()
            raise
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError):
        raise  # ours to mend, not the user's
    except UNREADABLE as error:
        raise DataFileError(
            f"the data file cannot be written ({error}); nothing of this step was kept, try again"
        ) from error


@contextmanager
def damage_told(path: Path) -> Iterator[None]:
    """Tell of a file that turns out, while it is used, to be damaged or out of reach.

    :raises DataFileError: SQLite could not read it.
    """
    try:
        yield
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError):
        raise  # ours to mend, not the user's
    except UNREADABLE as error:
        raise DataFileError(
            f"{path}: cannot be read ({error}); see `trainer data verify`"
        ) from error


def _refuse_what_is_not_ours(path: Path) -> None:
    if not path.exists() or path.stat().st_size == 0:
        return
    # Read-only: a file that is refused must not even be checkpointed.
    uri = f"file:{quote(str(path.absolute()))}?mode=ro"
    with closing(sqlite3.connect(uri, uri=True, timeout=BUSY_SECONDS)) as connection:
        try:
            _check_origin(path, connection)
        except sqlite3.OperationalError:
            raise
        except UNREADABLE as error:
            raise DataFileError(
                f"{path}: not a data file of this program, or damaged ({error}); "
                "move it away or name another folder with --home"
            ) from error


def _check_origin(path: Path, connection: sqlite3.Connection) -> None:
    tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    application = connection.execute("PRAGMA application_id").fetchone()[0]
    if not tables and not application:
        return  # another process of ours is just making it
    if application != APPLICATION_ID:
        raise DataFileError(f"{path}: belongs to another program; name another folder with --home")
    rows = connection.execute("SELECT name FROM _sqlite_migrations WHERE migration_set = 'trainer'")
    if unknown := {row[0] for row in rows} - KNOWN:
        raise DataFileError(
            f"{path}: was written by a newer version of this program "
            f"({', '.join(sorted(unknown))}); update the program, nothing was changed"
        )


def _retried(change: Callable[[], object]) -> None:
    """The switch to WAL ignores SQLite's own waiting for a busy file."""
    end = time.monotonic() + BUSY_SECONDS
    while True:
        try:
            change()
            return
        except sqlite3.OperationalError:
            if time.monotonic() > end:
                raise
            time.sleep(0.02)


def damage(db: sqlite_utils.Database) -> list[str]:
    """What SQLite itself finds wrong with the file and with its references."""
    try:
        found = [row[0] for row in db.execute("PRAGMA integrity_check") if row[0] != "ok"]
        dangling = [
            f"a row of {row[0]} refers to nothing" for row in db.execute("PRAGMA foreign_key_check")
        ]
    except UNREADABLE as error:
        return [f"the file is damaged ({error})"]
    return found + dangling
