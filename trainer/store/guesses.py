"""Guesses at model games: one row a guess, which only ever grows, like the answers."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from sqlite_utils import Database

from trainer.store.database import transaction


@dataclass(frozen=True, slots=True)
class Guess:
    """One guess at one move of a game."""

    game: str
    """The game's key: position key of its start and its moves in UCI."""
    side: str
    """`white` or `black`: whose moves are guessed."""
    round: int
    """Which time through the game it was, from 1."""
    ply: int
    """The place of the move in the game, from 0."""
    tried: str
    """SAN; empty where the move was shown."""
    right: bool
    hint: bool
    seconds: float
    guessed_at: str
    """UTC instant, such as `2026-12-01T10:00:00.000Z`."""
    day: str
    """The local day."""
    deck: str
    chapter: str
    edition: int


def keep_guess(db: Database, guess: Guess) -> None:
    """Add a guess; committed when this returns."""
    with transaction(db):
        db.table("guess").insert({"id": secrets.token_hex(16), **asdict(guess)})


def guesses_at(db: Database, game: str, side: str) -> list[Guess]:
    """The guesses at one side of a game in the order of its rounds and moves."""
    query = f"SELECT {_COLUMNS} FROM guess WHERE game = ? AND side = ? ORDER BY round, ply, number"
    return [_guess(row) for row in db.query(query, [game, side])]


def read_guesses(db: Database) -> Iterator[tuple[str, Guess]]:
    """All guesses with their ids, in the order in which they were made."""
    for row in db.query(f"SELECT id, {_COLUMNS} FROM guess ORDER BY guessed_at, number"):
        yield row.pop("id"), _guess(row)


def _guess(row: dict[str, Any]) -> Guess:
    return Guess(**{**row, "right": bool(row["right"]), "hint": bool(row["hint"])})


_COLUMNS = ", ".join(Guess.__dataclass_fields__)
