"""The log and the states derived from it."""

import tempfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlite_utils import Database

from tests.store_helpers import CARD, OTHER, new_answer
from trainer.errors import TrainerError
from trainer.memory.card_state import FRESH
from trainer.store.answers import (
    asked_chapters,
    read_log,
    read_states,
    read_withdrawals,
    rebuild_states,
    record,
    record_all,
    replayed_states,
    stored_states,
    withdraw,
)
from trainer.store.database import open_database, transaction


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Database]:
    opened = open_database(tmp_path / "trainer.db")
    yield opened
    opened.close()


def test_an_answer_is_kept_as_it_was_given(db: Database) -> None:
    given_answer = replace(
        new_answer(2), tries=[("Nf3", "out of book"), ("e4", "in book")], hint=True, shown=True
    )
    answer_id, state = record(db, given_answer)
    (entry,) = read_log(db)
    assert (entry.id, entry.answer, entry.withdrawn) == (answer_id, given_answer, False)
    assert read_states(db) == {CARD: state}
    assert asked_chapters(db) == {("vienna", "first-moves")}


def test_a_withdrawn_answer_stays_in_the_log_and_counts_no_more(db: Database) -> None:
    first, before = record(db, new_answer(5))
    second, _ = record(db, new_answer(2, date(2026, 12, 4)))
    assert withdraw(db, second, "2026-12-04T10:01:00.000Z") == before
    assert [(entry.id, entry.withdrawn) for entry in read_log(db)] == [
        (first, False),
        (second, True),
    ]
    assert withdraw(db, first, "2026-12-04T10:02:00.000Z") == FRESH
    assert read_states(db) == {}
    assert asked_chapters(db) == set()
    assert [row.answer for row in read_withdrawals(db)] == [second, first]


def test_an_answer_is_withdrawn_once(db: Database) -> None:
    answer_id, _ = record(db, new_answer())
    withdraw(db, answer_id, "2026-12-04T10:01:00.000Z")
    with pytest.raises(TrainerError, match="taken back already"):
        withdraw(db, answer_id, "2026-12-04T10:02:00.000Z")
    with pytest.raises(TrainerError, match="not in the log"):
        withdraw(db, "0" * 32, "2026-12-04T10:02:00.000Z")


def test_the_state_is_computed_from_the_stored_one(tmp_path: Path) -> None:
    # Two sittings at once, both opened before either answered.
    one, two = (open_database(tmp_path / "trainer.db") for _ in range(2))
    record(one, new_answer(5))
    _, state = record(two, new_answer(5, date(2026, 12, 4)))
    assert state.schedule.repetition == 2
    assert state.due == date(2026, 12, 10)
    one.close()
    two.close()


def test_an_answer_that_comes_late_is_replayed_in_its_place(db: Database) -> None:
    # Asked earlier, answered later: a sitting that stood open beside another.
    record(db, new_answer(5, date(2026, 12, 4)))
    record(db, new_answer(2, date(2026, 12, 3)))
    assert stored_states(db) == replayed_states(db)


def test_a_damaged_state_is_mended_from_the_log(db: Database) -> None:
    record(db, new_answer(5))
    record(db, new_answer(4, card=OTHER))
    wanted = stored_states(db)
    with transaction(db):
        db.execute("UPDATE card_state SET interval = 99 WHERE card = ?", [CARD])
        db.execute(
            "INSERT INTO card_state SELECT 'nobody', 1, 1, 250, due, first_day, last_day, "
            "5, 5, 5, last_asked_at FROM card_state WHERE card = ?",
            [OTHER],
        )
    assert rebuild_states(db) == 2
    assert stored_states(db) == wanted
    assert rebuild_states(db) == 0


def test_many_answers_at_once_come_to_the_same_as_one_by_one(db: Database, tmp_path: Path) -> None:
    answers = [
        new_answer(quality, date(2026, 12, 3) + timedelta(days=day), card)
        for day, quality in enumerate((5, 3, 2, 5, 4))
        for card in (CARD, OTHER)
    ]
    record_all(db, answers)
    other = open_database(tmp_path / "other.db")
    for answer in answers:
        record(other, answer)
    assert stored_states(db) == stored_states(other)
    other.close()


STEPS = st.lists(
    st.one_of(
        st.tuples(
            st.just("answer"),
            st.integers(0, 5),
            st.integers(-1, 9),
            st.booleans(),
            st.booleans(),
            st.sampled_from((CARD, OTHER)),
        ),
        st.tuples(st.just("undo"), st.integers(0, 30)),
        st.just(("restart",)),
    ),
    max_size=25,
)


@given(STEPS)
def test_the_log_replayed_equals_the_table(steps: list[tuple[object, ...]]) -> None:
    """After any answers, undos and restarts, days going back and early answers included."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trainer.db"
        db = open_database(path)
        day, ids = date(2026, 12, 3), []
        for minute, step in enumerate(steps):
            if step[0] == "answer":
                _, quality, days, repeat, part_credit, card = step
                day += timedelta(days=days)  # type: ignore[arg-type]
                answer = new_answer(
                    quality,  # type: ignore[arg-type]
                    day,
                    str(card),
                    minute=minute,
                    repeat=bool(repeat),
                    part_credit=bool(part_credit),
                )
                ids.append(record(db, answer)[0])
            elif step[0] == "undo" and ids:
                withdraw(db, ids.pop(int(step[1]) % len(ids)), "2026-12-04T10:01:00.000Z")  # type: ignore[call-overload]
            else:
                db.close()
                db = open_database(path)
            assert stored_states(db) == replayed_states(db)
        db.close()
