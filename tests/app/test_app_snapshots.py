"""The screens as they look, text and colours, at the two sizes that matter most."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.pictures import check
from tests.app.shelf import AT_ONCE, SHORT, still_app, study_of, type_in
from trainer.app.screens.sitting import SittingScreen
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
