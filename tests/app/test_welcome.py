"""The first start without a deck."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.shelf import seen, still_app, study_of
from trainer.app.screens.today import TodayScreen
from trainer.app.screens.welcome import WelcomeScreen
from trainer.app.widgets.band import Band
from trainer.errors import TrainerError
from trainer.store.decks import read_decks


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_one_key_adds_the_shipped_deck(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            assert isinstance(app.screen, WelcomeScreen)
            assert "The Vienna" in seen(app) and "trainer deck add PATH" in seen(app)
            await pilot.press("enter")
            await pilot.pause()
            assert isinstance(app.screen, TodayScreen)
            assert "10 positions" in seen(app)
        assert [deck.id for deck in read_decks(study.db)] == ["vienna"]


async def test_the_band_adds_it_too(tmp_path: Path) -> None:
    with study_of(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            await pilot.click(Band)
            await pilot.pause()
        assert [deck.id for deck in read_decks(study.db)] == ["vienna"]


@pytest.mark.parametrize("way_out", ["escape", "ctrl+q"])
async def test_leaving_adds_nothing(tmp_path: Path, way_out: str) -> None:
    with study_of(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert "Esc leave" in seen(app) and "Ctrl+Q quit" in seen(app)
            await pilot.press(way_out)
        assert app.return_code == 0
        assert read_decks(study.db) == []


async def test_an_installation_without_its_deck_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def missing(*_: object) -> Path:
        raise TrainerError("decks/vienna is missing from this installation; install it again")

    monkeypatch.setattr("trainer.service.first_deck.shipped", missing)
    with study_of(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24), notifications=True) as pilot:
            await pilot.pause()
            assert "missing" in seen(app) and "No deck to offer" in seen(app)
            await pilot.press("enter")
            assert isinstance(app.screen, WelcomeScreen)
