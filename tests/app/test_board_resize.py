"""The window may change its size at any moment: the board stands as if it had begun there."""

from dataclasses import replace

import chess
import pytest
from board_table import Table, at, marks

from tests.app.screen_cells import read_cells
from tests.app.shelf import AT_ONCE, PROMOTION, click_square, start, still_app, study_of
from trainer.app.telling.moment import Stage
from trainer.app.widgets import board_side
from trainer.app.widgets.board import Board, BoardView, Taste
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board_side import BoardSide

WINDOWS = [(160, 50), (120, 40), (100, 30), (80, 24), (76, 21), (60, 15)]
"""One for each size of a square, and one without room."""

CHECK = "rnb1kbnr/pppp1ppp/8/4p3/4P2q/5P2/PPPP2PP/RNBQKBNR w KQkq - 1 3"
FULL = BoardView(
    CHECK,
    flipped=True,
    last_move=chess.Move.from_uci("d8h4"),
    arrows=("Gg1h3", "Rh4e1", "Ba2a4"),
    squares=("Re5", "Yd4"),
)


async def fresh(window, taste, theme="textual-dark"):
    """What stands in a window that had this size and these colours from the start."""
    app = Table(FULL, taste)
    app.theme = theme
    async with app.run_test(size=window) as pilot:
        await pilot.pause()
        return read_cells(app)


@pytest.mark.parametrize("letters", [False, True], ids=["drawn", "letters"])
async def test_a_resized_board_is_a_fresh_one(letters):
    taste, app = Taste(letters=letters), Table(FULL, Taste(letters=letters))
    async with app.run_test(size=WINDOWS[0]) as pilot:
        for window in [*WINDOWS[1:], *reversed(WINDOWS)]:
            await pilot.resize_terminal(*window)
            await pilot.pause()
            assert read_cells(app) == await fresh(window, taste), window


async def test_a_live_change_of_taste_is_a_fresh_board():
    app = Table(FULL)
    async with app.run_test(size=(120, 40)) as pilot:
        for taste in (Taste(letters=True), Taste(tallest=3), Taste(tallest=2), Taste()):
            app.board.taste = taste
            await pilot.pause()
            assert read_cells(app) == await fresh((120, 40), taste), taste


async def test_a_live_switch_of_the_theme_is_a_fresh_board():
    app = Table(FULL)
    async with app.run_test(size=(100, 30)) as pilot:
        for theme in ("textual-light", "ansi-dark", "nord"):
            app.theme = theme
            await pilot.pause()
            assert read_cells(app) == await fresh((100, 30), Taste(), theme), theme


async def test_a_piece_stays_in_hand_and_can_be_dropped():
    app = Table()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.click(Board, **at(app.board, "g1"))
        for window in [(120, 40), (60, 15), (76, 21)]:
            await pilot.resize_terminal(*window)
            assert app.board.held == chess.G1
        assert (marks(app.board, "g1"), marks(app.board, "f3")) == ({Mark.HELD}, {Mark.GOAL})
        await pilot.click(Board, **at(app.board, "f3"))
        assert app.heard[-1] == ("g1", "f3")


async def test_a_drag_ends_where_the_square_is_now():
    app = Table()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        await pilot.resize_terminal(120, 40)
        await pilot.mouse_up(Board, **at(app.board, "f3"))
        assert app.heard[-1] == ("g1", "f3")


async def test_a_drag_comes_to_nothing_where_there_is_no_board_left():
    app = Table()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        await pilot.resize_terminal(60, 15)
        await pilot.mouse_up(offset=(10, 5))
        assert app.board.held is None
        assert app.mouse_captured is None


async def test_a_move_under_way_arrives():
    app = Table()
    board = chess.Board()
    move = board.push_san("e4")
    async with app.run_test(size=(80, 24)) as pilot:
        app.board.play(move, BoardView(board.fen(), last_move=move))
        await pilot.resize_terminal(120, 40)
        await pilot.pause(0.2)
        assert app.heard == ["stood"]
        assert marks(app.board, "e4") == {Mark.TO}


class Side(Table):
    """A board with its side of the screen."""

    def compose(self):
        self.side = BoardSide(taste=Taste(motion=False))
        yield self.side


async def test_a_try_is_taken_back_all_the_same(monkeypatch):
    monkeypatch.setattr(board_side, "TRY_SECONDS", 0.3)
    app, tried = Side(), chess.Board()
    move = tried.push_san("a4")
    async with app.run_test(size=(80, 24)) as pilot:
        app.side.stage = Stage(BoardView(), before=BoardView(tried.fen(), last_move=move))
        app.side.playable = True
        await pilot.resize_terminal(120, 40)
        assert app.side.board.view.last_move == move
        assert not app.side.board.interactive
        await pilot.pause(0.4)
        assert app.side.board.view == BoardView()
        assert app.side.board.interactive


async def test_the_side_hands_a_new_taste_to_its_board():
    app = Side()
    async with app.run_test(size=(120, 40)) as pilot:
        app.side.taste = replace(app.side.taste, letters=True)
        await pilot.pause()
        assert app.side.board.square_size.width == 9


async def test_a_promotion_is_still_asked_in_another_window(tmp_path):
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await click_square(pilot, "a7")
            await click_square(pilot, "a8")
            for window in [(120, 40), (60, 15), (100, 30)]:
                await pilot.resize_terminal(*window)
                assert screen.teller.promoting is not None
            await pilot.press("n")
            assert screen.teller.promoting is None
            assert screen.moment.answer == "a8=N"
