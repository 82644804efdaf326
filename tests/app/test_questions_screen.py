"""Questions on the Sitting screen: squares, moves and choices, by keys, mouse and typing."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import chess
import pytest
from textual.pilot import Pilot

from tests.app.kinds_deck import CHAPTERS, kinds_study, practice_of
from tests.app.shelf import click_square, qualities, seen, still_app, type_in
from trainer.app.screens.sitting import SittingScreen
from trainer.app.widgets.board import Board
from trainer.app.widgets.board_side import BoardSide
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.page import Page
from trainer.service.study import Study
from trainer.sitting.sitting import Phase

SIZES = [(80, 24), (120, 40)]


@asynccontextmanager
async def asking(
    study: Study, chapter: str, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[tuple[Pilot[None], SittingScreen]]:
    """The screen at the first prompt of a chapter."""
    app = still_app(study)
    async with app.run_test(size=size) as pilot:
        screen = SittingScreen(study, practice_of(study, chapter))
        app.push_screen(screen)
        await pilot.pause()
        yield pilot, screen


def told(pilot: Pilot[None]) -> str:
    """The words of the desk, without the board."""
    left = pilot.app.screen.query(BoardSide).first(BoardSide).outer_size.width
    return " ".join(" ".join(row[left:] for row in seen(pilot.app).split("\n")).split())


def keys(screen: SittingScreen) -> set[str]:
    """What the key bar offers."""
    return {f"{key.key} {key.description}" for key in screen.query(KeyBar).first().shown}


def marked(screen: SittingScreen) -> set[str]:
    """The squares with the mark of chosen ones."""
    shown = screen.query_one(Board).shown()
    return {chess.square_name(square) for square in shown.chosen}


@pytest.mark.parametrize("size", SIZES)
async def test_squares_by_typing(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas", size) as (pilot, screen):
            assert "Which squares near Black's king" in told(pilot)
            await type_in(pilot, "f7 d", enter=False)
            assert marked(screen) == {"f7"} and "1 square" in told(pilot)
            await type_in(pilot, "8", enter=False)
            assert marked(screen) == {"f7", "d8"} and "2 squares" in told(pilot)
            await pilot.press("enter")
            assert "Right, first try" in told(pilot) and marked(screen) == {"f7", "d8"}
            await pilot.press("enter")
            assert marked(screen) == set()
        assert qualities(study) == [5]


@pytest.mark.parametrize("size", SIZES)
async def test_squares_by_mouse(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas", size) as (pilot, screen):
            for name in ("f7", "e4", "d8", "e4"):
                await click_square(pilot, name)
            assert marked(screen) == {"f7", "d8"}
            assert screen.desk.box.value == "f7 d8"
            await pilot.press("enter")
        assert qualities(study) == [5]


async def test_squares_by_the_cursor(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await pilot.press("tab")  # the cursor begins on White's king
            await pilot.press("right", *["up"] * 6, "space", "up", "space", "space")
            await pilot.press("left", "left", "space")
            assert marked(screen) == {"f7", "d8"}
            await pilot.press("enter")
            assert "Right, first try" in told(pilot)
        assert qualities(study) == [5]


async def test_esc_empties_the_choice(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await click_square(pilot, "e4")
            await pilot.press("escape")
            assert marked(screen) == set()
            assert screen.teller.sitting.phase is Phase.ASKING
            await pilot.press("enter")
            assert screen.teller.sitting.phase is Phase.ASKING
            assert screen.moment.missed == ()


async def test_wrong_squares_are_taken_back_and_marked_in_the_end(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await type_in(pilot, "f7 e5")
            assert "No, not e5 f7" in told(pilot) and marked(screen) == {"f7", "e5"}
            assert not screen.query_one(Board).interactive
            await pilot.pause(1.1)
            assert marked(screen) == set() and screen.query_one(Board).interactive
            await type_in(pilot, "d8 f7")
            view = screen.query_one(Board).view
            assert (view.chosen, view.wrong) == ({chess.D8, chess.F7}, {chess.E5})
        assert qualities(study) == [2]


async def test_no_piece_is_moved_where_squares_are_asked(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await click_square(pilot, "g1")
            await click_square(pilot, "f3")
            assert screen.desk.box.value == "g1 f3"
            assert screen.query_one(Board).held is None


async def test_a_move_is_played_on_the_board(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, _):
            await type_in(pilot, "d8 f7")
            await pilot.press("enter")
            assert "How does White attack e5 at once?" in told(pilot)
            await click_square(pilot, "g1")
            await click_square(pilot, "f3")
            assert "Right, first try" in told(pilot) and "The knight hits e5." in told(pilot)
        assert qualities(study) == [5, 5]


CHOICE = "\n".join(["[[idea]]", *CHAPTERS["ideas"].split("[[idea]]")[3].splitlines()])
ONLY_CHOICE = {"ideas": CHOICE}


@pytest.mark.parametrize("size", SIZES)
async def test_an_answer_by_its_digit(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path, ONLY_CHOICE) as study:
        async with asking(study, "ideas", size) as (pilot, screen):
            assert "1 a knight" in told(pilot) and "2 a pawn" in told(pilot)
            assert "enter answer" in keys(screen) and "tab,shift+tab board" not in keys(screen)
            await pilot.press("3", "enter")
            assert "No, not answer 3" in told(pilot) and "3 × the queen" in told(pilot)
            await pilot.press("2")
            assert screen.teller.sitting.phase is Phase.ASKING, "Enter answers, as everywhere"
            await pilot.press("enter")
            assert "2 ● a pawn" in told(pilot) and "The f-pawn." in told(pilot)
        assert qualities(study) == [2]


async def test_an_answer_by_the_arrows(tmp_path: Path) -> None:
    with kinds_study(tmp_path, ONLY_CHOICE) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await pilot.press("enter")
            assert screen.moment.missed == (), "nothing is pointed at, nothing is answered"
            await pilot.press("up")
            assert "►3 the queen" in told(pilot)
            await pilot.press("down", "down")
            assert "►2 a pawn" in told(pilot)
            await pilot.press("enter")
            assert screen.teller.sitting.phase is Phase.ANSWERED
        assert qualities(study) == [5]


async def test_an_answer_by_a_click(tmp_path: Path) -> None:
    with kinds_study(tmp_path, ONLY_CHOICE) as study:
        async with asking(study, "ideas") as (pilot, screen):
            rows = seen(pilot.app).split("\n")
            row = next(n for n, text in enumerate(rows) if "a pawn" in text)
            await pilot.click(offset=(rows[row].index("a pawn") + 2, row))
            assert screen.teller.sitting.phase is Phase.ANSWERED
            await pilot.click(offset=(rows[row].index("a pawn") + 2, row))
        assert qualities(study) == [5]


async def test_words_and_questions_are_typed_where_a_digit_answers(tmp_path: Path) -> None:
    with kinds_study(tmp_path, ONLY_CHOICE) as study:
        async with asking(study, "ideas") as (pilot, screen):
            await type_in(pilot, "e4?")
            assert "white pawn" in told(pilot) and screen.moment.missed == ()
            await pilot.press("question_mark")
            assert "A question has no hint." in told(pilot)
            await pilot.press("question_mark")
            assert "The answer is 2" in told(pilot) and "2 ● a pawn" in told(pilot)
            await pilot.press("2", "enter")
        assert qualities(study) == [0]


QUESTION = "Which of these plans is the first that this course wants you to try? " * 28
ANSWERS = [
    f"{number} {'a rather long answer that goes on for some rows ' * 4}"[:200]
    for number in range(9)
]
LONG = (
    f'[[idea]]\nafter = "1. e4 e5"\nask = "{QUESTION[:2000]}"\n'
    f"choose = {ANSWERS}\nwhy = 'So it is.'\n"
)


@pytest.mark.parametrize("size", [(80, 24), (73, 20), (160, 50)])
async def test_the_longest_question_can_be_read_to_its_end(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    with kinds_study(tmp_path, {"ideas": LONG}) as study:
        async with asking(study, "ideas", size) as (pilot, screen):
            words = []
            page = screen.query_one(Page)
            for _ in range(40):
                words.append(told(pilot))
                await pilot.press("pagedown")
                if told(pilot) == words[-1]:
                    break
            assert "Which answer?" in words[0]
            assert f"9 {ANSWERS[8][:22]}" in " ".join(words)
            await pilot.press("up")
            assert page.pointed == "9" and "►9" in told(pilot)
            await pilot.press("down")
            assert page.pointed == "1" and "►1" in told(pilot)
            await pilot.press("enter")
            assert screen.teller.sitting.phase is Phase.ANSWERED
            assert "So it is." in told(pilot)


async def test_the_help_tells_of_questions(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "ideas") as (pilot, screen):
            assert {"enter answer", "question_mark show"} <= keys(screen)
            await pilot.press("f4")
            assert "Give the answer that is chosen." in " ".join(seen(pilot.app).split())
