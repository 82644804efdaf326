"""The first minute: it comes by itself once, can be left and called again, and keeps nothing."""

from __future__ import annotations

from pathlib import Path

from tests.app.shelf import (
    AT_ONCE,
    SHORT,
    click_square,
    qualities,
    seen,
    sitting,
    still_app,
    study_of,
    type_in,
)
from trainer.app.app import TrainerApp
from trainer.app.screens.introduction import IntroductionScreen
from trainer.app.screens.sitting import SittingScreen
from trainer.app.screens.today import TodayScreen
from trainer.service.introduction import prepare_introduction
from trainer.service.preparation import Wish, prepare_practice
from trainer.sitting.sitting import Phase


async def test_it_comes_once_and_can_be_called_again(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, introduced=False) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert isinstance(app.screen, IntroductionScreen)
            await pilot.press("escape")
            assert isinstance(app.screen, TodayScreen)
        again = still_app(study)
        async with again.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert isinstance(again.screen, TodayScreen)
            await pilot.press("i")
            assert isinstance(again.screen, IntroductionScreen)


async def test_it_is_played_through_and_nothing_is_kept(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, introduced=False) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert "type e4" in seen(app)
            await type_in(pilot, "e4")
            assert "In book, first try" in seen(app)
            await pilot.press("enter")
            for square in ("g1", "f3"):
                await click_square(pilot, square)
            await pilot.press("enter", "question_mark")
            assert "The bishop on f1 moves." in seen(app)
            await pilot.press("question_mark")
            await type_in(pilot, "Bc4")
            await pilot.press("ctrl+z")  # taken back, and shown as before
            await pilot.press("question_mark", "question_mark")
            await type_in(pilot, "Bc4")
            await pilot.press("enter")
            await type_in(pilot, "O-O")
            await pilot.press("enter")
            assert "once more" in seen(app)
            await type_in(pilot, "Bc4")
            await pilot.press("enter")
            assert sitting(app).teller.sitting.phase is Phase.ENDED
            assert "You never grade yourself" in seen(app)
            await pilot.press("enter")
            assert isinstance(app.screen, TodayScreen)
        assert qualities(study) == []


def test_it_says_something_at_each_of_its_moves(tmp_path: Path) -> None:
    from trainer.app.telling.guide import ADVICE

    with study_of(tmp_path, introduced=False) as study:
        ahead = prepare_introduction(study).sitting.ahead
        assert [prompt.card.line for prompt in ahead] == list(ADVICE)
        assert all(prompt.card.move.note for prompt in ahead)


async def test_it_does_not_come_over_a_sitting(tmp_path: Path) -> None:
    """`trainer practice` opens a sitting at once."""
    with study_of(tmp_path, SHORT, settings=AT_ONCE, introduced=False) as study:
        app = TrainerApp(study, prepare_practice(study, Wish()))
        app.animation_level = "none"
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert type(app.screen) is SittingScreen
            await type_in(pilot, "e4")
        assert qualities(study) == [5]


async def test_it_comes_once_though_the_home_cannot_keep_it(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, introduced=False) as study:
        study.home.introduced_file.symlink_to(tmp_path / "nowhere" / "at all")
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            await pilot.press("escape")
            assert isinstance(app.screen, TodayScreen)
