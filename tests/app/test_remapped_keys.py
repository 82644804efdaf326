"""Keys of one's own in the running program: they do what the old ones did, and are shown."""

from __future__ import annotations

from pathlib import Path

from textual.app import App
from textual.events import Key

from tests.app.shelf import AT_ONCE, SHORT, qualities, seen, start, still_app, study_of, type_in
from trainer.app.helping import help_blocks
from trainer.app.telling.blocks import Rows
from trainer.app.widgets.move_box import MoveBox
from trainer.sitting.sitting import Phase


def shown_keys(app: App[None]) -> dict[str, str]:
    """What the help says of the screen in front: what a key does to its name."""
    rows = [block.rows for block in help_blocks(app.screen) if isinstance(block, Rows)]
    return {does: key for block in rows for key, does in block}


async def test_the_hint_has_another_key(tmp_path: Path) -> None:
    keys = f'{AT_ONCE}[keys]\n"sitting.hint" = "ctrl+t"\n"board.up" = "ctrl+k"\n'
    with study_of(tmp_path, SHORT, settings=keys) as study:
        app = still_app(study)
        async with app.run_test(size=(120, 40)) as pilot:
            screen = await start(pilot)
            box = screen.query_one(MoveBox)
            bar = seen(app).splitlines()[-2:]
            assert any("Ctrl+T hint" in row for row in bar)
            assert not any("? hint" in row for row in bar)
            assert any("Ctrl+Q quit" in row for row in bar)  # the first of two, as ever
            told = shown_keys(app)
            assert told["In the empty box: say which piece moves; again: show the move."] == (
                "Ctrl+T"
            )
            assert told["Move the cursor on the board one square up."] == "Ctrl+K"
            assert told["Move the cursor on the board one square down."] == "↓"
            await pilot.press("question_mark")
            prompt = screen.teller.open_prompt
            assert box.value == "?" and prompt is not None and not prompt.hint
            await pilot.press("backspace", "ctrl+t")
            prompt = screen.teller.open_prompt
            assert prompt is not None and prompt.hint
            await type_in(pilot, "e4")
        assert qualities(study) == [3]  # Worked by hand: right, with a hint.


async def test_typing_ahead_goes_by_the_new_keys(tmp_path: Path) -> None:
    keys = '[keys]\nsitting.play = "f7"\nsitting.next = "f7"\nsitting.hint = "f8"\n'
    with study_of(tmp_path, SHORT, settings=f"{AT_ONCE}hesitation_seconds = 600\n{keys}") as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            for key in ["e", "4", "f7", "f7", "f8", "N", "c", "3", "enter", "f7"]:
                app.post_message(Key(key, key if len(key) == 1 else None))
            await pilot.pause(0.2)
            assert screen.teller.sitting.phase is Phase.ANSWERED
            assert screen.query_one(MoveBox).value == ""
        assert qualities(study) == [5, 3]  # Worked by hand.


async def test_play_alone_has_another_key(tmp_path: Path) -> None:
    keys = f'{AT_ONCE}[keys]\nsitting.play = "f7"\n'
    with study_of(tmp_path, SHORT, settings=keys) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await type_in(pilot, "e4")
            phases = [screen.teller.sitting.phase]
            for key in ["f7", "f7", "enter", "ctrl+z", "escape"]:  # the others have theirs still
                await pilot.press(key)
                phases.append(screen.teller.sitting.phase)
            assert phases == [
                Phase.ASKING,
                Phase.ANSWERED,
                Phase.ANSWERED,
                Phase.ASKING,
                Phase.ASKING,
                Phase.ENDED,
            ]
            await pilot.press("enter")
            assert app.screen is not screen


async def test_what_is_not_taken_is_named_with_its_line(tmp_path: Path) -> None:
    keys = f'{AT_ONCE}[keys]\nsitting.undo = "n"\n"sitting.hnt" = "f7"\napp.help = "f7"\n'
    with study_of(tmp_path, SHORT, settings=keys) as study:
        app = still_app(study)
        async with app.run_test(size=(120, 40), notifications=True) as pilot:
            await pilot.pause()
            told = " ".join(seen(app).replace("▌", " ").split())
            assert "settings.toml, line 3: sitting.undo = 'n' is not taken: n is needed" in told
            assert "line 4: sitting.hnt = 'f7' is not taken: there is no such step" in told
            assert "F7 help" in seen(app).splitlines()[-1]
            screen = await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("ctrl+z")
            assert screen.teller.sitting.phase is Phase.ASKING
            await pilot.press("f7")
            assert "Help: Sitting" in seen(app)
