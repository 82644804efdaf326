"""The Sitting screen under a user's hands: typed moves, the mouse, the cursor, and mishaps."""

from __future__ import annotations

from pathlib import Path

import chess
import pytest
from textual.app import App
from textual.pilot import Pilot

from tests.app.shelf import (
    AT_ONCE,
    BLACK,
    PROMOTION,
    SHORT,
    click_square,
    qualities,
    seen,
    sitting,
    start,
    still_app,
    study_of,
    type_in,
)
from trainer.app.app import TrainerApp
from trainer.app.screens.sitting import SittingScreen
from trainer.app.screens.today import TodayScreen
from trainer.app.telling.tell import NOTHING_TO_UNDO
from trainer.app.widgets.board import Board
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.move_box import MoveBox
from trainer.errors import TrainerError
from trainer.service.practice import Practice
from trainer.service.preparation import Wish, prepare_practice
from trainer.sitting.sitting import Phase

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_a_whole_sitting_by_typing(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            screen = await start(pilot)
            for move in ("e4", "nc3", "f2f4", "Bc4"):
                await type_in(pilot, move)
                assert screen.teller.sitting.phase is Phase.ANSWERED
                await pilot.press("enter")
            assert "Done: 4 answered" in seen(app)
            await pilot.press("enter")
            assert isinstance(app.screen, TodayScreen)
            assert "Done for today" in seen(app)
        assert qualities(study) == [5, 5, 5, 5]


@pytest.mark.parametrize("size", SIZES)
async def test_a_whole_sitting_by_mouse(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            screen = await start(pilot)
            for squares in ("e2 e4", "b1 c3", "f2 f4", "f1 c4"):
                for name in squares.split():
                    await click_square(pilot, name)
                await _click_key(pilot, "Enter")
            assert screen.teller.sitting.phase is Phase.ENDED
        assert qualities(study) == [5, 5, 5, 5]


@pytest.mark.parametrize("size", SIZES)
async def test_a_move_with_the_board_cursor(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=size) as pilot:
            await start(pilot)
            await pilot.press("tab", "up", "enter", "up", "up", "enter")
            assert "In book, first try" in seen(app)
            await pilot.press("enter")
            assert sitting(app).query_one(Board).has_focus
            assert "2/4" in seen(app)
        assert qualities(study) == [5]


async def test_letters_typed_on_the_board_go_to_the_box(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await pilot.press("tab")
            await type_in(pilot, "e4")
        assert qualities(study) == [5]


async def test_the_typed_text_is_read_back_and_nothing_is_completed(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await type_in(pilot, "e", enter=False)
            assert "pawn" not in seen(app)
            await type_in(pilot, "4", enter=False)
            assert "pawn e2 to e4" in seen(app)
            assert screen.query_one("#box").value == "e4"  # type: ignore[attr-defined]


async def test_nothing_gives_the_answer_away(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(120, 40)) as pilot:
            screen = await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            shown = seen(app)
            assert "Nc3" not in shown and "knight" not in shown and "f4 first" not in shown
            view = screen.query_one(Board).view
            assert (view.arrows, view.squares, view.targets) == ((), (), frozenset())


async def test_hint_then_shown(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await pilot.press("question_mark")
            assert "? The pawn on e2 moves." in seen(app)
            assert screen.query_one(Board).view.arrows == ()
            await pilot.press("question_mark")
            assert "The move is 1. e4" in seen(app)
            assert screen.query_one(Board).view.arrows == ("Ge2e4",)
            await type_in(pilot, "e4")
            assert "In book, as shown" in seen(app)
        assert qualities(study) == [0]


async def test_the_words_do_what_the_keys_do(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await type_in(pilot, "hint")
            assert "The pawn on e2 moves." in seen(app)
            await type_in(pilot, "board")
            assert "White: king e1" in seen(app)
            await type_in(pilot, "e1?")
            assert "e1: white king." in seen(app)
            await type_in(pilot, "show")
            await type_in(pilot, "e4")
            await type_in(pilot, "undo")
            assert "Taken back. White to move." in seen(app)
            await type_in(pilot, "stop")
            assert screen.teller.sitting.phase is Phase.ENDED
        assert qualities(study) == []


async def test_a_mistake_is_taken_back_and_its_comment_stays(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            board = screen.query_one(Board)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            asked = board.view.fen
            await type_in(pilot, "Qh5")
            assert chess.Board(board.view.fen).piece_at(chess.H5) is not None
            assert not board.interactive
            await pilot.pause(1.2)
            assert board.view.fen == asked and board.interactive
            for told in ("× Known mistake: 2. Qh5", "The queen is chased.", "2... Nc6 3. Bc4 g6"):
                assert told in seen(app)
            await type_in(pilot, "Ke3")
            assert "The queen is chased." in seen(app)
            await type_in(pilot, "Nf3")
            assert "× Out of book: 2. Nf3" in seen(app) and "Another opening." in seen(app)
            await type_in(pilot, "Nc3")
            assert "In book, third try" in seen(app)
        assert qualities(study) == [5, 2]


async def test_an_accepted_alternative_goes_back_to_the_fork(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            await type_in(pilot, "f4")
            assert "Right too; the deck's first" in seen(app)
            await pilot.press("enter")
            assert screen.query_one(Board).view.fen.startswith(
                "rnbqkb1r/pppp1ppp/5n2/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR w"
            )


async def test_the_first_look_shows_the_move_and_the_why(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            assert "► First look 1 of 4: 1. e4" in seen(app) and "To the middle." in seen(app)
            await type_in(pilot, "e3")
            assert "This is a first look" in seen(app)
            await type_in(pilot, "e4")
            assert "► First look 2 of 4: 2. Nc3" in seen(app)
            await pilot.press("enter", "enter", "enter")
            assert screen.teller.sitting.phase is Phase.ASKING
        assert qualities(study) == []


async def test_undo_asks_the_card_again(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            assert qualities(study) == [5]
            await pilot.press("ctrl+z")
            assert qualities(study) == [] and "1/4" in seen(app)


async def test_stopping_keeps_every_answer(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            await type_in(pilot, "Qh5")
            await pilot.press("escape")
            assert "Stopped: 1 answered" in seen(app)
            await pilot.press("escape")
            assert isinstance(app.screen, TodayScreen)
        assert qualities(study) == [5]


@pytest.mark.parametrize("way_out", ["ctrl+c", "ctrl+q"])
async def test_leaving_in_the_middle_keeps_every_answer(tmp_path: Path, way_out: str) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "e4")
            await pilot.press("enter")
            await type_in(pilot, "Nc", enter=False)
            await pilot.press(way_out)
        assert app.return_code == 0
        assert qualities(study) == [5]


async def test_an_answer_that_cannot_be_saved_may_be_given_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise TrainerError("the data file cannot be written [disk full]; try again")

    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(100, 30), notifications=True) as pilot:
            screen = await start(pilot)
            with monkeypatch.context() as patched:
                patched.setattr(Practice, "_record", fail)
                await type_in(pilot, "e4")
            await pilot.pause()
            assert "[disk full]" in seen(app)
            assert screen.teller.sitting.phase is Phase.ASKING
            await pilot.press("enter")
        assert qualities(study) == [5]


async def test_a_promotion_asks_for_the_piece(tmp_path: Path) -> None:
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await click_square(pilot, "a7")
            await click_square(pilot, "a8")
            assert "Which piece does it become?" in seen(app)
            await pilot.press("escape")
            assert "White to move." in seen(app)
            assert screen.teller.sitting.phase is Phase.ASKING
            await click_square(pilot, "a7")
            await click_square(pilot, "a8")
            await pilot.press("n")
            assert "In book, first try" in seen(app)
        assert qualities(study) == [5]


async def test_a_promotion_by_mouse(tmp_path: Path) -> None:
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await click_square(pilot, "a7")
            await click_square(pilot, "a8")
            row = next(y for y, line in enumerate(seen(app).split("\n")) if "knight" in line)
            await pilot.click(offset=(53, row))
        assert qualities(study) == [5]


async def test_a_piece_in_hand_is_put_down_before_anything_stops(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await click_square(pilot, "e2")
            await pilot.press("escape")
            assert screen.query_one(Board).held is None
            assert screen.teller.sitting.phase is Phase.ASKING


async def test_escape_leads_from_the_board_to_the_box_and_only_then_stops(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            assert "Esc stop" in _keys(app)
            await pilot.press("tab", "down", "down", "space")
            assert "Esc put down" in _keys(app)
            await pilot.press("escape")
            assert screen.query_one(Board).has_focus and "Esc box" in _keys(app)
            await pilot.press("question_mark")
            assert screen.query_one(Board).has_focus and "The pawn on e2 moves." in seen(app)
            await pilot.press("escape")
            assert screen.query_one(MoveBox).has_focus and "Esc stop" in _keys(app)
            assert screen.teller.sitting.phase is Phase.ASKING
            await pilot.press("escape")
            assert screen.teller.sitting.phase is Phase.ENDED


async def test_the_keys_shown_are_those_that_work(tmp_path: Path) -> None:
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await click_square(pilot, "a7")
            await click_square(pilot, "a8")
            promoting = _keys(app)
            assert "Esc put down" in promoting
            assert not any(dead in promoting for dead in ("Enter", "hint", "Tab", "stop"))
            await pilot.press("n")
            assert "Ctrl+Z undo" in _keys(app) and "Enter next" in _keys(app)
            await pilot.press("enter")
            assert "Enter back" in _keys(app) and "Tab" not in _keys(app)


async def test_undo_without_an_answer_says_so(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            await pilot.press(*"undo", "enter")
            assert NOTHING_TO_UNDO in screen.moment.page


async def test_black_sits_below_and_f3_turns(tmp_path: Path) -> None:
    with study_of(tmp_path, BLACK, settings=AT_ONCE, side="black") as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = await start(pilot)
            board = screen.query_one(Board)
            assert board.view.flipped and "Black to move." in seen(app)
            await pilot.press("f3")
            assert not board.view.flipped
            await type_in(pilot, "c6")
            assert not board.view.flipped


async def test_hesitation_counts_from_the_moment_the_board_stands_still(tmp_path: Path) -> None:
    now = 0.0
    with study_of(tmp_path, BLACK, settings=AT_ONCE, side="black") as study:
        app = TrainerApp(study)
        async with app.run_test(size=(80, 24)) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: now))
            now = 60.0  # a slow terminal: the opponent's move is still on its way
            await pilot.pause(0.5)
            now = 63.0
            await type_in(pilot, "c6")
            assert "first try, 3.0 s" in seen(app)


async def test_it_follows_the_size_of_the_terminal(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await pilot.resize_terminal(60, 15)
            await pilot.pause()
            assert "73 columns and 20 rows" in " ".join(seen(app).split())
            assert "White to move" not in seen(app)
            await pilot.resize_terminal(120, 40)
            await pilot.pause()
            assert "The line begins here. White to move." in seen(app)
            await type_in(pilot, "e4")
            assert "Now they play" in seen(app)


async def test_nothing_is_played_in_a_window_without_a_board(tmp_path: Path) -> None:
    now = 0.0
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = SittingScreen(study, prepare_practice(study, Wish()), lambda: now)
            app.push_screen(screen)
            await pilot.pause()
            await pilot.resize_terminal(72, 24)
            await pilot.pause()
            await type_in(pilot, "e4")
            await pilot.press("tab", "up", "enter", "up", "up", "enter", "question_mark")
            await pilot.press("f2", "f3", "ctrl+z")
            prompt = screen.teller.open_prompt
            assert prompt is not None and not prompt.hint and not screen.turned
            now = 100.0
            await pilot.resize_terminal(80, 24)
            await pilot.pause()
            now = 102.0
            await type_in(pilot, "e4")
            assert "first try, 2.0 s" in seen(app)
        assert qualities(study) == [5]


async def test_a_window_without_a_board_can_be_left(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await pilot.resize_terminal(80, 19)
            await pilot.pause()
            await pilot.press("escape", "escape")
            assert isinstance(app.screen, TodayScreen)


async def test_a_typed_promotion_without_its_piece_asks_for_it(tmp_path: Path) -> None:
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            await type_in(pilot, "a8")
            assert "Which piece does it become?" in seen(app)
            await pilot.press("n")
            assert "In book, first try" in seen(app)
        assert qualities(study) == [5]


async def test_time_under_the_help_is_no_hesitation(tmp_path: Path) -> None:
    now = 0.0
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            practice = prepare_practice(study, Wish())
            app.push_screen(SittingScreen(study, practice, lambda: now))
            await pilot.pause()
            now = 3.0
            await pilot.press("f4")
            now = 60.0
            await pilot.press("escape")
            now = 62.0
            await type_in(pilot, "e4")
            assert "first try, 5.0 s" in seen(app)
        assert qualities(study) == [5]


async def test_what_is_said_twice_is_taken_away(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            await start(pilot)
            before = seen(app)
            await pilot.press("f5")
            assert "Material is even." in seen(app)
            await pilot.press("f5")
            assert seen(app) == before


def _keys(app: App[None]) -> str:
    bar = next(bar for bar in app.screen.query(KeyBar) if bar.display and bar.size)
    rows = seen(app).split("\n")[bar.region.y : bar.region.bottom]
    return "\n".join(row[bar.region.x :] for row in rows)


async def _click_key(pilot: Pilot[None], name: str) -> None:
    app = pilot.app
    rows = seen(app).split("\n")
    bar = next(bar for bar in app.screen.query(KeyBar) if bar.display and bar.size)
    y = next(y for y in range(bar.region.y, bar.region.bottom) if name in rows[y])
    await pilot.click(offset=(rows[y].index(name), y))
