"""What the Lines screen is given, and what a search finds in it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.service.practising import play_all
from tests.small_decks import BLACK, FIRST, SECOND, write_deck
from trainer.lines.stretches import Spot
from trainer.service.decks.shelving import add_deck
from trainer.service.lines_report import ChapterHere, Counts, LinesReport, report_lines
from trainer.service.lines_search import search
from trainer.service.opening import read_shelf
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study

CHAPTERS = {"first": FIRST, "second": SECOND}


def reported(study: Study, deck: str | None = None, side: str | None = None) -> LinesReport:
    report = report_lines(study, deck, side)
    assert report is not None
    return report


def whole(report: LinesReport) -> Counts:
    return report.tally.of(range(len(report.tree.keys)))


def test_without_a_deck_there_is_nothing(study: Study) -> None:
    assert report_lines(study) is None


def test_the_counts_are_those_of_the_deck(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    assert whole(reported(study)) == Counts(cards=8, known=0, shaky=0, fresh=8, due=0)
    play_all(prepare_practice(study, Wish(fresh=5)), miss=frozenset({"", "1. e4 e5"}))
    report = reported(study)
    assert whole(report) == Counts(cards=8, known=3, shaky=2, fresh=3, due=0)
    assert whole(report).cards == len(read_shelf(study).decks[0].cards)


def test_due_is_counted_beside_known_and_shaky(
    study: Study, small_deck: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=3)), miss=frozenset({""}))
    monkeypatch.setattr(Study, "today", date(2026, 12, 4))
    assert whole(reported(study)) == Counts(cards=8, known=2, shaky=1, fresh=5, due=3)


def test_each_row_counts_its_branch(study: Study, small_deck: Path) -> None:
    """Worked by hand. Below 2...Nf6: 3. f4, 4. fxe5 and 5. Nf3, then 4. d3 and 5. Bg5.

    2...Nc6 brings 3. Bc4 alone: after 3...Nf6 it joins the line with 3. Bc4 Nc6.
    """
    add_deck(study, small_deck)
    report = reported(study)
    counted = {
        report.tree.line(Spot(n, s.first_step)): report.tally.of(range(s.first, s.beyond)).cards
        for n, s in enumerate(report.tree.stretches)
    }
    assert counted == {
        "": 8,
        "1. e4 e5 2. Nc3 Nf6": 5,
        "1. e4 e5 2. Nc3 Nf6 3. f4": 2,
        "1. e4 e5 2. Nc3 Nf6 3. Bc4": 2,
        "1. e4 e5 2. Nc3 Nc6": 1,
    }


def test_a_closed_chapter_is_left_out_and_says_when_it_opens(study: Study, tmp_path: Path) -> None:
    more = {"second": 'opens = 2026-12-08\nafter = "first"'}
    add_deck(study, write_deck(tmp_path / "d", CHAPTERS, more=more))
    report = reported(study)
    assert report.chapters == (
        ChapterHere("first", "Chapter first", True),
        ChapterHere("second", "Chapter second", False, date(2026, 12, 8), "Chapter first"),
    )
    assert whole(report).cards == len(read_shelf(study).decks[0].cards) == 6
    assert not search(report, "e4 e5 Nc3 Nc6", Spot(0, 0))
    assert not search(report, "second", Spot(0, 0))


def test_decks_and_sides(study: Study, small_deck: Path, tmp_path: Path) -> None:
    add_deck(study, small_deck)
    both = {"ours": FIRST, "theirs": BLACK}
    add_deck(study, write_deck(tmp_path / "b", both, deck_id="b", sides={"theirs": "black"}))
    assert reported(study).books == (("small", "white"), ("b", "white"), ("b", "black"))
    assert reported(study, "b").id == ("b", "white")
    report = reported(study, "b", "black")
    assert report.id == ("b", "black")
    assert [chapter.id for chapter in report.chapters] == ["theirs"]
    assert report.tree.line(report.tree.spot(1)) == "1. e4"
    assert reported(study, "gone").id == ("small", "white")


def test_a_report_made_anew_reads_the_lines_only_if_they_are_others(
    study: Study, small_deck: Path, tmp_path: Path
) -> None:
    add_deck(study, small_deck)
    first = reported(study)
    play_all(prepare_practice(study, Wish(fresh=8)))
    again = report_lines(study, before=first)
    assert again is not None and again.book is first.book and whole(again).known == 8
    add_deck(study, write_deck(tmp_path / "e2", {"first": FIRST}, edition=2))
    newer = report_lines(study, before=again)
    assert newer is not None and newer.book is not first.book and whole(newer).cards == 6


# --- Searching


@pytest.fixture
def report(study: Study, small_deck: Path) -> LinesReport:
    add_deck(study, small_deck)
    return reported(study)


def found(report: LinesReport, text: str, here: Spot | None = None) -> list[tuple[str, str]]:
    places = search(report, text, here or Spot(0, 0))
    return [(report.tree.line(place.spot), place.what) for place in places]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("1. e4 e5 2. Nc3", "1. e4 e5 2. Nc3"),
        ("e4 e5 Nc3 Nc6 Bc4 Nf6", "1. e4 e5 2. Nc3 Nf6 3. Bc4 Nc6"),
        ("1.e4 e5 2.Nc3 Nc6", "1. e4 e5 2. Nc3 Nc6"),
        ("1. Nc3 e5 2. e4 Nf6", "1. e4 e5 2. Nc3 Nf6"),
        ("nc3 nf6 e4 e5 f4", "1. e4 e5 2. Nc3 Nf6 3. f4"),
        ("e4 c5", None),
        ("e4 e5 Ke3", None),
    ],
)
def test_move_orders(report: LinesReport, text: str, line: str | None) -> None:
    assert found(report, text) == ([(line, "")] if line else [])


def test_moves_that_fit_no_start_go_on_from_here(report: LinesReport) -> None:
    (place,) = search(report, "e4 e5 Nc3", Spot(0, 0))
    after_nc3 = place.spot
    assert found(report, "Nf6 f4", after_nc3) == [("1. e4 e5 2. Nc3 Nf6 3. f4", "")]
    assert found(report, "2... Nc6", after_nc3) == [("1. e4 e5 2. Nc3 Nc6", "")]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("gambit", [("1. e4 e5 2. Nc3 Nf6 3. f4", "The gambit")]),
        ("QUIET kn", [("1. e4 e5 2. Nc3 Nc6", "The quiet knight")]),
        ("second", [("1. e4 e5 2. Nc3 Nc6", "Chapter second")]),
        (
            "the",
            [
                ("1. e4 e5 2. Nc3 Nf6 3. f4", "The gambit"),
                ("1. e4 e5 2. Nc3 Nc6", "The quiet knight"),
            ],
        ),
        ("gambit knight", []),
        ("[/x]", []),
        ("  ", []),
    ],
)
def test_titles_stand_where_they_bring_something_of_their_own(
    report: LinesReport, text: str, wanted: list[tuple[str, str]]
) -> None:
    """Both games begin alike; what is before the fork is everybody's. Worked by hand."""
    assert found(report, text) == wanted


def test_themes_are_found_at_each_of_their_moves(study: Study, tmp_path: Path) -> None:
    game = "1. e4 {[%theme centre]} e5 2. Nc3 {[%theme f4 first, centre]} *"
    add_deck(study, write_deck(tmp_path / "t", {"first": f'[Event "?"]\n\n{game}\n'}))
    report = reported(study)
    assert found(report, "centre") == [("1. e4", "centre"), ("1. e4 e5 2. Nc3", "centre")]
    assert found(report, "first") == [
        ("", "Chapter first"),
        ("1. e4 e5 2. Nc3", "f4 first"),
    ]
