"""Help: made from the bindings, so that none is forgotten and none is made up."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from textual.binding import Binding

from tests.app.shelf import AT_ONCE, SHORT, seen, start, still_app, study_of
from trainer.app.app import TrainerApp
from trainer.app.helping import REST, WITHOUT_A_SCREEN, help_blocks
from trainer.app.key_names import key_name
from trainer.app.screens.help import HelpScreen
from trainer.app.screens.sitting import SittingScreen
from trainer.app.screens.today import TodayScreen
from trainer.app.screens.welcome import WelcomeScreen
from trainer.app.telling.blocks import Paragraph, Rows
from trainer.app.widgets.board import Board
from trainer.app.widgets.move_box import MoveBox


def every_binding() -> Iterator[Binding]:
    for kind in (
        TrainerApp,
        TodayScreen,
        SittingScreen,
        WelcomeScreen,
        HelpScreen,
        MoveBox,
        Board,
    ):
        for binding in kind.BINDINGS:
            assert isinstance(binding, Binding)
            yield binding


def test_every_binding_has_an_id_a_description_and_a_tooltip() -> None:
    for binding in every_binding():
        assert binding.id and binding.description and binding.tooltip.endswith("."), binding


def test_no_id_stands_for_two_actions() -> None:
    actions: dict[str, str] = {}
    for binding in every_binding():
        assert binding.id is not None
        assert actions.setdefault(binding.id, binding.action) == binding.action


async def test_the_help_of_a_sitting_lists_what_works_now(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            blocks = help_blocks(screen)
            assert blocks[0] == Paragraph(WITHOUT_A_SCREEN)
            assert blocks[-1] == Paragraph(REST)
            keys, *of_widgets = (block for block in blocks if isinstance(block, Rows))
            told = dict(keys.rows)
            assert told["Enter"] == "Play the move that is typed."
            assert told["Esc"] == "Stop here; every answer is saved."
            assert "?" in told and "F2" in told and "F4" in told and "Ctrl+Q" in told
            assert [block.heading for block in of_widgets] == [
                "Keys while the board has the focus",
                "Keys while the box has the focus",
            ]


async def test_f4_opens_and_closes_it_everywhere(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("f4")
            assert "Help: Today" in seen(app)
            await pilot.press("f4")
            screen = await start(pilot)
            await pilot.press("f4")
            assert "Help: Sitting" in seen(app) and "--plain" in seen(app)
            await pilot.press("pagedown", "pagedown", "pagedown", "pagedown")
            assert "good for the eyes" in " ".join(seen(app).split())
            await pilot.press("escape")
            assert app.screen is screen


@pytest.mark.parametrize(
    ("key", "name"),
    [
        ("enter", "Enter"),
        ("f4", "F4"),
        ("ctrl+z", "Ctrl+Z"),
        ("question_mark", "?"),
        ("pagedown", "PgDn"),
        ("ctrl+left", "Ctrl+←"),
    ],
)
def test_key_names(key: str, name: str) -> None:
    assert key_name(key) == name
