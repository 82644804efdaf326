"""Until the answer the screen is the same, whatever move the deck wants."""

from __future__ import annotations

from collections.abc import AsyncIterator
from itertools import islice
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.app.pictures import picture
from tests.app.shelf import AT_ONCE, click_square, sitting, still_app, study_of, type_in
from trainer.app.screens.sitting import SittingScreen
from trainer.service.preparation import Wish, prepare_practice

DECKS = {
    "a knight": "1. e4 {Why.} 1... e5 2. Nc3 {Because.} 2... Nf6 *",
    "the other knight": "1. e4 {Why.} 1... e5 2. Nf3 {Because.} 2... Nf6 *",
    "a pawn": "1. e4 {Why.} 1... e5 2. f4 {Because.} 2... Nf6 *",
}
"""They differ in the move that the second card asks for, and in nothing else."""


async def _watched(folder: Path, game: str, size: tuple[int, int]) -> list[str]:
    """The screen at every step from Today to just before the second card's answer."""
    folder.mkdir()
    with study_of(folder, game, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            seen = [picture(app)]
            app.push_screen(SittingScreen(study, prepare_practice(study, Wish()), lambda: 0.0))
            await pilot.pause()
            await type_in(pilot, "e4")
            await pilot.press("enter")
            seen.append(picture(app))
            seen += [picture(app) async for _ in _fumbling(pilot)]
            assert sitting(app).teller.open_prompt is not None
            assert len(sitting(app).teller.sitting.answered) == 1
            return seen


async def _fumbling(pilot: Pilot[None]) -> AsyncIterator[str]:
    """All that a student may do who does not know the move, short of a try or a hint."""
    for text in ("N", "Nc3", "Nf3", "Bc4", "f4", "Ke3", "zz", "B"):
        await type_in(pilot, text, enter=False)
        yield text
        await pilot.press("ctrl+u")
    for text in ("Nd4", "Ke3", "castle", "board", "facts", "e4?", "f?", "knights?"):
        await type_in(pilot, text)
        yield text
    for key in ("f2", "f3", "f3", "f5", "tab", "right", "enter", "escape", "f4"):
        await pilot.press(key)
        yield key
    await pilot.press("escape")
    for square in ("g1", "g1", "b1", "b1", "f1"):
        await click_square(pilot, square)
        yield square
    await pilot.resize_terminal(100, 30)
    await pilot.pause()
    yield "resized"


@pytest.mark.parametrize(("size", "decks"), [((80, 24), 3), ((120, 40), 2)])
async def test_the_screen_does_not_know_the_answer(
    tmp_path: Path, size: tuple[int, int], decks: int
) -> None:
    watched = {
        name: await _watched(tmp_path / name, game, size)
        for name, game in islice(DECKS.items(), decks)
    }
    first = watched["a knight"]
    assert len(set(first)) > 20
    for name, seen in watched.items():
        for step, (one, other) in enumerate(zip(first, seen, strict=True)):
            assert one == other, f"{name}: the screen differs at step {step}"


async def test_the_hint_tells_them_apart(tmp_path: Path) -> None:
    """What the test above compares would show a difference."""
    shown = []
    for name, game in DECKS.items():
        (tmp_path / name).mkdir()
        with study_of(tmp_path / name, game, settings=AT_ONCE) as study:
            app = still_app(study)
            async with app.run_test(size=(80, 24)) as pilot:
                practice = prepare_practice(study, Wish())
                app.push_screen(SittingScreen(study, practice, lambda: 0.0))
                await pilot.pause()
                await type_in(pilot, "e4")
                await pilot.press("enter", "question_mark")
                shown.append(picture(app))
    assert len(set(shown)) == len(DECKS)
