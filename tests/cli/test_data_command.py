"""`trainer data`: where, verify, rebuild and export."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest

from tests.cli.runs import document, events, run

SQL = {
    "a state": "UPDATE card_state SET interval = 99",
    "a lost state": "DELETE FROM card_state",
}


def test_where_makes_nothing(home: Path) -> None:
    assert document("data", "where") == {
        "home": str(home),
        "data_file": str(home / "trainer.db"),
        "settings_file": str(home / "settings.toml"),
    }
    assert run("data", "where").stdout.splitlines()[0] == f"Home: {home}"
    assert not home.exists()


@pytest.mark.usefixtures("shelf")
def test_sound_data_are_verified() -> None:
    events("--fresh", "1", answers=["e4"])
    assert document("data", "verify") == {"ok": True, "problems": [], "answers": 1, "cards": 1}
    assert run("data", "verify").stdout.startswith("Sound: 1 answer, 1 card")
    assert run("data", "rebuild").stdout == "Every card was as it should be.\n"


@pytest.mark.parametrize("what", SQL)
@pytest.mark.usefixtures("shelf")
def test_wrong_states_are_found_and_mended(what: str, home: Path) -> None:
    events("--fresh", "1", answers=["e4"])
    with sqlite3.connect(home / "trainer.db") as db:
        db.execute(SQL[what])
    db.close()
    result = run("data", "verify", "--json")
    assert result.exit_code == 1
    found = json.loads(result.stdout)
    assert found["ok"] is False
    assert "`trainer data rebuild`" in found["problems"][0]
    assert run("data", "verify").exit_code == 1
    assert document("data", "rebuild") == {"mended": 1}
    assert document("data", "verify")["ok"] is True


@pytest.mark.parametrize("damage", ["whole", "pages"])
@pytest.mark.usefixtures("shelf")
def test_a_damaged_file_is_told_in_one_line_and_as_a_problem(damage: str, home: Path) -> None:
    file = home / "trainer.db"
    db = sqlite3.connect(file)
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    pages = dict(db.execute("SELECT name, rootpage FROM sqlite_master WHERE rootpage"))
    size = db.execute("PRAGMA page_size").fetchone()[0]
    db.close()
    content = bytearray(file.read_bytes())
    if damage == "whole":
        content[:100] = b"?" * 100
    else:
        for name in ("answer", "deck", "card_state"):
            content[(pages[name] - 1) * size : pages[name] * size] = b"?" * size
    file.write_bytes(content)
    result = run("data", "verify", "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout)["ok"] is False
    assert (result.stderr, run("data", "verify").exit_code) == ("", 1)
    today = run("today")
    assert (today.exit_code, today.stdout) == (1, "")
    assert today.stderr.count("\n") == 1


@pytest.mark.usefixtures("shelf")
def test_everything_is_exported_with_or_without_json() -> None:
    events("--fresh", "2", answers=["d3", {"move": "e4", "seconds": 2}, {"undo": True}, "e4"])
    found = document("data", "export")
    assert json.loads(run("data", "export").stdout) == found
    first, second = found["answers"]
    assert first["quality"] == 2
    assert first["tries"] == [
        {"san": "d3", "verdict": "out of book"},
        {"san": "e4", "verdict": "in book"},
    ]
    assert first["asked_at"] == "2026-12-03T17:00:00.000Z"
    assert {"id", "card", "asked_at", "day", "quality", "seconds", "source", "repeat"} <= set(first)
    assert [row["answer"] for row in found["withdrawals"]] == [first["id"]]
    card = next(row for row in found["cards"] if row["card"] == second["card"])
    assert card == {
        "card": second["card"],
        "fen": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        "move": "e4",
        "decks": ["small"],
        "repetition": 1,
        "interval": 1,
        "e_factor": 2.6,
        "due": "2026-12-04",
    }
