"""Opening, refusing and writing the data file."""

import multiprocessing
import sqlite3
from datetime import date
from pathlib import Path

import pytest
import sqlite_utils

from tests.store_helpers import new_answer
from trainer.store.answers import read_log, record
from trainer.store.database import DataFileError, damage, open_database, transaction
from trainer.store.decks import read_decks
from trainer.store.guesses import Guess, guesses_at, keep_guess, read_guesses
from trainer.store.schema import KNOWN, migrations


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "new folder" / "trainer.db"


def test_a_new_file_is_durable_and_guarded(path: Path) -> None:
    # Source: SQLite documentation, PRAGMA synchronous: 2 is FULL; WAL + FULL syncs each commit.
    db = open_database(path)
    pragmas = {
        name: db.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("journal_mode", "synchronous", "foreign_keys")
    }
    assert pragmas == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
    assert damage(db) == []
    tables = [row[0] for row in db.execute("SELECT name FROM pragma_table_list WHERE strict")]
    assert {"answer", "withdrawal", "card_state", "deck", "chapter", "lines"} <= set(tables)
    db.close()


def test_the_names_of_all_migrations_are_known(path: Path) -> None:
    db = open_database(path)
    assert {applied.name for applied in migrations.applied(db)} == KNOWN
    db.close()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"not a database, but long enough to be read as a header " * 30, "not a data file"),
        (b"SQLite format 3\x00" + b"\xff" * 4000, "not a data file"),
    ],
    ids=["text", "broken header"],
)
def test_files_that_are_no_database_are_refused_untouched(
    path: Path, content: bytes, said: str
) -> None:
    path.parent.mkdir()
    path.write_bytes(content)
    with pytest.raises(DataFileError, match=said):
        open_database(path)
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_refused_untouched(path: Path) -> None:
    path.parent.mkdir()
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE recipe (name TEXT)")
    connection.commit()
    connection.close()
    before = path.read_bytes()
    with pytest.raises(DataFileError, match="belongs to another program"):
        open_database(path)
    assert path.read_bytes() == before


def test_a_file_of_a_newer_program_is_refused_untouched(path: Path) -> None:
    db = open_database(path)
    record(db, new_answer())
    with transaction(db):
        db.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) "
            "VALUES ('trainer', '9999_from_the_future', '2030-01-01')"
        )
    # Still open: what was committed lies in the write-ahead log.
    files = {file: file.read_bytes() for file in path.parent.iterdir() if file.suffix != ".db-shm"}
    with pytest.raises(DataFileError, match=r"newer version.*9999_from_the_future"):
        open_database(path)
    assert {file: file.read_bytes() for file in files} == files
    db.close()


def test_a_folder_that_cannot_be_written_is_one_sentence(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    with pytest.raises(DataFileError, match="cannot be opened"):
        open_database(blocked / "trainer.db")


def test_a_failed_transaction_leaves_nothing(path: Path) -> None:
    db = open_database(path)
    with pytest.raises(KeyboardInterrupt), transaction(db):
        db.execute("INSERT INTO deck VALUES ('a', 1, 1, '', '', '', '', '', '')")
        raise KeyboardInterrupt
    assert db.execute("SELECT count(*) FROM deck").fetchone()[0] == 0
    record(db, new_answer())  # and the file can be written again
    db.close()


@pytest.mark.parametrize("table", ["answer", "withdrawal"])
@pytest.mark.parametrize("change", ["UPDATE {} SET id = id", "DELETE FROM {}"])
def test_the_log_only_grows(path: Path, table: str, change: str) -> None:
    db = open_database(path)
    answer_id, _ = record(db, new_answer())
    with transaction(db):
        db.execute("INSERT INTO withdrawal VALUES (?, ?, '')", ["0" * 32, answer_id])
    with pytest.raises(sqlite3.IntegrityError, match="only ever grows"):
        db.execute(change.format(table))
    db.conn.rollback()
    db.close()


def _open_and_answer(path: Path, number: int) -> None:
    db = open_database(path)
    for minute in range(5):
        record(db, new_answer(minute=number * 5 + minute))
    db.close()


def test_programs_that_make_the_file_together_all_succeed(path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    programs = [context.Process(target=_open_and_answer, args=(path, n)) for n in range(4)]
    for program in programs:
        program.start()
    for program in programs:
        program.join()
    assert [program.exitcode for program in programs] == [0, 0, 0, 0]
    db = open_database(path)
    assert len(list(read_log(db))) == 20
    assert damage(db) == []
    db.close()


def test_a_file_of_the_first_release_keeps_all_that_it_holds(path: Path) -> None:
    path.parent.mkdir()
    old = sqlite_utils.Database(path)
    migrations.apply(old, stop_before="0002_tactics_games_ideas")
    old.execute("INSERT INTO deck VALUES ('vienna', 1, 1, 'x', 'V', '', 'en', '', '')")
    old.execute(
        "INSERT INTO chapter VALUES "
        "('vienna', 0, 'first', 'First', 'lines', 'white', '2026-12-01', NULL)"
    )
    old.conn.commit()
    record(old, new_answer(4))
    old.close()
    db = open_database(path)
    (deck,) = read_decks(db)
    assert [(c.id, c.kind, c.side, c.opens) for c in deck.chapters] == [
        ("first", "lines", "white", date(2026, 12, 1))
    ]
    assert [entry.answer.schedule.quality for entry in read_log(db)] == [4]
    assert damage(db) == []
    db.close()


def test_a_guess_is_never_changed_or_taken_away(path: Path) -> None:
    db = open_database(path)
    keep_guess(db, GUESS)
    for change in ("UPDATE guess SET right = 1", "DELETE FROM guess"):
        with pytest.raises(sqlite3.IntegrityError, match="only ever grows"):
            db.execute(change)
    assert guesses_at(db, GUESS.game, GUESS.side) == [GUESS]
    assert [guess for _, guess in read_guesses(db)] == [GUESS]
    db.close()


GUESS = Guess(
    game="start e2e4",
    side="white",
    round=1,
    ply=0,
    tried="d3",
    right=False,
    hint=True,
    seconds=2.5,
    guessed_at="2026-12-03T10:00:00.000Z",
    day="2026-12-03",
    deck="vienna",
    chapter="games",
    edition=1,
)
