"""Tactics and model games on the Sitting screen, from the first move to the last."""

from __future__ import annotations

from pathlib import Path

import chess
import pytest

from tests.app.kinds_deck import kinds_study
from tests.app.shelf import click_square, qualities, type_in
from tests.app.test_questions_screen import asking, keys, told
from trainer.app.widgets.board import Board
from trainer.app.widgets.board_side import TRY_SECONDS
from trainer.app.widgets.move_box import MoveBox
from trainer.service.exercises import games_of
from trainer.sitting.sitting import Phase

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_a_tactic_against_every_defence(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "tactics", size) as (pilot, screen):
            assert "Back row" in told(pilot) and "The king has no air." in told(pilot)
            await type_in(pilot, "Ra8")
            assert "Mate." in told(pilot)
            await pilot.press("enter")
            assert "White to move. Defence 1 of 3." in told(pilot)
            await type_in(pilot, "Nc7")
            assert "A fork." not in told(pilot) and "Nearer." not in told(pilot)
            await type_in(pilot, "Nxa8")
            assert "1. Nc7+: A fork." in told(pilot) and "1... Kd7: Nearer." in told(pilot)
            assert "undo" in " ".join(keys(screen)), "the first tactic can be taken back"
            board = screen.query_one(Board)
            assert chess.Board(board.view.fen).piece_at(chess.A8) == chess.Piece.from_symbol("N")
            await pilot.press("enter")
            assert "Defence 2 of 3" in told(pilot) and "Back after 1. Nc7+" in told(pilot)
            assert chess.Board(board.view.fen).piece_at(chess.D8) == chess.Piece.from_symbol("k")
            for name in ("c7", "a8"):
                await click_square(pilot, name)
            await type_in(pilot, "Nb6")
            await pilot.press("enter")
            await type_in(pilot, "Nxa8")
            assert "Solved, 5 moves" in told(pilot) and "Won." in told(pilot)
        assert qualities(study) == [5, 5]


async def test_a_missed_defence_waits_for_enter(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "tactics") as (pilot, screen):
            await type_in(pilot, "Ra8")
            await pilot.press("enter")
            await type_in(pilot, "Kd1")
            assert "Not the solution: 1. Kd1" in told(pilot)
            assert "The solution: 1. Nc7+ Kd7 2. Nxa8 Kc6" in told(pilot)
            assert "1. Nc7+: A fork." in told(pilot) and "2. Nxa8: A rook." in told(pilot)
            assert screen.teller.sitting.phase is Phase.TOLD
            assert "enter next" in keys(screen) and "enter play" not in keys(screen)
            await pilot.press("enter")
            assert "White to move. Defence 2 of 3." in told(pilot)
            await type_in(pilot, "Nxa8")
            await type_in(pilot, "Nb6")
            await pilot.press("enter")
            await type_in(pilot, "Nxa8")
            assert "Missed 1 of 4 moves" in told(pilot)
        assert qualities(study) == [5, 2]


async def test_a_letter_over_the_solution_belongs_to_the_next_defence(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "tactics") as (pilot, screen):
            await type_in(pilot, "Ra8")
            await type_in(pilot, "Kd1")
            assert "Defence 1" not in told(pilot) and screen.teller.sitting.phase is Phase.TOLD
            await pilot.press("N")
            assert "Defence 2 of 3" in told(pilot)
            assert screen.query_one(MoveBox).value == "N"


async def test_undo_asks_a_tactic_from_its_first_move(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "tactics") as (pilot, screen):
            await type_in(pilot, "Ra8")
            await pilot.press("enter")
            await type_in(pilot, "Nc7")
            await pilot.press("ctrl+z")
            assert "Taken back. White to move." in told(pilot) and "Back row" in told(pilot)
            await type_in(pilot, "Ra8")
            await pilot.press("enter")
            assert "White to move. Defence 1 of 3." in told(pilot)
            assert "1 Nc7+ Kd7" in told(pilot), "it goes on where the undo pushed it aside"
            assert screen.teller.sitting.phase is Phase.ASKING


@pytest.mark.parametrize("size", SIZES)
async def test_a_model_game(tmp_path: Path, size: tuple[int, int]) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "games", size) as (pilot, screen):
            assert "Asha Penrose" in told(pilot) and "1/4" in told(pilot)
            assert "undo" not in " ".join(keys(screen)), "a guess is not taken back"
            await type_in(pilot, "e4")
            assert "Found: 1. e4" in told(pilot)
            await pilot.press("enter")
            assert "White to move. 1 of 1 found." in told(pilot)
            for name in ("d2", "d4"):
                await click_square(pilot, name)
            assert "The game: 2. Bc4" in told(pilot) and "Looking at f7." in told(pilot)
            board = screen.query_one(Board)
            assert chess.Board(board.view.fen).piece_at(chess.D4) is not None
            await pilot.pause(TRY_SECONDS + 0.2)
            assert chess.Board(board.view.fen).piece_at(chess.C4) is not None
            await pilot.press("enter")
            await type_in(pilot, "Nf3")
            assert "3. Nf3: Better." in told(pilot) and "3... Nf6" in told(pilot)
            await pilot.press("enter")
            assert "Overlooks it." not in told(pilot)
            await type_in(pilot, "Qxf7")
            assert "3... Nf6: Overlooks it." in told(pilot)
            assert "White won. You found 2 of 4." in told(pilot)
            await pilot.press("enter")
            assert "Asha Penrose" in told(pilot) and "1/2" in told(pilot), "the second game"
        assert qualities(study) == []


async def test_a_game_that_is_left_goes_on_next_time(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        async with asking(study, "games") as (pilot, _):
            await type_in(pilot, "e4")
            await pilot.press("escape")
            assert "Stopped: 1 guessed" in told(pilot)
            assert "goes on at move 2 next time" in told(pilot)
        async with asking(study, "games") as (pilot, screen):
            assert "It goes on where you left it." in told(pilot) and "2/4" in told(pilot)
            assert screen.moment.headline == "White to move. 1 of 1 found."
        (first, second) = games_of(study, "kinds", "games")
        assert (first.guessed, second.guessed) == ((True,), ())
