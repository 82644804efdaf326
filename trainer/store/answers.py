"""The answer log and the states derived from it.

One answer is one transaction: the log grows and the card's state moves on, or neither.
The state is computed from the stored one inside the transaction, so two sittings at once
never work from a stale state; it always equals the log replayed in the order of
(`asked_at`, `number`, `id`).
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlite_utils import Database

from trainer.errors import TrainerError
from trainer.memory.card_state import FRESH, Answer, CardState, advance, replay
from trainer.memory.sm2 import Schedule
from trainer.store.database import BrokenRow, transaction


@dataclass(frozen=True, slots=True)
class NewAnswer:
    """A finished prompt, about to be logged."""

    card: str
    asked_at: str
    """UTC instant, such as `2026-12-01T10:00:00.000Z`."""
    schedule: Answer
    """The day, the quality and what else the schedule looks at."""
    seconds: float
    """From the asking to the right move."""
    looked: float
    """Seconds of the first look that went before; 0 where there was none."""
    tries: Sequence[tuple[str, str]]
    """SAN and verdict of every try that the deck judged, in order."""
    hint: bool
    shown: bool
    source: str
    deck: str
    chapter: str
    edition: int
    rules: int


@dataclass(frozen=True, slots=True)
class LoggedAnswer:
    """A row of the log."""

    id: str
    number: int
    answer: NewAnswer
    withdrawn: bool


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """A row of the log that takes an answer back."""

    id: str
    answer: str
    at: str


def record(db: Database, answer: NewAnswer) -> tuple[str, CardState]:
    """Log an answer and move its card on; committed when this returns.

    :return: the answer's id and the card's new state.
    """
    answer_id = secrets.token_hex(16)
    with transaction(db):
        db.table("answer").insert(_answer_row(answer_id, answer))
        stored = _stored_state(db, answer.card)
        if stored is not None and answer.asked_at < stored[1]:
            state, last_asked_at = _replayed(db, answer.card)
        else:
            before = stored[0] if stored is not None else FRESH
            state, last_asked_at = advance(before, answer.schedule), answer.asked_at
        _write_state(db, answer.card, state, last_asked_at)
    return answer_id, state


def withdraw(db: Database, answer_id: str, at: str) -> CardState:
    """Take an answer back by adding a withdrawal; the card stands as if never answered so.

    :raises TrainerError: there is no such answer, or it is withdrawn already.
    """
    with transaction(db):
        row = next(iter(db.query("SELECT card FROM answer WHERE id = ?", [answer_id])), None)
        if row is None:
            raise TrainerError(f"answer {answer_id} is not in the log")
        if db.execute("SELECT 1 FROM withdrawal WHERE answer = ?", [answer_id]).fetchone():
            raise TrainerError(f"answer {answer_id} was taken back already")
        db.table("withdrawal").insert({"id": secrets.token_hex(16), "answer": answer_id, "at": at})
        card: str = row["card"]
        state, last_asked_at = _replayed(db, card)
        _write_state(db, card, state, last_asked_at)
    return state


def read_log(db: Database, card: str | None = None) -> Iterator[LoggedAnswer]:
    """The log in replay order, of one card or of all, withdrawn answers marked."""
    where, values = ("WHERE a.card = ?", [card]) if card is not None else ("", [])
    rows = db.query(
        "SELECT a.*, w.id IS NOT NULL AS withdrawn FROM answer a "
        f"LEFT JOIN withdrawal w ON w.answer = a.id {where} ORDER BY a.asked_at, a.number, a.id",
        values,
    )
    for row in rows:
        yield LoggedAnswer(row["id"], row["number"], _answer(row), bool(row["withdrawn"]))


def read_withdrawals(db: Database) -> list[Withdrawal]:
    """All withdrawals, in the order in which they were made."""
    rows = db.query("SELECT id, answer, at FROM withdrawal ORDER BY at, rowid")
    return [Withdrawal(**row) for row in rows]


def read_states(db: Database) -> dict[str, CardState]:
    """The stored states by card; a card that is not there is fresh."""
    return {card: state for card, (state, _) in stored_states(db).items()}


def replayed_states(db: Database) -> dict[str, tuple[CardState, str]]:
    """What the whole log comes to: by card its state and the last `asked_at`."""
    log: dict[str, list[LoggedAnswer]] = {}
    for entry in read_log(db):
        if not entry.withdrawn:
            log.setdefault(entry.answer.card, []).append(entry)
    return {
        card: (replay(e.answer.schedule for e in entries), entries[-1].answer.asked_at)
        for card, entries in log.items()
    }


def stored_states(db: Database) -> dict[str, tuple[CardState, str]]:
    """The table as it stands: by card its state and the last `asked_at`."""
    columns = ", ".join(("card", *_STATE_COLUMNS, "last_asked_at"))
    rows = db.execute(f"SELECT {columns} FROM card_state")
    return {row[0]: (_state(row[1:-1]), row[-1]) for row in rows}


def record_all(db: Database, answers: Sequence[NewAnswer]) -> None:
    """Log many answers at once and bring the states up to date: all or nothing."""
    with transaction(db):
        db.table("answer").insert_all(
            _answer_row(secrets.token_hex(16), answer) for answer in answers
        )
        _mend_states(db)


def rebuild_states(db: Database) -> int:
    """Make the states anew from the log; how many cards were not as they should be."""
    with transaction(db):
        return _mend_states(db)


def _mend_states(db: Database) -> int:
    wanted = replayed_states(db)
    try:
        stored = stored_states(db)
    except BrokenRow:
        db.execute("DELETE FROM card_state")
        stored = {}
    wrong = {card for card in wanted.keys() | stored if wanted.get(card) != stored.get(card)}
    for card in wrong:
        state, last_asked_at = wanted.get(card, (FRESH, ""))
        _write_state(db, card, state, last_asked_at)
    return len(wrong)


def asked_chapters(db: Database) -> set[tuple[str, str]]:
    """Deck and chapter ids in whose name a card was ever asked."""
    rows = db.execute(
        "SELECT DISTINCT deck, chapter FROM answer WHERE id NOT IN (SELECT answer FROM withdrawal)"
    )
    return {(row[0], row[1]) for row in rows}


_STATE_COLUMNS = (
    "repetition",
    "interval",
    "e_factor",
    "due",
    "first_day",
    "last_day",
    "last_quality",
    "counted_quality",
    "best_quality",
)


def _stored_state(db: Database, card: str) -> tuple[CardState, str] | None:
    columns = ", ".join((*_STATE_COLUMNS, "last_asked_at"))
    row = db.execute(f"SELECT {columns} FROM card_state WHERE card = ?", [card]).fetchone()
    return (_state(row[:-1]), row[-1]) if row else None


def _replayed(db: Database, card: str) -> tuple[CardState, str]:
    kept = [entry.answer for entry in read_log(db, card) if not entry.withdrawn]
    return replay(a.schedule for a in kept), kept[-1].asked_at if kept else ""


def _write_state(db: Database, card: str, state: CardState, last_asked_at: str) -> None:
    db.execute("DELETE FROM card_state WHERE card = ?", [card])
    if state.due is None:
        return
    schedule = state.schedule
    db.table("card_state").insert(
        {
            "card": card,
            "repetition": schedule.repetition,
            "interval": schedule.interval,
            "e_factor": schedule.e_factor,
            "due": state.due.isoformat(),
            "first_day": state.first_day and state.first_day.isoformat(),
            "last_day": state.last_day and state.last_day.isoformat(),
            "last_quality": state.last_quality,
            "counted_quality": state.counted_quality,
            "best_quality": state.best_quality,
            "last_asked_at": last_asked_at,
        }
    )


def _state(row: Sequence[Any]) -> CardState:
    repetition, interval, e_factor, due, first_day, last_day, last, counted, best = row
    try:
        return CardState(
            Schedule(repetition, interval, e_factor),
            date.fromisoformat(due),
            date.fromisoformat(first_day),
            date.fromisoformat(last_day),
            last,
            counted,
            best,
        )
    except ValueError as error:
        raise BrokenRow("the state of a card", error) from error


def _answer_row(answer_id: str, answer: NewAnswer) -> dict[str, Any]:
    return {
        "id": answer_id,
        "card": answer.card,
        "asked_at": answer.asked_at,
        "day": answer.schedule.day.isoformat(),
        "quality": answer.schedule.quality,
        "seconds": answer.seconds,
        "looked": answer.looked,
        "tries": json.dumps([list(attempt) for attempt in answer.tries]),
        "hint": answer.hint,
        "shown": answer.shown,
        "repeat": answer.schedule.repeat,
        "source": answer.source,
        "deck": answer.deck,
        "chapter": answer.chapter,
        "edition": answer.edition,
        "rules": answer.rules,
        "part_credit": answer.schedule.part_credit,
    }


def _answer(row: dict[str, Any]) -> NewAnswer:
    try:
        return _answer_of(row)
    except (ValueError, TypeError) as error:
        raise BrokenRow(f"answer {row['id']}", error) from error


def _answer_of(row: dict[str, Any]) -> NewAnswer:
    schedule = Answer(
        date.fromisoformat(row["day"]),
        row["quality"],
        bool(row["repeat"]),
        bool(row["part_credit"]),
    )
    return NewAnswer(
        row["card"],
        row["asked_at"],
        schedule,
        row["seconds"],
        row["looked"],
        [(san, verdict) for san, verdict in json.loads(row["tries"])],
        bool(row["hint"]),
        bool(row["shown"]),
        row["source"],
        row["deck"],
        row["chapter"],
        row["edition"],
        row["rules"],
    )
