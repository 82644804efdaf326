"""Today: what it says of the day, what its one key offers, and the board beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.shelf import AT_ONCE, SHORT, seen, sitting, start, still_app, study_of, type_in
from tests.app.shelf import write_deck as write
from trainer.app.screens.today import TodayScreen
from trainer.app.widgets.band import Band
from trainer.app.widgets.board import BoardPicture
from trainer.app.widgets.forecast import bar_rows
from trainer.service.decks.shelving import add_deck
from trainer.service.demo import open_demo
from trainer.service.first_minute import note_introduced
from trainer.sitting.sitting import Phase


async def test_the_day_is_said_in_rows_and_one_key_starts_it(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            shown = seen(app)
            assert "Today   Thursday 3 December" in shown
            assert "4 positions, about 2 minutes" in shown
            assert "4  fresh      of 4 not met yet" in shown
            assert "Vienna: 4 today, 0 of 4 hold" in shown
            screen = await start(pilot)
            assert screen.teller.sitting.phase is Phase.LOOKING


async def test_the_band_is_a_button(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.click(Band)
            await pilot.pause()
            assert sitting(app).teller.sitting.phase is Phase.LOOKING


async def test_when_the_day_is_done_it_says_so_and_offers_what_is_left(tmp_path: Path) -> None:
    settings = f"{AT_ONCE}fresh_per_day = 1\n"
    with study_of(tmp_path, SHORT, settings=settings) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter", "enter")
            assert "Done for today     Enter  learn 3 more" in seen(app)
            assert "0  due        next: 1 position on Fri 4 Dec" in seen(app)
            await start(pilot)
            for move in ("Nc3", "f4", "Bc4"):
                await type_in(pilot, move)
                await pilot.press("enter")
            await pilot.press("enter")
            assert "Done for today. Next: 4 positions on Fri 4 Dec" in seen(app)
            await pilot.press("enter")
            assert isinstance(app.screen, TodayScreen)


async def test_a_repeat_that_is_owed_is_named(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "a3")
            await type_in(pilot, "e4")
            await pilot.press("escape", "escape")
            assert "1  once more  not known at first today" in seen(app)


async def test_many_decks_are_paged(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        for number in range(8):
            add_deck(study, write(tmp_path, SHORT, deck=f"d{number}", title=f"Deck {number}"))
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            assert "Deck 7" not in seen(app) and "PgDn" in seen(app)
            await pilot.press("pagedown", "pagedown", "pagedown")
            assert "Deck 7: 0 today, 0 of 4 hold" in seen(app)


@pytest.mark.parametrize(
    ("size", "beside"), [((80, 24), False), ((120, 40), True), ((120, 24), False)]
)
async def test_the_shakiest_position_stands_beside_where_there_is_room(
    size: tuple[int, int], beside: bool
) -> None:
    with open_demo() as study:
        note_introduced(study)
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            assert ("Shakiest today: asked" in seen(app)) is beside
            boards = app.screen.query(BoardPicture)
            assert [board.region.height for board in boards] == [25] * beside
            assert all(board.view.arrows == () for board in boards)


async def test_everything_is_in_view_at_80x24() -> None:
    with open_demo() as study:
        note_introduced(study)
        app = still_app(study)
        async with app.run_test(size=(80, 24)):
            rows = seen(app).split("\n")
            assert "hold" in "".join(rows) and "Ctrl+Q quit" in rows[23]
            assert app.screen.max_scroll_y == 0


@pytest.mark.parametrize(
    ("counts", "rows"),
    [
        ([0, 0], ["     ", "     "]),
        ([4, 2], ["██   ", "██ ██"]),
        ([100, 1], ["██   ", "██ ▁▁"]),
        ([16, 10], ["██ ▂▂", "██ ██"]),
    ],
)
def test_bars(counts: list[int], rows: list[str]) -> None:
    """Worked by hand."""
    assert bar_rows(counts, 2, 2) == rows


async def test_damaged_lines_cost_the_picture_alone(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        study.db.execute("DELETE FROM lines")
        app = still_app(study)
        async with app.run_test(size=(120, 40)) as pilot:
            await pilot.pause()
            assert "4 fresh" in " ".join(seen(app).split())
            await pilot.press("enter")
            assert isinstance(app.screen, TodayScreen)


async def test_the_shakiest_board_grows_with_the_window() -> None:
    with open_demo() as study:
        note_introduced(study)
        app = still_app(study)
        async with app.run_test(size=(120, 40)) as pilot:
            await pilot.pause()
            heights = []
            for size in ((120, 40), (160, 50), (120, 40)):
                await pilot.resize_terminal(*size)
                await pilot.pause()
                await pilot.pause()
                heights += [board.region.height for board in app.screen.query(BoardPicture)]
            assert heights == [25, 33, 25]
