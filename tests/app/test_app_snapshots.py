"""The screens as they look, text and colours, at the two sizes that matter most."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.kinds_deck import kinds_study, practice_of
from tests.app.pictures import check
from tests.app.shelf import AT_ONCE, SHORT, still_app, study_of, type_in
from trainer.app.screens.sitting import SittingScreen
from trainer.app.widgets.board_side import TRY_SECONDS
from trainer.service.preparation import Wish, prepare_practice

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_today(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            check(app, f"today-{size[0]}x{size[1]}")


@pytest.mark.parametrize("size", SIZES)
async def test_an_answer(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: 0.0))
            await pilot.pause()
            await type_in(pilot, "e4")
            await pilot.press("enter")
            await type_in(pilot, "Qh5")
            await type_in(pilot, "Nc3")
            check(app, f"answered-{size[0]}x{size[1]}")


async def test_a_question(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=f'{AT_ONCE}theme = "textual-light"\n') as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: 0.0))
            await pilot.pause()
            await type_in(pilot, "e4", enter=False)
            check(app, "asked-light-80x24")


async def test_another_theme_repaints_everything(tmp_path: Path) -> None:
    """What a sitting looks like under a theme does not depend on the theme before."""
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: 0.0))
            await pilot.pause()
            await type_in(pilot, "e4", enter=False)
            app.theme = "textual-light"
            await pilot.pause()
            check(app, "asked-light-80x24")


@pytest.mark.parametrize("size", SIZES)
async def test_the_lines(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings='theme = "textual-light"\n') as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.press("l", "right", "right", "right", "down")
            check(app, f"lines-{size[0]}x{size[1]}")


KINDS = [
    ("squares-80x24", "ideas", (80, 24), ["f7 e4", "f7 d8"]),
    ("choices-80x24", "ideas", (80, 24), ["f7 d8", "", "Nf3", "", "3"]),
    ("reply-120x40", "tactics", (120, 40), ["Ra8", "", "Nc7"]),
    ("rest-80x24", "tactics", (80, 24), ["Ra8", "", "Kd1"]),
    ("guess-120x40", "games", (120, 40), ["e4", "", "d4"]),
]


@pytest.mark.parametrize(("name", "chapter", "size", "texts"), KINDS, ids=[k[0] for k in KINDS])
async def test_the_other_kinds(
    tmp_path: Path, name: str, chapter: str, size: tuple[int, int], texts: list[str]
) -> None:
    with kinds_study(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            app.push_screen(SittingScreen(study, practice_of(study, chapter), lambda: 0.0))
            await pilot.pause()
            for text in texts:
                await type_in(pilot, text)
            await pilot.pause(TRY_SECONDS + 0.2)
            check(app, name)


async def test_the_lines_with_the_rows_below(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("l", "down", "down", "down")
            check(app, "rows-below-80x24")


async def test_the_end(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: 0.0))
            await pilot.pause()
            await type_in(pilot, "d4")
            await type_in(pilot, "e4")
            await pilot.press("escape")
            check(app, "summary-80x24")


async def test_the_help_and_the_first_minute(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, introduced=False) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            check(app, "introduction-80x24")
            await pilot.press("f4")
            check(app, "help-80x24")


@pytest.mark.parametrize("size", [(10, 3), (40, 10), (73, 20), (78, 24), (84, 27), (200, 60)])
async def test_no_size_breaks_a_screen(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.press("f4", "escape", "enter")
            await pilot.resize_terminal(*reversed(size))
            await pilot.press("escape", "enter")
            assert app.is_running
