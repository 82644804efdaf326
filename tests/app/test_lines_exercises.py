"""The rows below the tree of lines: tactics, questions and model games of the deck."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.kinds_deck import CHAPTERS, kinds_study, write_kinds
from tests.app.shelf import SHORT, seen, sitting, study_of, type_in
from tests.app.test_lines_screen import lines, told
from trainer.app.screens.lines import LinesScreen
from trainer.app.widgets.board import Board
from trainer.app.widgets.exercise_list import NONE, ExerciseList
from trainer.service.decks.shelving import add_deck
from trainer.sitting.cards import GuessCard, IdeaCard, TacticCard

SIZES = [(80, 24), (120, 40)]


def listed(screen: LinesScreen) -> list[str]:
    """The rows as they are, whether they are in view or not."""
    rows = screen.query_one(ExerciseList).rows
    return [f"{row.text}|{row.bar}|{row.number}".rstrip() for row in rows]


@pytest.mark.parametrize("size", SIZES)
async def test_walking_down_out_of_the_tree_and_back(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path) as study:
        async with lines(study, size) as (pilot, screen):
            assert listed(screen) == [
                "Tactics · 2 tactics|·|",
                "Games · 2 games| |",
                "  Asha Penrose – Otto Brandreth| |",
                "  Asha Penrose – Ilse Marlow| |",
                "Ideas · 3 questions|·|",
            ]
            assert screen.place == NONE and "○ 1 e4 e5" in told(pilot)
            await pilot.press("down")
            assert screen.place == 0 and "2 tactics: 2 fresh." in told(pilot)
            await pilot.press("down", "down")
            assert "You guess 4 moves of White." in told(pilot)
            assert "►  Asha Penrose" in seen(pilot.app)
            await pilot.press("end")
            assert screen.place == 4 and "►Ideas · 3 questions" in told(pilot)
            await pilot.press("up", "up", "up", "up", "up")
            assert screen.place == NONE and "2 positions from here" in told(pilot)
            await pilot.press("right")
            assert screen.here is not None and screen.here.name == "1. e4"


@pytest.mark.parametrize(
    ("downs", "kind", "count"),
    [(1, TacticCard, 2), (2, GuessCard, 2), (3, GuessCard, 1), (4, GuessCard, 1), (5, IdeaCard, 3)],
)
async def test_enter_begins_what_the_row_says(
    tmp_path: Path, downs: int, kind: type, count: int
) -> None:
    with kinds_study(tmp_path) as study:
        async with lines(study, (80, 24)) as (pilot, _):
            await pilot.press(*["down"] * downs, "enter")
            under_way = sitting(pilot.app).teller.sitting
            assert under_way.current is not None and isinstance(under_way.current.card, kind)
            assert under_way.left + 1 == count


async def test_the_score_so_far_stands_beside_a_game(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            await pilot.press(*["down"] * 4, "enter")
            await type_in(pilot, "e4")
            await pilot.press("escape", "enter")
            assert screen.place == 3, "back in the same row"
            assert listed(screen)[3] == "  Asha Penrose – Ilse Marlow| |at 2"
            assert "It goes on at guess 2: 0 of 1 found so far." in told(pilot)
            assert "f4" not in told(pilot)
            board = screen.query_one(Board).view
            assert board.last_move is not None and board.last_move.uci() == "e7e5"
            await pilot.press("enter")
            await type_in(pilot, "g4")
            await pilot.press("enter", "enter")
            assert listed(screen)[3] == "  Asha Penrose – Ilse Marlow| |1/2"
            assert "1 of 2 the last time" in told(pilot)


async def test_what_is_due_stands_at_the_edge_and_nothing_to_ask_is_said(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            await pilot.press(*["down"] * 5, "enter")
            await type_in(pilot, "d8 f7")
            await pilot.press("enter")
            await type_in(pilot, "Nf3")
            await pilot.press("enter", "question_mark", "question_mark")
            given = sitting(pilot.app).moment.headline[-1]
            await pilot.press(given, "enter")
            await pilot.press("escape", "enter")
            assert listed(screen)[4].startswith("Ideas · 3 questions|")
            assert "Nothing of it is due before" in told(pilot)
            await pilot.press("enter")
            assert isinstance(pilot.app.screen, LinesScreen)


async def test_a_click_chooses_a_row_and_a_letter_searches_the_tree(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            await pilot.click(ExerciseList, offset=(3, 1))
            assert screen.place == 1 and "Whole games in which you guess" in told(pilot)
            await type_in(pilot, "e4")
            assert screen.place == NONE
            assert screen.here is not None and screen.here.name == "1. e4"


async def test_a_closed_chapter_says_when_it_opens(tmp_path: Path) -> None:
    closed = {"games": "opens = 2027-01-01", "ideas": "after = 'lines'"}
    with kinds_study(tmp_path, more=closed) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            assert listed(screen)[1:] == ["Games · closed| |", "Ideas · closed| |"]
            await pilot.press("down", "down")
            assert "This chapter opens on Friday 1 January 2027." in told(pilot)
            await pilot.press("enter")
            assert isinstance(pilot.app.screen, LinesScreen)
            await pilot.press("down")
            assert "opens once 2 more positions of “Lines” are answered right" in told(pilot)


async def test_a_deck_without_lines(tmp_path: Path) -> None:
    only = {"ideas": CHAPTERS["ideas"]}
    with kinds_study(tmp_path, only) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            assert screen.here is None and screen.place == 0
            assert "3 questions: 3 fresh." in told(pilot)
            await pilot.press("up", "f2", "e", "enter")
            assert sitting(pilot.app).teller.sitting.current is not None


async def test_decks_one_after_the_other(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        add_deck(study, write_kinds(tmp_path / "more", {"ideas": CHAPTERS["ideas"]}))
        async with lines(study, (80, 24)) as (pilot, screen):
            assert listed(screen) == [] and screen.place == NONE
            await pilot.press("tab")
            assert screen.place == 0 and listed(screen) == ["Ideas · 3 questions|·|"]
            await pilot.press("tab")
            assert listed(screen) == [] and screen.here is not None


async def test_rows_out_of_view_are_pointed_at(tmp_path: Path) -> None:
    """At 80x24 four of the five rows are in view."""
    with kinds_study(tmp_path) as study:
        async with lines(study, (80, 24)) as (pilot, _):
            assert "↓  Asha Penrose – Ilse Marlow" in seen(pilot.app)
            await pilot.press("end", "end")
            assert "↑Games · 2 games" in seen(pilot.app)
            assert "↓  Asha" not in seen(pilot.app)
