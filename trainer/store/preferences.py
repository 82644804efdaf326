"""The moves that the student keeps where a deck has several right ones.

A preference outlives the edition and the shelf: it stands here until it is taken back, and
does nothing where the deck does not have the move.
"""

from __future__ import annotations

from sqlite_utils import Database


def read_preferences(db: Database, deck_id: str) -> dict[str, dict[str, str]]:
    """By side and position key the kept move (UCI), in the order of the positions' keys."""
    found: dict[str, dict[str, str]] = {}
    rows = db.execute(
        "SELECT side, position, move FROM preference WHERE deck = ? ORDER BY side, position",
        [deck_id],
    )
    for side, position, move in rows:
        found.setdefault(side, {})[position] = move
    return found


def put_preference(db: Database, deck_id: str, side: str, position: str, move: str) -> None:
    """Keep a move in a position, in place of one kept before; inside a transaction."""
    db.execute(
        "INSERT OR REPLACE INTO preference (deck, side, position, move) VALUES (?, ?, ?, ?)",
        [deck_id, side, position, move],
    )


def drop_preference(db: Database, deck_id: str, side: str, position: str) -> None:
    """Keep no move in a position; inside a transaction."""
    db.execute(
        "DELETE FROM preference WHERE deck = ? AND side = ? AND position = ?",
        [deck_id, side, position],
    )
