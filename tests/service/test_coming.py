"""What is closed still, and what it waits for. Worked by hand from the decks."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.course import TOML, write_course
from tests.service.practising import play_all
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.service.coming import ComingChapter, coming, to_come
from trainer.service.decks.shelving import add_deck
from trainer.service.opening import read_shelf
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study

CHAPTERS = {"first": FIRST, "second": SECOND}
TO_DATE = "opens on Friday 1 January 2027"


def closed(study: Study) -> list[ComingChapter]:
    return list(coming(read_shelf(study).decks[0], study.today))


@pytest.mark.parametrize(
    ("more", "when"),
    [
        ("", []),
        ("opens = 2026-12-03", []),
        ("opens = 2026-12-04", ["opens on Friday 4 December"]),
        ("opens = 2027-01-01", [TO_DATE]),
        (
            'after = "first"',
            ["opens once 6 more positions of “Chapter first” are answered right"],
        ),
        (
            'after = "first"\nopens = 2026-12-03',
            ["opens once 6 more positions of “Chapter first” are answered right"],
        ),
        (
            'after = "first"\nopens = 2027-01-01',
            [f"{TO_DATE} and once 6 more positions of “Chapter first” are answered right"],
        ),
    ],
    ids=["open", "today", "tomorrow", "another year", "after", "the day is past", "both"],
)
def test_what_a_chapter_waits_for(study: Study, tmp_path: Path, more: str, when: list[str]) -> None:
    add_deck(study, write_deck(tmp_path / "d", CHAPTERS, more={"second": more}))
    assert [chapter.when for chapter in closed(study)] == when


def test_answers_count_down_to_the_day_alone(study: Study, tmp_path: Path) -> None:
    more = {"second": 'after = "first"\nopens = 2027-01-01'}
    add_deck(study, write_deck(tmp_path / "d", CHAPTERS, more=more))
    play_all(prepare_practice(study, Wish(fresh=5)))
    (chapter,) = closed(study)
    assert (chapter.opens, chapter.after, chapter.left) == (date(2027, 1, 1), "first", 1)
    assert chapter.when.endswith("once 1 more position of “Chapter first” is answered right")
    play_all(prepare_practice(study, Wish(fresh=1)))
    (chapter,) = closed(study)
    assert (chapter.after, chapter.left, chapter.when) == (None, 0, TO_DATE)


def test_a_chapter_that_waits_for_a_closed_one(study: Study, tmp_path: Path) -> None:
    more = {"second": "opens = 2027-01-01", "third": 'after = "second"'}
    chapters = {**CHAPTERS, "third": "1. e4 c5 2. Nf3 *"}
    add_deck(study, write_deck(tmp_path / "d", chapters, more=more))
    second, third = closed(study)
    # The start and 1...e5 stand in both: asked in the first chapter, they count here too.
    assert (third.after, third.left) == ("second", 5)
    assert to_come([second, third]) == f"“Chapter second” {TO_DATE}; 1 more later"
    assert to_come([]) == ""


@pytest.mark.parametrize(
    ("awaited", "when"),
    [
        ("ideas", "opens once 3 more ideas of “Ideas” are answered right"),
        ("tricks", "opens once 1 more tactic of “Tricks” is answered right"),
        ("games", None),
    ],
)
def test_other_kinds_are_waited_for_too(
    study: Study, tmp_path: Path, awaited: str, when: str | None
) -> None:
    # A chapter of games has no cards to wait for.
    folder = write_course(tmp_path / "course")
    text = TOML.format(edition=1).replace(
        'side = "white"\n', f'side = "white"\nafter = "{awaited}"\n', 1
    )
    (folder / "deck.toml").write_text(text, encoding="utf-8")
    add_deck(study, folder)
    assert [chapter.when for chapter in closed(study)] == ([when] if when else [])
