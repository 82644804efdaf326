"""Widgets of Textual's own, as they are rendered in this program, can be read in every theme."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.color import Color
from textual.theme import BUILTIN_THEMES
from textual.widgets import Input

from tests.app.shelf import SHORT, still_app, study_of
from trainer.app.colours import TEXT, contrast

THEMES = [theme.name for theme in BUILTIN_THEMES.values() if not theme.ansi]


def readable_on(ink: Color, paper: Color) -> bool:
    return contrast(paper.blend(ink, ink.a, 1.0).hex6, paper.hex6) >= TEXT


async def test_notices_and_typed_values(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24), notifications=True) as pilot:
            await pilot.press("s", "down", "enter")  # how many fresh ones a day, typed
            app.notify("It could not be saved.", title="Not saved", severity="error", timeout=60)
            await pilot.pause()
            toast, typed = app.screen.query("Toast").first(), app.screen.query_one("#typed", Input)
            unread = []
            for name in THEMES:
                app.theme = name
                await pilot.pause()
                paper = toast.background_colors[1]
                title = toast.get_component_styles("toast--title")
                selection = typed.get_component_styles("input--selection")
                cursor = typed.get_component_styles("input--cursor")
                box = typed.background_colors[1]
                pairs = {
                    "notice": (toast.styles.color, paper),
                    "its title": (title.color, paper),
                    "typed": (typed.styles.color, box),
                    "selected": (selection.color, selection.background),
                    "cursor": (cursor.color, cursor.background),
                }
                unread += [(name, what) for what, pair in pairs.items() if not readable_on(*pair)]
            assert unread == []


@pytest.mark.parametrize(("ink", "read"), [("#000000", True), ("#bbbbbb", False)])
def test_the_measure_tells_them_apart(ink: str, read: bool) -> None:
    assert readable_on(Color.parse(ink), Color.parse("#ffffff")) is read
