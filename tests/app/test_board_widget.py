"""The board in an app: mouse, cursor, sizes, themes, the two steps of a move."""

import chess
import pytest
from board_table import Table, at, marks

from trainer.app.widgets.board import Board, BoardView, Face, Size, Taste
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.parts import FileColumn, Notice

PROMOTION = "4k3/6P1/8/8/8/8/8/4K3 w - - 0 1"


async def test_click_the_piece_then_its_goal():
    app = Table()
    async with app.run_test() as pilot:
        await pilot.click(Board, **at(app.board, "g1"))
        assert app.board.held == chess.G1
        assert (marks(app.board, "g1"), marks(app.board, "f3")) == ({Mark.HELD}, {Mark.GOAL})
        await pilot.click(Board, **at(app.board, "f3"))
        assert app.heard == [("g1", "f3")]
        assert app.focused is None
        assert not marks(app.board, "f3")


async def test_an_illegal_goal_is_posted_and_targets_can_be_off():
    app = Table()
    async with app.run_test() as pilot:
        app.board.taste = Taste(show_targets=False)
        await pilot.click(Board, **at(app.board, "g1"))
        assert not marks(app.board, "f3")
        await pilot.click(Board, **at(app.board, "g5"))
        assert app.heard[-1] == ("g1", "g5")


async def test_drag_with_the_board_flipped():
    app = Table(BoardView(flipped=True))
    async with app.run_test() as pilot:
        await pilot.mouse_down(Board, **at(app.board, "e2"))
        await pilot.hover(Board, **at(app.board, "e3"))
        assert app.board.shown().in_hand == chess.E3
        assert app.board.view == BoardView(flipped=True)
        await pilot.mouse_up(Board, **at(app.board, "e4"))
        assert app.heard[-1] == ("e2", "e4")


async def test_a_pawn_on_the_last_rank_asks_nothing_itself():
    app = Table(BoardView(PROMOTION))
    async with app.run_test() as pilot:
        await pilot.click(Board, **at(app.board, "g7"))
        await pilot.click(Board, **at(app.board, "g8"))
        assert app.heard[-1] == ("g7", "g8")


async def test_the_cursor_takes_and_drops():
    app = Table()
    async with app.run_test() as pilot:
        app.board.focus()
        await pilot.press("up")  # from the king
        assert marks(app.board, "e2") == {Mark.CURSOR}
        await pilot.press("enter", "up", "up", "space")
        assert app.heard == [("e2", "e4")]
        assert app.keys == []


async def test_keys_the_board_has_no_use_for_reach_the_screen():
    app = Table()
    async with app.run_test() as pilot:
        app.board.focus()
        await pilot.press("N", "escape")
        assert app.keys == ["N", "escape"]
        await pilot.click(Board, **at(app.board, "g1"))
        await pilot.press("escape")
        assert app.board.held is None
        app.board.interactive = False
        await pilot.press("enter", "up")
        assert app.keys == ["N", "escape", "enter", "up"]


async def test_squares_are_chosen_by_click_and_by_key():
    app = Table()
    async with app.run_test() as pilot:
        app.board.choosing = True
        await pilot.click(Board, **at(app.board, "g1"))
        app.board.focus()
        await pilot.press("space")
        assert app.heard == ["g1", "e1"]


async def test_a_board_that_is_switched_off_takes_nothing():
    app = Table()
    async with app.run_test() as pilot:
        app.board.interactive = False
        await pilot.click(Board, **at(app.board, "g1"))
        assert app.heard == []


async def test_only_the_squares_that_changed_are_repainted(monkeypatch):
    board, painted = chess.Board(), []
    first = board.push_san("e4")
    app = Table(BoardView(board.fen(), last_move=first))
    async with app.run_test() as pilot:
        await pilot.pause()
        monkeypatch.setattr(
            FileColumn,
            "refresh",
            lambda self, *regions, **_: painted.extend((self.column, region) for region in regions),
        )
        second = board.push_san("c5")
        app.board.view = BoardView(board.fen(), last_move=second)
        # Worked by hand: e2 and e4 lose their marks, c7 and c5 change; three rows a square.
        assert sorted((column, region.y) for column, region in painted) == [
            (2, 3),
            (2, 9),
            (4, 12),
            (4, 18),
        ]
        assert {region.size for _, region in painted} == {(6, 3)}


@pytest.mark.parametrize(
    ("animation", "taste", "motion"),
    [("full", Taste(), True), ("none", Taste(), False), ("full", Taste(motion=False), False)],
    ids=["two steps", "no animation in the app", "off by setting"],
)
async def test_the_opponents_move(animation, taste, motion):
    app = Table(taste=taste)
    board = chess.Board()
    move = board.push_san("e4")
    then = BoardView(board.fen(), last_move=move)
    async with app.run_test() as pilot:
        app.animation_level = animation
        app.board.play(move, then)
        assert app.board.moving is motion
        assert (app.board.view == then) is not motion
        assert (app.board.shown().in_hand == chess.E2) is motion
        await pilot.pause(0.25)
        assert (app.board.view, app.heard) == (then, ["stood"])
        assert marks(app.board, "e4") == {Mark.TO}


async def test_a_new_view_calls_the_move_off():
    app = Table()
    async with app.run_test() as pilot:
        app.board.play(chess.Move.from_uci("e2e4"), BoardView(PROMOTION))
        app.board.view = BoardView(flipped=True)
        await pilot.pause(0.25)
        assert (app.board.view, app.heard) == (BoardView(flipped=True), [])


async def test_the_size_follows_the_terminal():
    app = Table()
    async with app.run_test() as pilot:
        for terminal, size in [((120, 40), Size(8, 4)), ((80, 23), Size(5, 2, Face.CHIPS))]:
            await pilot.resize_terminal(*terminal)
            assert app.board.square_size == size
            assert app.board.size == (size.board_width, size.board_height)
        await pilot.resize_terminal(60, 20)
        assert app.board.square_size is None
        assert app.query_one(Notice).size.height > 0
        app.board.view = BoardView(PROMOTION)
        await pilot.resize_terminal(80, 24)
        assert app.query_one(Notice).size.height == 0
        assert app.board.children[1].scene.look(6, 1, app.board.square_size).piece == "P"


async def test_a_theme_of_the_terminals_own_colours_gets_the_plain_board():
    app = Table()
    async with app.run_test() as pilot:
        app.theme = "ansi-dark"
        await pilot.pause()
        assert app.board.square_size == Size(5, 3, Face.PLAIN, inside=True)
        assert app.board.size == (40, 24)
        app.theme = "nord"
        await pilot.pause()
        assert app.board.square_size == Size(6, 3, inside=True)
        dark = app.board.children[1].palette().dark
        assert dark.lower() == app.theme_variables["board-dark"]


async def test_sixteen_colours_get_the_plain_board(monkeypatch):
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("COLORTERM")
    app = Table()
    async with app.run_test():
        assert app.board.square_size.face is Face.PLAIN


async def test_letters_and_smaller_squares_are_settings():
    app = Table()
    async with app.run_test(size=(160, 50)) as pilot:
        app.board.taste = Taste(tallest=3)
        await pilot.pause()
        assert app.board.square_size == Size(6, 3)
        app.board.taste = Taste(tallest=3, letters=True, piece_letters=tuple("KDTLSB"))
        await pilot.pause()
        assert app.board.square_size == Size(7, 3, Face.CHIPS)
        assert app.board.children[1].scene.look(1, 0, app.board.square_size).letter == "S"


def test_every_key_says_what_it_does():
    for binding in Board.BINDINGS:
        assert binding.id.startswith("board.")
        assert binding.description and binding.tooltip
