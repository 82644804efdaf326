"""Until the answer the screen is the same, whatever move the deck wants."""

from __future__ import annotations

from collections.abc import AsyncIterator
from itertools import islice
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.app.kinds_deck import kinds_study, practice_of
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


def _idea(answer: str) -> str:
    return f'[[idea]]\nafter = "1. e4 e5"\nask = "What now?"\n{answer}\nwhy = "{answer[:4]}"\n'


def _choose(*answers: str) -> str:
    return _idea(f"choose = {list(answers)}")


def _tactic(moves: str) -> str:
    return f'[Event "A find"]\n[SetUp "1"]\n[FEN "r3k3/8/8/3N4/8/8/8/R3K3 w Q - 0 1"]\n\n{moves} *'


def _game(moves: str) -> str:
    return f'[Event "Club"]\n[White "Asha"]\n[Black "Otto"]\n[Result "*"]\n\n1. e4 e5 {moves} *'


OTHER_KINDS = {
    "squares": ("ideas", [_idea("squares = ['f7']"), _idea("squares = ['d4', 'e5']")]),
    "an idea's move": ("ideas", [_idea("move = 'Nf3'"), _idea("move = 'f4'")]),
    "choices": (
        "ideas",
        [_choose("a plan", "a trap", "a slip"), _choose("a slip", "a trap", "a plan")],
    ),
    "a tactic": (
        "tactics",
        [
            _tactic("1. Nc7+ {A fork.} (1. Kd2? {Slow.} Kd7) Kd8 2. Nxa8 {A rook.}"),
            _tactic("1. Rxa8+ {It hangs.} (1. Nf6+? {No.} Kd8) Kd7 2. Nf6+ {And on.}"),
        ],
    ),
    "a game": (
        "games",
        [
            _game("2. Nf3 {Good.} (2. f4 {Bold.}) Nc6 3. Bb5 {Pins.}"),
            _game("2. Bc4 {Calm.} (2. d3 {Slow.}) Nf6 3. d3 {Holds.}"),
        ],
    ),
}
"""By kind, decks that differ in the answer and in all that is said of it, and in nothing else."""


async def _watched_kind(
    folder: Path, chapter: str, content: str, size: tuple[int, int]
) -> list[str]:
    """The screen at every step of a student who does not answer."""
    with kinds_study(folder, {chapter: content}) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            screen = SittingScreen(study, practice_of(study, chapter), lambda: 0.0)
            app.push_screen(screen)
            await pilot.pause()
            if chapter == "games":
                await type_in(pilot, "e4")
                await pilot.press("enter")
            watched = [picture(app)]
            for text in ("N", "Nc3", "f4", "e", "Ke3"):
                await type_in(pilot, text, enter=False)
                watched.append(picture(app))
                await pilot.press("ctrl+u")
            for text in ("castle", "board", "facts", "e4?", "hint" if chapter == "ideas" else "f?"):
                await type_in(pilot, text)
                watched.append(picture(app))
            for key in ("f3", "f3", "tab", "right", "down", "up", "f4"):
                await pilot.press(key)
                watched.append(picture(app))
            await pilot.press("escape")
            await click_square(pilot, "a8")
            watched.append(picture(app))
            assert screen.teller.open_prompt is not None and not screen.moment.missed
            return watched


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize(("chapter", "contents"), OTHER_KINDS.values(), ids=OTHER_KINDS)
async def test_the_screen_does_not_know_other_answers(
    tmp_path: Path, chapter: str, contents: list[str], size: tuple[int, int]
) -> None:
    one, other = [
        await _watched_kind(tmp_path / str(number), chapter, content, size)
        for number, content in enumerate(contents)
    ]
    assert len(set(one)) > 8
    for step, (here, there) in enumerate(zip(one, other, strict=True)):
        assert here == there, f"the screen differs at step {step}"


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
