"""The screen leaves the log that a program leaves, from the same recorded sitting."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from tests.app.shelf import still_app, type_in
from tests.cli.recorded import RECORDED, WISH, Step, log_of
from tests.cli.test_faces import hold_json, study_of
from trainer.app.screens.sitting import SittingScreen
from trainer.service.preparation import prepare_practice
from trainer.service.study import Study
from trainer.sitting.sitting import Phase

KEYS = {"hint": "question_mark", "undo": "ctrl+z", "stop": "escape"}
"""The keys of what is not typed as a word."""


async def take(pilot: Pilot[None], step: Step) -> None:
    """One step of the recorded sitting, by hand."""
    if step.kind in ("move", "show"):
        await type_in(pilot, step.text or step.kind)
    else:
        await pilot.press(KEYS[step.kind])
    await pilot.pause()


async def hold_on_the_screen(study: Study) -> None:
    """The Sitting screen with a clock that the test moves on."""
    practice = prepare_practice(study, WISH)
    now = 0.0
    app = still_app(study)
    async with app.run_test(size=(80, 24)) as pilot:
        await app.push_screen(SittingScreen(study, practice, monotonic=lambda: now))
        await pilot.pause()
        for step in RECORDED:
            while practice.sitting.phase is not Phase.ASKING:
                await pilot.press("enter")
                await pilot.pause()
            now += step.seconds
            await take(pilot, step)


async def test_the_screen_leaves_the_log_that_a_program_leaves(tmp_path: Path) -> None:
    with study_of(tmp_path / "one") as wanted, study_of(tmp_path / "two") as held:
        hold_json(wanted)
        await hold_on_the_screen(held)
        assert log_of(held) == log_of(wanted)
