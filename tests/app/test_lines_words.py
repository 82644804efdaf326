"""What the Lines screen says of a place, as blocks."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.small_decks import FIRST, SECOND, write_deck
from trainer.app.telling.blocks import Block, Gauges, Paragraph, Rows
from trainer.app.telling.here import Here
from trainer.app.telling.lines import heading, opens, say
from trainer.lines.stretches import Spot
from trainer.service.card_history import CardHistory
from trainer.service.decks.shelving import add_deck
from trainer.service.lines_report import ChapterHere, LinesReport, report_lines
from trainer.service.lines_search import search
from trainer.service.study import open_study

TAGS = '[Event "The slow one"]\n\n{An idea first.} '


@pytest.fixture
def report(home: Path, tmp_path: Path) -> LinesReport:
    chapters = {"first": FIRST, "second": SECOND, "slow": TAGS + "1. e4 c5 2. Nc3 {Calm.} Nc6 *"}
    more = {"second": "opens = 2026-12-08"}
    with open_study(home) as study:
        add_deck(study, write_deck(tmp_path / "d", chapters, more=more))
        found = report_lines(study)
        assert found is not None
        return found


def at(report: LinesReport, line: str) -> Here:
    if not line:
        return Here(report, Spot(0, 0))
    (found,) = search(report, line, Spot(0, 0))
    return Here(report, found.spot)


def texts(blocks: tuple[Block, ...]) -> list[str]:
    """Paragraphs, and rows with their heading."""
    found = []
    for block in blocks:
        if isinstance(block, Paragraph):
            found.append(block.text)
        elif isinstance(block, Rows):
            rows = "; ".join(" ".join(row).strip() for row in block.rows)
            found.append(f"{block.heading}: {rows}".removeprefix(": "))
        elif isinstance(block, Gauges):
            found.append(f"{block.heading}: {', '.join(label for label, _, _ in block.rows)}")
    return found


@pytest.mark.parametrize(
    ("line", "sentences"),
    [
        (
            "",
            [
                "7 positions from here: 7 fresh.",
                "Chapters: 1 Chapter first; 2 Chapter second: opens on Tue 8 Dec; 3 Chapter slow",
                "The slow one: An idea first.",
                "You play 1. e4.",
            ],
        ),
        ("e4", ["They reply: 1... e5, 1... c5", "They reply 1... e5, c5."]),
        (
            "e4 e5 Nc3",
            [
                "Guards e4 before f2-f4.",
                "Not 2. Nf3 (sound, not ours): Sound, but another course.",
                "Not 2. Qh5: The queen is chased: 2... Nc6 and 3... g6. 2... Nc6 3. Bc4 g6",
                "They reply 2... Nf6 60%.",
                "More from here later: “Chapter second” opens on Tue 8 Dec.",
                "Stands in: chapter Chapter first; game The gambit",
            ],
        ),
        ("e4 e5 Nc3 Nf6", ["Played by 60%.", "Hits e4.", "You play 3. f4 or Bc4."]),
        ("e4 e5 Nc3 Nf6 Bc4", ["Right as well; the deck's move is 3. f4."]),
        ("e4 e5 Nc3 Nf6 f4", ["arrows G f4 to e5; squares R e5"]),
        ("e4 c5 Nc3 Nc6", ["Nothing more is asked from here on.", "The line ends here."]),
    ],
)
def test_what_is_said(report: LinesReport, line: str, sentences: list[str]) -> None:
    told = texts(say(at(report, line), None).page)
    assert [text for text in told if text in sentences] == sentences


@pytest.mark.parametrize(
    ("line", "title", "name", "standing"),
    [
        ("", "Small", "Start", "fresh"),
        ("e4", "Small", "1. e4", "fresh"),
        ("e4 e5 Nc3 Nf6 f4 d5", "Chapter first", "3... d5", "fresh"),
        ("e4 c5 Nc3 Nc6", "Chapter slow", "2... Nc6", ""),
    ],
)
def test_names(report: LinesReport, line: str, title: str, name: str, standing: str) -> None:
    said = say(at(report, line), None)
    assert (said.title, said.name, said.standing) == (title, name, standing)


def test_the_history_of_the_card(report: LinesReport) -> None:
    history = CardHistory((5, 2), date(2026, 12, 1))
    told = texts(say(at(report, "e4"), history).page)
    assert any(text.startswith("This position: scores ▇▃") for text in told)
    assert not any("This position" in text for text in texts(say(at(report, "e4"), None).page))


def test_the_caption_and_the_position_in_words(report: LinesReport) -> None:
    here = at(report, "e4 e5 Nc3 Nf6 f4 d5 fxe5")
    assert here.caption == "White: pawn f4 takes on e5. Black to move."
    assert here.read_out()[:2] == ["Black to move.", "Last move: White, pawn f4 takes on e5."]
    assert at(report, "").caption == "The line begins here. White to move."


def test_the_heading(report: LinesReport) -> None:
    assert heading(report) == "Small · White · 7 positions to know"


@pytest.mark.parametrize(
    ("chapter", "words"),
    [
        (ChapterHere("x", "X", False, date(2026, 12, 1)), "opens on Tue 1 Dec"),
        (ChapterHere("x", "X", False, None, "Y"), "opens after “Y”"),
        (ChapterHere("x", "X", False, date(2026, 12, 1), "Y"), "opens on Tue 1 Dec after “Y”"),
    ],
)
def test_when_a_chapter_opens(chapter: ChapterHere, words: str) -> None:
    assert opens(chapter) == words
