"""Text from a deck is never markup: it is shown as it is, and starts nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.kinds_deck import kinds_study, practice_of
from tests.app.shelf import AT_ONCE, seen, start, study_of, type_in
from trainer.app.app import TrainerApp
from trainer.app.screens.sitting import SittingScreen

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


def _nasty_kinds() -> dict[str, str]:
    quoted = NASTY.replace('"', "")
    position = '[SetUp "1"]\n[FEN "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1"]\n'
    return {
        "lines": "1. e4 e5 *",
        "tactics": f'[Event "{quoted}"]\n{position}\n'
        f"{{Intro {NASTY}}} 1. Ra8# {{Won {NASTY}}} (1. Ra7 {{Not {NASTY} [%aside]}}) *",
        "games": f'[Event "{quoted}"]\n[White "{quoted}"]\n[Black "{quoted}"]\n[Result "*"]\n\n'
        f"{{Intro {NASTY}}} 1. e4 {{Played {NASTY}}} (1. d3 {{Also {NASTY}}}) e5 *",
        "ideas": f"[[idea]]\nafter = '1. e4'\nask = '{NASTY}'\n"
        f"choose = ['{NASTY} a', '{NASTY} b']\nwhy = 'Why {NASTY}'\n",
    }


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_it_passes_through_every_kind(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path, _nasty_kinds(), title=NASTY) as study:
        for chapter, tries in (("tactics", ["Ra7"]), ("games", ["d3"]), ("ideas", ["2", "1"])):
            app = TrainerApp(study)
            app.animation_level = "none"
            async with app.run_test(size=size) as pilot:
                app.push_screen(SittingScreen(study, practice_of(study, chapter)))
                await pilot.pause()
                assert "[/x] [e4]" in seen(app), chapter
                for text in tries:
                    await type_in(pilot, text)
                    assert "[/x] [e4]" in seen(app), (chapter, text)
                await pilot.press("enter", "escape")
                assert app.is_running
        app = TrainerApp(study)
        async with app.run_test(size=size) as pilot:
            await pilot.press("l", "down", "down", "down")
            assert "[/x] [e4]" in seen(app)


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
