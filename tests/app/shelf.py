"""A home with decks written by the tests and read by the real reader, and hands for an app."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import chess
from textual.app import App
from textual.pilot import Pilot

from tests.app.screen_cells import read_cells
from trainer.app.app import TrainerApp
from trainer.app.screens.sitting import SittingScreen
from trainer.app.widgets.board import Board
from trainer.app.widgets.board.geometry import place_of
from trainer.service.decks.shelving import add_deck
from trainer.service.first_minute import note_introduced
from trainer.service.study import Study, open_study
from trainer.store.answers import read_log

SHORT = """
1. e4 {To the middle.} 1... e5
2. Nc3 {The knight guards e4 and leaves the f-pawn free. [%cal Gf2f4][%theme f4 first]}
(2. Nf3 {Another opening. [%aside]}) (2. Qh5? {The queen is chased.} 2... Nc6 3. Bc4 g6)
(2. f4 {Right too, says the coach.} 2... exf4)
2... Nf6 {[%share 60]} (2... Nc6 {[%share 30]} 3. Bc4 {The bishop eyes f7. [%csl Gf7]})
3. f4 {At last.} 3... d5 *
"""
"""Four cards for White: 1. e4, 2. Nc3, and one after each reply; with an accepted
alternative, a known mistake and an aside."""

BLACK = "1. e4 c6 {Solid.} 2. Nc3 d5 {Strike.} *"
"""Two cards for Black."""

PROMOTION = '[SetUp "1"]\n[FEN "7k/P7/8/8/8/8/8/K7 w - - 0 1"]\n\n1. a8=N {A knight!} 1... Kg7 *'
"""One card, in which a pawn becomes a knight."""

AT_ONCE = 'first_look = "ask"\n'
"""Settings under which fresh cards are asked without a first look."""

KEYS = {"=": "equals_sign", "-": "minus", "?": "question_mark", "+": "plus", "#": "number_sign"}


def write_deck(
    folder: Path,
    *games: str,
    deck: str = "vienna",
    side: str = "white",
    title: str = "Vienna",
    chapter: str = "Main roads",
) -> Path:
    """A deck of one chapter in a folder of its own."""
    place = folder / deck
    place.mkdir(parents=True)
    (place / "deck.toml").write_text(
        f"id = '{deck}'\ntitle = '{title}'\nedition = 1\nauthor = 'A. Coach'\nlanguage = 'en'\n"
        "licence = 'CC0-1.0'\nabout = 'For tests.'\n\n[[chapter]]\nid = 'main'\n"
        f"file = 'main.pgn'\ntitle = '{chapter}'\nkind = 'lines'\nside = '{side}'\n",
        encoding="utf-8",
    )
    tagged = (game if game.startswith("[") else f'[Event "Test"]\n\n{game}' for game in games)
    (place / "main.pgn").write_text("\n\n".join(tagged) + "\n", encoding="utf-8")
    return place


@contextmanager
def study_of(
    folder: Path, *games: str, settings: str = "", introduced: bool = True, **about: str
) -> Iterator[Study]:
    """A study whose one deck holds these games; without games it has no deck."""
    home = folder / "home"
    home.mkdir(exist_ok=True)
    (home / "settings.toml").write_text(settings, encoding="utf-8")
    with open_study(home) as study:
        if introduced:
            note_introduced(study)
        if games:
            add_deck(study, write_deck(folder / "decks", *games, **about))
        yield study


def still_app(study: Study) -> TrainerApp:
    """An app without motion."""
    app = TrainerApp(study)
    app.animation_level = "none"
    return app


def sitting(app: App[None]) -> SittingScreen:
    """The Sitting screen in front."""
    assert isinstance(app.screen, SittingScreen)
    return app.screen


async def start(pilot: Pilot[None]) -> SittingScreen:
    """From Today into the day's sitting."""
    await pilot.press("enter")
    await pilot.pause()
    return sitting(pilot.app)


async def type_in(pilot: Pilot[None], text: str, enter: bool = True) -> None:
    """Type a text, and Enter."""
    await pilot.press(*(KEYS.get(sign, sign) for sign in text), *["enter"] * enter)


async def click_square(pilot: Pilot[None], name: str) -> None:
    """Click the middle of a square."""
    board = pilot.app.screen.query_one(Board)
    size = board.square_size
    assert size is not None
    column, row = place_of(chess.parse_square(name), board.view.flipped)
    x = size.margin + column * size.width + size.width // 2
    await pilot.click(board, offset=(x, row * size.height + size.height // 2))


def qualities(study: Study) -> list[int]:
    """The qualities in the log, withdrawn answers left out."""
    log = (entry for entry in read_log(study.db) if not entry.withdrawn)
    return [entry.answer.schedule.quality for entry in log]


def seen(app: App[None]) -> str:
    """The text on the screen, row by row, every sign in its column."""
    return "\n".join("".join(cell.sign for cell in row).rstrip() for row in read_cells(app))
