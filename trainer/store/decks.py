"""The decks on the shelf: their facts, chapters and cards, and their compiled lines.

All of it is made from the deck files in the home when a deck is added. History is not
here: it belongs to cards, whatever deck they are in.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from sqlite_utils import Database

from trainer.store.database import BrokenRow


@dataclass(frozen=True, slots=True)
class StoredChapter:
    """A chapter of a deck on the shelf."""

    id: str
    title: str
    kind: str
    side: str
    opens: date | None
    after: str | None


@dataclass(frozen=True, slots=True)
class StoredDeck:
    """A deck on the shelf, without its lines."""

    id: str
    edition: int
    digest: str
    title: str
    author: str
    language: str
    licence: str
    about: str
    chapters: tuple[StoredChapter, ...]


@dataclass(frozen=True, slots=True)
class StoredCard:
    """A card of a deck, with the chapters in which it has a place."""

    card: str
    side: str
    rank: int
    """Its place in the deck's travel order, from 0."""
    chapters: tuple[str, ...]
    """In deck order."""


@dataclass(frozen=True, slots=True)
class StoredExercise:
    """A tactic, an idea or a model game of a deck, as plain values."""

    chapter: str
    key: str
    """Of a tactic or an idea the card, of a model game what its guesses are known by."""
    data: Mapping[str, Any]


def read_decks(db: Database) -> list[StoredDeck]:
    """All decks, in the order in which they were added."""
    chapters: dict[str, list[StoredChapter]] = {}
    for row in db.query("SELECT * FROM chapter ORDER BY deck, place"):
        chapters.setdefault(row["deck"], []).append(_chapter(row))
    return [
        StoredDeck(
            **{name: row[name] for name in _DECK_COLUMNS},
            chapters=tuple(chapters.get(row["id"], ())),
        )
        for row in db.query("SELECT * FROM deck ORDER BY added")
    ]


def read_edition(db: Database, deck_id: str) -> tuple[int, str] | None:
    """The edition and the digest of a deck, or None where it is not on the shelf."""
    row = db.execute("SELECT edition, digest FROM deck WHERE id = ?", [deck_id]).fetchone()
    return (row[0], row[1]) if row else None


def read_cards(db: Database, deck_id: str) -> Iterator[StoredCard]:
    """The cards of a deck in travel order."""
    rows = db.execute(
        "SELECT d.card, d.side, d.rank, json_group_array(d.chapter) FROM "
        "(SELECT * FROM deck_card WHERE deck = ? ORDER BY rank, rowid) d "
        "GROUP BY d.rank ORDER BY d.rank",
        [deck_id],
    )
    for card, side, rank, chapters in rows:
        yield StoredCard(card, side, rank, tuple(json.loads(chapters)))


def decks_of_cards(db: Database) -> dict[str, list[str]]:
    """By card the ids of the decks that ask for it; cards in travel order."""
    found: dict[str, list[str]] = {}
    rows = db.execute(
        "SELECT DISTINCT c.card, d.id, d.added, c.rank FROM deck_card c "
        "JOIN deck d ON d.id = c.deck ORDER BY d.added, c.rank"
    )
    for card, deck_id, _added, _rank in rows:
        found.setdefault(card, []).append(deck_id)
    return found


def read_lines(db: Database, deck_id: str, side: str) -> Any | None:
    """The compiled lines of one side of a deck, as `graph_to_data` wrote them."""
    row = db.execute(
        "SELECT graph FROM lines WHERE deck = ? AND side = ?", [deck_id, side]
    ).fetchone()
    return json.loads(row[0]) if row else None


def read_exercise(db: Database, deck_id: str, chapter: str, key: str) -> Any | None:
    """One tactic, idea or model game, as it was compiled; None where there is none."""
    row = db.execute(
        "SELECT data FROM exercise WHERE deck = ? AND chapter = ? AND key = ?",
        [deck_id, chapter, key],
    ).fetchone()
    return json.loads(row[0]) if row else None


def read_exercises(db: Database, deck_id: str, chapter: str) -> list[StoredExercise]:
    """The tactics, ideas or model games of a chapter, in file order."""
    rows = db.execute(
        "SELECT key, data FROM exercise WHERE deck = ? AND chapter = ? ORDER BY place",
        [deck_id, chapter],
    )
    return [StoredExercise(chapter, key, json.loads(data)) for key, data in rows]


def put_deck(
    db: Database,
    deck: StoredDeck,
    cards: Sequence[StoredCard],
    lines: Iterable[tuple[str, Any]],
    exercises: Sequence[StoredExercise],
) -> None:
    """Add a deck, or put it in the place of the one on the shelf; inside a transaction.

    :param lines: sides with their compiled lines; of large ones no two need to exist at once.
    :param exercises: in deck order.
    """
    row = db.execute("SELECT added FROM deck WHERE id = ?", [deck.id]).fetchone()
    if row is None:
        row = db.execute("SELECT coalesce(max(added), 0) + 1 FROM deck").fetchone()
    db.execute("DELETE FROM deck WHERE id = ?", [deck.id])
    facts = {name: getattr(deck, name) for name in _DECK_COLUMNS}
    db.table("deck").insert({**facts, "added": row[0]})
    db.table("chapter").insert_all(
        {**asdict(chapter), "deck": deck.id, "place": place, "opens": _text(chapter.opens)}
        for place, chapter in enumerate(deck.chapters)
    )
    put_cards(db, deck.id, cards)
    for side, graph in lines:
        db.table("lines").insert({"deck": deck.id, "side": side, "graph": _as_json(graph)})
    db.table("exercise").insert_all(
        {
            "deck": deck.id,
            "chapter": exercise.chapter,
            "place": place,
            "key": exercise.key,
            "data": _as_json(exercise.data),
        }
        for place, exercise in enumerate(exercises)
    )


def put_cards(db: Database, deck_id: str, cards: Iterable[StoredCard]) -> None:
    """Let a deck ask these cards in place of those it asks now; inside a transaction."""
    db.execute("DELETE FROM deck_card WHERE deck = ?", [deck_id])
    db.conn.executemany(
        "INSERT INTO deck_card (deck, card, chapter, side, rank) VALUES (?, ?, ?, ?, ?)",
        (
            (deck_id, card.card, chapter, card.side, card.rank)
            for card in cards
            for chapter in card.chapters
        ),
    )


def remove_deck(db: Database, deck_id: str) -> None:
    """Remove a deck with its chapters, cards, lines and exercises; inside a transaction.

    Answers, guesses and preferences stay: added again, the deck finds them.
    """
    db.execute("DELETE FROM deck WHERE id = ?", [deck_id])


_DECK_COLUMNS = ("id", "edition", "digest", "title", "author", "language", "licence", "about")


def _as_json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _text(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _chapter(row: dict[str, Any]) -> StoredChapter:
    try:
        opens = date.fromisoformat(row["opens"]) if row["opens"] else None
    except ValueError as error:
        raise BrokenRow(f"chapter {row['id']!r} of deck {row['deck']!r}", error) from error
    return StoredChapter(row["id"], row["title"], row["kind"], row["side"], opens, row["after"])
