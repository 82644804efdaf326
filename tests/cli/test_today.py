"""`trainer today`, as JSON and as sentences."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.cli.runs import document, events, run
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.cli.today import LONGEST_BAR, _chart
from trainer.service.today import DayAhead

NEXT_DAY = "2026-12-04T18:00:00+01:00"

pytestmark = pytest.mark.usefixtures("shelf")


def test_json_has_the_fields_of_the_contract() -> None:
    found = document("today")
    assert found["date"] == "2026-12-03"
    assert (found["due"], found["fresh_today"], found["repeats"]) == (0, 10, 0)
    (deck,) = found["decks"]
    assert deck == {
        "id": "small",
        "title": "Small",
        "edition": 1,
        "cards": 11,
        "due": 0,
        "fresh": 11,
        "known": 0,
        "to_practise": 10,
    }
    assert found["coming"] == []
    days = [date.fromisoformat(day["date"]) for day in found["days_ahead"]]
    assert days == [date(2026, 12, 3) + timedelta(days=n) for n in range(14)]


def test_an_answered_card_is_due_tomorrow(monkeypatch: pytest.MonkeyPatch) -> None:
    events("--fresh", "1", answers=[{"move": "e4", "seconds": 1}])
    found = document("today")
    assert (found["due"], found["fresh_today"], found["days_ahead"][1]["due"]) == (0, 9, 1)
    monkeypatch.setenv("TRAINER_NOW", NEXT_DAY)
    assert document("today")["due"] == 1
    said = run("today").stdout.splitlines()
    assert said[:3] == [
        "Friday 4 December 2026.",
        "11 positions to practise, about 6 minutes: 1 due, 10 fresh.",
        "Small: 11 today, 1 of 11 hold.",
    ]
    assert "  Fri  4 Dec    1 #" in said
    assert said[-1] == "Start with `trainer practice`."


def test_a_miss_owes_a_repeat() -> None:
    events("--fresh", "1", answers=["d3", "e4"])
    assert document("today")["repeats"] == 1
    assert "1 to be asked again" in run("today").stdout


def test_when_all_is_done_it_names_the_day_to_come_back(home: Path) -> None:
    (home / "settings.toml").write_text("fresh_per_day = 1\n", encoding="utf-8")
    events(answers=[{"move": "e4", "seconds": 1}])
    said = run("today").stdout
    assert "Nothing is left to practise today." in said
    assert said.endswith("Come back on Friday 4 December: 1 position will be due.\n")


def test_empty_days_at_the_end_are_not_drawn() -> None:
    assert "days" not in run("today").stdout
    events("--fresh", "1", answers=[{"move": "e4", "seconds": 1}])
    told = run("today").stdout
    assert "\nThe next 2 days:\n  Thu  3 Dec    0\n  Fri  4 Dec    1 #\n\n" in told


def test_what_comes_and_when(tmp_path: Path) -> None:
    more = {"second": "opens = 2027-01-01", "third": 'after = "first"'}
    chapters = {"first": FIRST, "second": SECOND, "third": "1. e4 c5 2. Nf3 *"}
    run("deck", "add", str(write_deck(tmp_path / "b", chapters, deck_id="b", more=more)))
    assert document("today")["coming"] == [
        {
            "deck": "b",
            "chapter": "second",
            "title": "Chapter second",
            "kind": "lines",
            "opens": "2027-01-01",
            "after": None,
            "left": 0,
            "when": "opens on Friday 1 January 2027",
        },
        {
            "deck": "b",
            "chapter": "third",
            "title": "Chapter third",
            "kind": "lines",
            "opens": None,
            "after": "first",
            "left": 6,
            "when": "opens once 6 more positions of “Chapter first” are answered right",
        },
    ]
    told = run("today").stdout
    assert "  To come: “Chapter second” opens on Friday 1 January 2027; 1 more later.\n" in told


@pytest.mark.parametrize(
    ("most", "bars"),
    [(0, [0, 0]), (1, [0, 1]), (LONGEST_BAR, [1, LONGEST_BAR]), (1000, [1, LONGEST_BAR])],
)
def test_bars_fit_the_line_and_show_every_day_that_has_cards(most: int, bars: list[int]) -> None:
    days = (DayAhead(date(2026, 12, 3), bars[0]), DayAhead(date(2026, 12, 4), most))
    assert [line.count("#") for line in _chart(days)] == bars
