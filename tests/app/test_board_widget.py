"""The board in an app: mouse, cursor, sizes, themes, the two steps of a move."""

from typing import ClassVar

import chess
import pytest
from textual import on
from textual.app import App
from textual.events import Key

from trainer.app.widgets.board import Board, BoardView, Face, Size, board_variables
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.parts import FileColumn, Notice

PROMOTION = "4k3/6P1/8/8/8/8/8/4K3 w - - 0 1"


@pytest.fixture(autouse=True)
def many_colours(monkeypatch):
    """A terminal that has them, whatever the developer's one is."""
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")


class Table(App[None]):
    """A board, and a note of all that comes out of it."""

    AUTO_FOCUS = None
    BINDINGS: ClassVar = [(key, f"key('{key}')", key) for key in ("enter", "space", "escape", "up")]

    def __init__(self, view=None):
        super().__init__()
        self.board, self.heard, self.keys = Board(view), [], []

    def get_theme_variable_defaults(self):
        return board_variables(self.current_theme)

    def compose(self):
        yield self.board

    def on_key(self, event: Key):
        if event.is_printable and event.character != " ":
            self.keys.append(event.key)

    def action_key(self, key):
        self.keys.append(key)

    @on(Board.MoveTried)
    def tried(self, event):
        self.heard.append(
            (chess.square_name(event.from_square), chess.square_name(event.to_square))
        )
        assert event.promotion is None
        assert event.control is self.board

    @on(Board.SquareChosen)
    def chosen(self, event):
        self.heard.append(chess.square_name(event.square))

    @on(Board.HandChanged)
    def changed(self, event):
        self.heard.append(f"hand {'' if event.held is None else chess.square_name(event.held)}")

    @on(Board.Stood)
    def stood(self):
        self.heard.append("stood")


def at(name, flipped=False):
    """The middle of a square at 80x24, where squares are 6x3 and the board has no margin."""
    square = chess.parse_square(name)
    column, row = chess.square_file(square), 7 - chess.square_rank(square)
    if flipped:
        column, row = 7 - column, 7 - row
    return {"offset": (6 * column + 3, 3 * row + 1)}


def marks(board, name):
    """The marks that the board shows on a square."""
    square = chess.parse_square(name)
    size = board.square_size
    look = board.children[1].scene.look(
        chess.square_file(square), 7 - chess.square_rank(square), size
    )
    return look.marks


async def test_click_the_piece_then_its_goal():
    app = Table()
    async with app.run_test() as pilot:
        await pilot.click(Board, **at("g1"))
        assert app.board.held == chess.G1
        assert (marks(app.board, "g1"), marks(app.board, "f3")) == ({Mark.HELD}, {Mark.GOAL})
        await pilot.click(Board, **at("f3"))
        assert app.heard == ["hand g1", "hand ", ("g1", "f3")]
        assert app.focused is None
        assert not marks(app.board, "f3")


async def test_an_illegal_goal_is_posted_and_targets_can_be_off():
    app = Table()
    async with app.run_test() as pilot:
        app.board.show_targets = False
        await pilot.click(Board, **at("g1"))
        assert not marks(app.board, "f3")
        await pilot.click(Board, **at("g5"))
        assert app.heard[-1] == ("g1", "g5")


async def test_drag_with_the_board_flipped():
    app = Table(BoardView(flipped=True))
    async with app.run_test() as pilot:
        await pilot.mouse_down(Board, **at("e2", flipped=True))
        await pilot.hover(Board, **at("e3", flipped=True))
        assert app.board.shown().in_hand == chess.E3
        assert app.board.view == BoardView(flipped=True)
        await pilot.mouse_up(Board, **at("e4", flipped=True))
        assert app.heard[-1] == ("e2", "e4")


async def test_a_pawn_on_the_last_rank_asks_nothing_itself():
    app = Table(BoardView(PROMOTION))
    async with app.run_test() as pilot:
        await pilot.click(Board, **at("g7"))
        await pilot.click(Board, **at("g8"))
        assert app.heard[-1] == ("g7", "g8")


async def test_the_cursor_takes_and_drops():
    app = Table()
    async with app.run_test() as pilot:
        app.board.focus()
        await pilot.press("down", "down")
        assert marks(app.board, "e2") == {Mark.CURSOR}
        await pilot.press("enter", "up", "up", "space")
        assert app.heard == ["hand e2", "hand ", ("e2", "e4")]
        assert app.keys == []


async def test_keys_the_board_has_no_use_for_reach_the_screen():
    app = Table()
    async with app.run_test() as pilot:
        app.board.focus()
        await pilot.press("N", "escape")
        assert app.keys == ["N", "escape"]
        await pilot.click(Board, **at("g1"))
        await pilot.press("escape")
        assert app.board.held is None
        app.board.interactive = False
        await pilot.press("enter", "up")
        assert app.keys == ["N", "escape", "enter", "up"]


async def test_squares_are_chosen_by_click_and_by_key():
    app = Table()
    async with app.run_test() as pilot:
        app.board.choosing = True
        await pilot.click(Board, **at("g1"))
        app.board.focus()
        await pilot.press("space")
        assert app.heard == ["g1", "e4"]


async def test_a_board_that_is_switched_off_takes_nothing():
    app = Table()
    async with app.run_test() as pilot:
        app.board.interactive = False
        await pilot.click(Board, **at("g1"))
        assert app.heard == []


async def test_only_the_squares_that_changed_are_repainted(monkeypatch):
    app, painted = Table(), []
    async with app.run_test() as pilot:
        await pilot.pause()
        monkeypatch.setattr(
            FileColumn, "refresh", lambda _self, *regions, **_: painted.extend(regions)
        )
        board = chess.Board()
        move = board.push_san("e4")
        app.board.view = BoardView(board.fen(), last_move=move)
        assert sorted(region.y for region in painted) == [12, 18]
        assert {region.size for region in painted} == {(6, 3)}


@pytest.mark.parametrize("motion", [True, False], ids=["two steps", "at once"])
async def test_the_opponents_move(motion):
    app = Table()
    board = chess.Board()
    move = board.push_san("e4")
    then = BoardView(board.fen(), last_move=move)
    async with app.run_test() as pilot:
        app.animation_level = "full" if motion else "none"
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
        app.board.tallest = 3
        await pilot.pause()
        assert app.board.square_size == Size(6, 3)
        app.board.letters = True
        app.board.piece_letters = "KDTLSB"
        await pilot.pause()
        assert app.board.square_size == Size(7, 3, Face.CHIPS)
        assert app.board.children[1].scene.look(1, 0, app.board.square_size).letter == "S"


def test_every_key_says_what_it_does():
    for binding in Board.BINDINGS:
        assert binding.id.startswith("board.")
        assert binding.description and binding.tooltip
