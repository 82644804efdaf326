"""The tables of the data file, one numbered function a change, never edited after release.

`answer`, `withdrawal` and `guess` are the truth and only ever grow: triggers refuse anything
else. `card_state` is derived from them. `preference` is what the student chose. The deck
tables hold what was made of the deck files in the home and can be made again from these.
"""

from __future__ import annotations

from sqlite_utils import Database
from sqlite_utils.migrations import Migrations

APPLICATION_ID = 0x4F4C5454
"""`OLTT` in the file's header tells our data files from others."""

migrations = Migrations("trainer")

_ANSWERS = """
CREATE TABLE answer (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE CHECK (length(id) = 32),
    card TEXT NOT NULL,
    asked_at TEXT NOT NULL,
    day TEXT NOT NULL,
    quality INTEGER NOT NULL CHECK (quality BETWEEN 0 AND 5),
    seconds REAL NOT NULL CHECK (seconds >= 0),
    looked REAL NOT NULL CHECK (looked >= 0),
    tries TEXT NOT NULL CHECK (json_valid(tries)),
    hint INTEGER NOT NULL CHECK (hint IN (0, 1)),
    shown INTEGER NOT NULL CHECK (shown IN (0, 1)),
    repeat INTEGER NOT NULL CHECK (repeat IN (0, 1)),
    source TEXT NOT NULL CHECK (source IN ('day', 'choice', 'weak', 'game', 'rehearsal')),
    deck TEXT NOT NULL,
    chapter TEXT NOT NULL,
    edition INTEGER NOT NULL,
    rules INTEGER NOT NULL,
    part_credit INTEGER NOT NULL CHECK (part_credit IN (0, 1))
) STRICT;
CREATE INDEX answer_of_card ON answer (card);
CREATE TABLE withdrawal (
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    answer TEXT NOT NULL UNIQUE REFERENCES answer (id),
    at TEXT NOT NULL
) STRICT;
"""

_APPEND_ONLY = """
CREATE TRIGGER {table}_no_{action} BEFORE {action} ON {table} BEGIN
    SELECT raise(ABORT, 'the answer log only ever grows');
END;
"""

_STATES = """
CREATE TABLE card_state (
    card TEXT PRIMARY KEY,
    repetition INTEGER NOT NULL,
    interval INTEGER NOT NULL,
    e_factor INTEGER NOT NULL,
    due TEXT NOT NULL,
    first_day TEXT NOT NULL,
    last_day TEXT NOT NULL,
    last_quality INTEGER NOT NULL,
    counted_quality INTEGER NOT NULL,
    best_quality INTEGER NOT NULL,
    last_asked_at TEXT NOT NULL
) STRICT;
"""

_DECKS = """
CREATE TABLE deck (
    id TEXT PRIMARY KEY,
    added INTEGER NOT NULL UNIQUE,
    edition INTEGER NOT NULL CHECK (edition >= 1),
    digest TEXT NOT NULL,
    title TEXT NOT NULL,
    author TEXT NOT NULL,
    language TEXT NOT NULL,
    licence TEXT NOT NULL,
    about TEXT NOT NULL
) STRICT;
CREATE TABLE chapter (
    deck TEXT NOT NULL REFERENCES deck (id) ON DELETE CASCADE,
    place INTEGER NOT NULL,
    id TEXT NOT NULL,
    title TEXT NOT NULL,
    kind TEXT NOT NULL,
    side TEXT NOT NULL CHECK (side IN ('white', 'black')),
    opens TEXT,
    after TEXT,
    PRIMARY KEY (deck, id)
) STRICT;
CREATE TABLE deck_card (
    deck TEXT NOT NULL REFERENCES deck (id) ON DELETE CASCADE,
    card TEXT NOT NULL,
    chapter TEXT NOT NULL,
    side TEXT NOT NULL,
    rank INTEGER NOT NULL,
    PRIMARY KEY (deck, card, chapter)
) STRICT;
CREATE INDEX deck_card_by_card ON deck_card (card);
CREATE TABLE lines (
    deck TEXT NOT NULL REFERENCES deck (id) ON DELETE CASCADE,
    side TEXT NOT NULL CHECK (side IN ('white', 'black')),
    graph TEXT NOT NULL CHECK (json_valid(graph)),
    PRIMARY KEY (deck, side)
) STRICT;
"""

_OTHER_KINDS = """
CREATE TABLE chapter_of_any_kind (
    deck TEXT NOT NULL REFERENCES deck (id) ON DELETE CASCADE,
    place INTEGER NOT NULL,
    id TEXT NOT NULL,
    title TEXT NOT NULL,
    kind TEXT NOT NULL,
    side TEXT NOT NULL CHECK (side IN ('white', 'black', '')),
    opens TEXT,
    after TEXT,
    PRIMARY KEY (deck, id)
) STRICT;
INSERT INTO chapter_of_any_kind
    SELECT deck, place, id, title, kind, side, opens, after FROM chapter;
DROP TABLE chapter;
ALTER TABLE chapter_of_any_kind RENAME TO chapter;
CREATE TABLE exercise (
    deck TEXT NOT NULL REFERENCES deck (id) ON DELETE CASCADE,
    chapter TEXT NOT NULL,
    place INTEGER NOT NULL,
    key TEXT NOT NULL,
    data TEXT NOT NULL CHECK (json_valid(data)),
    PRIMARY KEY (deck, chapter, key)
) STRICT;
CREATE TABLE guess (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE CHECK (length(id) = 32),
    game TEXT NOT NULL,
    side TEXT NOT NULL CHECK (side IN ('white', 'black')),
    round INTEGER NOT NULL CHECK (round >= 1),
    ply INTEGER NOT NULL CHECK (ply >= 0),
    tried TEXT NOT NULL,
    right INTEGER NOT NULL CHECK (right IN (0, 1)),
    hint INTEGER NOT NULL CHECK (hint IN (0, 1)),
    seconds REAL NOT NULL CHECK (seconds >= 0),
    guessed_at TEXT NOT NULL,
    day TEXT NOT NULL,
    deck TEXT NOT NULL,
    chapter TEXT NOT NULL,
    edition INTEGER NOT NULL
) STRICT;
CREATE INDEX guess_of_game ON guess (game, side);
CREATE TABLE preference (
    deck TEXT NOT NULL,
    side TEXT NOT NULL CHECK (side IN ('white', 'black')),
    position TEXT NOT NULL,
    move TEXT NOT NULL,
    PRIMARY KEY (deck, side, position)
) STRICT;
"""


@migrations(name="0001_first_tables")
def first_tables(db: Database) -> None:
    """The answer log, the states derived from it, and the decks."""
    db.executescript(_ANSWERS)
    for table in ("answer", "withdrawal"):
        for action in ("update", "delete"):
            db.executescript(_APPEND_ONLY.format(table=table, action=action))
    db.executescript(_STATES)
    db.executescript(_DECKS)
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")


@migrations(name="0002_tactics_games_ideas")
def tactics_games_ideas(db: Database) -> None:
    """What is no line of a deck, guesses at model games, and moves that students prefer."""
    db.executescript(_OTHER_KINDS)
    for action in ("update", "delete"):
        db.executescript(_APPEND_ONLY.format(table="guess", action=action))


KNOWN = frozenset({"0001_first_tables", "0002_tactics_games_ideas"})
"""The names of all migrations; a file that knows others comes from a newer program."""
