"""Text from a deck is never markup: it is shown as it is, and starts nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.shelf import AT_ONCE, seen, start, study_of, type_in
from trainer.app.app import TrainerApp

NASTY = "[/x] [e4] [@click=app.quit]x[/] [b"

GAME = """
1. e4 {%s} (1. c4 {Aside %s [%%aside]}) (1. f3? {Bad %s} 1... e5 {%s} 2. g4) 1... e5
2. Nc3 {%s [%%theme [/x] [e4], [@click=app.quit]x[/]]} *
""" % ((NASTY,) * 5)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("first_look", [AT_ONCE, ""])
async def test_it_passes_through_every_screen(
    tmp_path: Path, size: tuple[int, int], first_look: str
) -> None:
    with study_of(tmp_path, GAME, settings=first_look, title=NASTY, chapter=NASTY) as study:
        app = TrainerApp(study)
        app.animation_level = "none"
        async with app.run_test(size=size, notifications=True, tooltips=True) as pilot:
            assert NASTY in seen(app)
            await start(pilot)
            assert "[/x] [e4]" in seen(app)
            if not first_look:
                await pilot.press("enter", "enter")
            await type_in(pilot, "c4")
            assert "Aside [/x] [e4]" in seen(app)
            await type_in(pilot, "f3")
            assert "Bad [/x] [e4]" in seen(app)
            await type_in(pilot, "e4")
            assert "[@click=app.quit]x[/]" in " ".join(seen(app).split())
            for row in range(size[1]):
                await pilot.click(offset=(size[0] - 25, row))
            await pilot.press("f4", "escape", "enter")
            await type_in(pilot, "Nc3")
            await pilot.press("escape")
            assert app.is_running
            await pilot.press("enter")
            assert NASTY in seen(app)


async def test_what_is_typed_or_pasted_is_shown_as_it_is(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME, settings=AT_ONCE) as study:
        app = TrainerApp(study)
        async with app.run_test(size=(120, 40)) as pilot:
            screen = await start(pilot)
            box = screen.query_one("#box")
            box.insert_text_at_cursor("[/x]\x1b[31m\u202e")  # type: ignore[attr-defined]
            assert box.value == "[/x][31m"  # type: ignore[attr-defined]
            await pilot.press("enter")
            assert '"[/x][31m" is no move' in seen(app)


async def test_a_sentence_of_the_settings_is_shown_as_it_is(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME, settings='theme = "[/x]"\nmotion = "[b"\n') as study:
        app = TrainerApp(study)
        async with app.run_test(size=(120, 40), notifications=True) as pilot:
            await pilot.pause()
            assert "theme = '[/x]' is not known" in seen(app)
            assert "motion = '[b' cannot be used" in " ".join(seen(app).split())
