"""Both ways of the mouse, and the keyboard, make every kind of move; nothing else does."""

import chess
import pytest
from board_table import Table, at, marks
from textual.events import MouseDown, MouseUp

from trainer.app.widgets.board import Board, BoardView, Taste
from trainer.app.widgets.board.marks import Mark

MOVES = [
    ("castling short", "4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "e1", "g1"),
    ("castling long, by Black", "r3k2r/8/8/8/8/8/8/4K3 b kq - 0 1", "e8", "c8"),
    ("taking in passing", "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2", "e5", "d6"),
    ("promotion by taking", "3rk3/4P3/8/8/8/8/8/4K3 w - - 0 1", "e7", "d8"),
]
"""Worked by hand: each is legal in its position, and the king goes two squares."""

DRAWN, LARGE_BLACK, LETTERS = (80, 24), (120, 40), (76, 21)
TABLES = [
    ("80x24", DRAWN, False),
    ("120x40, Black at the bottom", LARGE_BLACK, True),
    ("letters", LETTERS, True),
]


async def click_click(pilot, board, start, goal):
    await pilot.click(Board, **at(board, start))
    await pilot.click(Board, **at(board, goal))


async def drag(pilot, board, start, goal):
    await pilot.mouse_down(Board, **at(board, start))
    await pilot.hover(Board, **at(board, goal))
    await pilot.mouse_up(Board, **at(board, goal))


@pytest.mark.parametrize(("_name", "terminal", "flipped"), TABLES, ids=[t[0] for t in TABLES])
@pytest.mark.parametrize("way", [click_click, drag])
async def test_every_kind_of_move_can_be_made(way, _name, terminal, flipped):
    app = Table()
    async with app.run_test(size=terminal) as pilot:
        for name, fen, start, goal in MOVES:
            app.board.view = BoardView(fen, flipped=flipped)
            await pilot.pause()
            await way(pilot, app.board, start, goal)
            assert app.heard[-1] == (start, goal), name
            assert app.board.held is None


async def test_the_cursor_makes_every_kind_of_move():
    app = Table()
    async with app.run_test() as pilot:
        app.board.focus()
        await pilot.pause()
        for name, fen, start, goal in MOVES:
            app.board.view = BoardView(fen)
            await lead(pilot, app.board, start)
            await pilot.press("enter")
            await lead(pilot, app.board, goal)
            await pilot.press("space")
            assert app.heard[-1] == (start, goal), name


async def lead(pilot, board, name):
    """Lead the cursor to a square with the arrow keys."""
    cursor, square = board.shown().cursor, chess.parse_square(name)
    files = chess.square_file(square) - chess.square_file(cursor)
    ranks = chess.square_rank(square) - chess.square_rank(cursor)
    keys = ["right" if files > 0 else "left"] * abs(files)
    keys += ["up" if ranks > 0 else "down"] * abs(ranks)
    await pilot.press(*keys)
    assert board.shown().cursor == square


async def test_taking_in_passing_is_marked_as_an_empty_goal():
    app = Table(BoardView(MOVES[2][1]))
    async with app.run_test() as pilot:
        await pilot.click(Board, **at(app.board, "e5"))
        assert marks(app.board, "d6") == {Mark.GOAL}


async def test_a_king_dropped_on_its_rook_is_a_try_and_a_click_there_takes_the_rook():
    app = Table(BoardView(MOVES[0][1]))
    async with app.run_test() as pilot:
        await drag(pilot, app.board, "e1", "h1")
        assert app.heard[-1] == ("e1", "h1")
        await click_click(pilot, app.board, "e1", "h1")
        assert app.board.held == chess.H1


@pytest.mark.parametrize("offset", [(75, 5), (-1, 5)], ids=["beside", "left of the window"])
async def test_a_piece_dropped_off_the_board_goes_back(offset):
    app = Table()
    async with app.run_test() as pilot:
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        if offset[0] > 0:
            await pilot.hover(offset=offset)
            await pilot.mouse_up(offset=offset)
        else:  # a pilot cannot point there, a terminal can while the button is held
            app.board.on_mouse_up(mouse_up(offset))
            await pilot.pause()
        assert app.board.held is None
        assert app.heard == []


def mouse_up(offset, button=1):
    """The release of a button at a place of the screen."""
    x, y = offset
    return MouseUp(None, x, y, 0, 0, button, False, False, False, screen_x=x, screen_y=y)


async def test_other_buttons_do_nothing():
    app = Table()
    async with app.run_test() as pilot:
        await pilot.click(Board, button=3, **at(app.board, "g1"))
        assert app.board.held is None
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        await pilot.hover(Board, **at(app.board, "f3"))
        app.board.on_mouse_up(mouse_up((33, 16), button=3))
        assert app.board.held == chess.G1
        await pilot.mouse_up(Board, **at(app.board, "f3"))
        assert app.heard == [("g1", "f3")]


async def test_a_double_click_takes_and_puts_down():
    app = Table()
    async with app.run_test() as pilot:
        await pilot.click(Board, times=2, **at(app.board, "g1"))
        assert app.board.held is None
        assert app.heard == []


async def test_a_drag_begun_just_before_the_position_changes_comes_to_nothing():
    app = Table()
    board = chess.Board()
    move = board.push_san("e4")
    async with app.run_test() as pilot:
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        app.board.play(move, BoardView(board.fen(), last_move=move))
        await pilot.hover(Board, **at(app.board, "f3"))
        await pilot.mouse_up(Board, **at(app.board, "f3"))
        await pilot.pause(0.2)
        assert app.heard == ["stood"]
        assert app.mouse_captured is None
        await drag(pilot, app.board, "g8", "f6")
        assert app.heard[-1] == ("g8", "f6")


async def test_a_drag_goes_on_while_the_board_is_turned():
    app = Table()
    async with app.run_test() as pilot:
        await pilot.mouse_down(Board, **at(app.board, "g1"))
        app.board.view = BoardView(flipped=True)
        await pilot.mouse_up(Board, **at(app.board, "f3"))
        assert app.heard[-1] == ("g1", "f3")


async def test_nothing_is_taken_while_a_piece_is_on_its_way():
    app = Table(taste=Taste(motion=True))
    async with app.run_test() as pilot:
        app.board.play(chess.Move.from_uci("e2e4"), BoardView())
        app.board.on_mouse_down(mouse_down((39, 22)))
        assert app.board.held is None
        await pilot.pause(0.2)
        app.board.on_mouse_down(mouse_down((39, 22)))
        assert app.board.held == chess.G1


def mouse_down(offset):
    """The first button at a place of the screen."""
    x, y = offset
    return MouseDown(None, x, y, 0, 0, 1, False, False, False, screen_x=x, screen_y=y)
