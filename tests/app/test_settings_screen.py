"""The Settings screen: every change is in the file, and holds, at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.app.shelf import SHORT, seen, still_app, study_of, type_in
from trainer.app.screens.settings import SettingsScreen
from trainer.app.screens.settings_rows import said, setting_entries, stepped
from trainer.app.widgets.setting_list import SettingList
from trainer.service.settings import Settings
from trainer.service.settings.declared import SETTINGS
from trainer.service.study import Study

NAMES = [setting.name for setting in SETTINGS]


async def opened(pilot: Pilot[None], study: Study) -> SettingsScreen:
    screen = SettingsScreen(study)
    pilot.app.push_screen(screen)
    await pilot.pause()
    return screen


async def go_to(pilot: Pilot[None], screen: SettingsScreen, label: str) -> None:
    """Choose the row of this label."""
    rows = screen.query_one(SettingList).rows
    screen.action_move(-len(rows))
    screen.action_move([row.label for row in rows].index(label))
    await pilot.pause()


def text_of(study: Study) -> str:
    return study.home.settings_file.read_text(encoding="utf-8")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_choice_is_stepped_through(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings="# mine\n") as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            screen = await opened(pilot, study)
            shown = seen(app)
            assert all(name.replace("_", " ") in shown for name in NAMES)
            assert "settings.toml" in shown.splitlines()[0]
            assert "A right first try within this many seconds" in shown
            await go_to(pilot, screen, "board size")
            assert "largest · large · medium · small" in " ".join(seen(app).split())
            await pilot.press("right")
            assert study.settings.board_size == "large"
            assert text_of(study).startswith('# mine\nboard_size = "large"')
            assert "saved · board size: large" in seen(app)
            assert "• large" in seen(app)
            await pilot.press("left", "left")
            assert study.settings.board_size == "small"
            await pilot.press("delete")
            assert study.settings.board_size == "largest"
            assert text_of(study) == "# mine\n"
            await pilot.press("escape")
            assert app.screen is not screen


async def test_a_number_and_a_time_are_typed(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            await pilot.press("enter")
            await type_in(pilot, "xyz")
            assert "wanted: a number of seconds above 0" in seen(app)
            assert text_of(study) == ""
            await pilot.press("ctrl+u")
            await type_in(pilot, "6,5")
            assert study.settings.hesitation_seconds == 6.5
            await go_to(pilot, screen, "day starts")
            await pilot.press("enter")
            await type_in(pilot, "5:30")
            assert 'day_starts = "05:30"' in text_of(study)
            await pilot.press("enter", "9", "escape")
            assert app.screen is screen and said(study.settings.day_starts) == "05:30"


async def test_a_theme_is_seen_at_once(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            await go_to(pilot, screen, "theme")
            await pilot.press("right")
            assert app.theme == study.settings.theme == "textual-light"
            await pilot.press("delete")
            assert app.theme == "textual-dark"


async def test_a_key_is_pressed(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            await go_to(pilot, screen, "Take the last answer back")
            assert "Keys: Sitting" in [row.section for row in screen.query_one(SettingList).rows]
            await pilot.press("enter", "n")
            assert "n is needed to type moves" in seen(app)
            await pilot.press("ctrl+q")
            assert "Ctrl+Q is quit (app.quit) on Sitting" in seen(app)
            assert text_of(study) == "" and app.is_running
            await pilot.press("f7")
            assert text_of(study) == '[keys]\n"sitting.undo" = "f7"\n'
            assert app.keys_in_force["sitting.undo"] == "f7"
            assert "saved · Take the last answer back: F7" in seen(app)
            await pilot.press("enter", "escape", "delete")
            assert text_of(study) == "[keys]\n" and app.keys_in_force == {}


async def test_its_own_keys_change_at_once(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            await go_to(pilot, screen, "Back; all is saved")
            await pilot.press("enter", "f9")
            await pilot.pause()
            assert "F9 back" in seen(app).splitlines()[-1]
            await pilot.press("escape")
            assert app.screen is screen
            await pilot.press("f9")
            assert app.screen is not screen


async def test_what_is_wrong_in_the_file_comes_first(tmp_path: Path) -> None:
    wrong = 'fresh_per_day = "[/x]"\nthem = "nord"\ntheme = "no\\u001bne"\n[keys]\na.b = "f7"\n'
    with study_of(tmp_path, SHORT, settings=wrong) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24), notifications=True) as pilot:
            screen = await opened(pilot, study)
            shown = seen(app)
            for sentence in (
                "line 1: fresh_per_day = '[/x]' cannot be used",
                "line 2: them is no setting (did you mean theme?)",
                "line 3: theme = 'no\\x1bne' is not known; textual-dark holds",
                "line 5: a.b = 'f7' is not taken: there is no such step",
            ):
                assert sentence in shown
            assert "10 holds for this run" in shown
            await go_to(pilot, screen, "fresh per day")
            await pilot.press("delete")
            assert text_of(study) == wrong.partition("\n")[2]
            assert "cannot be used" not in seen(app)


async def test_a_broken_file_is_not_written(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings="motion = =\n") as study:
        app = still_app(study)
        async with app.run_test(size=(120, 40)) as pilot:
            screen = await opened(pilot, study)
            assert "line 1, column 10: invalid value" in seen(app)
            await go_to(pilot, screen, "motion")
            await pilot.press("enter")
            assert "× not saved:" in seen(app)
            assert text_of(study) == "motion = =\n" and study.settings.motion


async def test_a_click_chooses(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            await pilot.click(SettingList, offset=(4, 3))
            assert screen.query_one(SettingList).chosen == 3
            assert "before it is asked, or ask it at once" in " ".join(seen(app).split())


async def test_the_end_of_the_list_can_be_reached(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await opened(pilot, study)
            rows = screen.query_one(SettingList)
            await pilot.press("end")
            last = rows.rows[-1].label
            assert rows.chosen == len(rows.rows) - 1 and f"► {last[:30]}" in seen(app)
            await pilot.press("home")
            assert "► hesitation seconds" in seen(app)
            await pilot.press("pagedown", "up")
            assert 0 < rows.chosen < rows.screenful


# Worked by hand.
@pytest.mark.parametrize(
    ("value", "by", "after"),
    [("a", 1, "b"), ("c", 1, "a"), ("a", -1, "c"), ("gone", 1, "a"), ("gone", -1, "a")],
)
def test_values_go_round(value: str, by: int, after: str) -> None:
    assert stepped(("a", "b", "c"), value, by) == after


def test_each_setting_is_listed_as_it_is_written(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        for entry, setting in zip(setting_entries(study.file, ["x"]), SETTINGS, strict=True):
            line = str(entry.about[1])
            assert setting.name in line and said(getattr(Settings(), setting.name)) in line
