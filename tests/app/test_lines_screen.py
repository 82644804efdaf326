"""Lines on the screen: walking, folding, finding, practising, at the sizes that matter most."""

from __future__ import annotations

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import chess
import pytest
from textual.binding import Binding
from textual.events import Key
from textual.pilot import Pilot
from textual.strip import Strip

from tests.app.shelf import AT_ONCE, SHORT, qualities, seen, sitting, still_app, study_of, type_in
from tests.app.shelf import write_deck as write
from tests.app.test_hostile_text import NASTY
from trainer.app.screens.lines import LinesScreen
from trainer.app.screens.lines_keys import BINDINGS
from trainer.app.screens.today import TodayScreen
from trainer.app.widgets.board import Board
from trainer.app.widgets.find_box import FindBox
from trainer.app.widgets.line_tree import LineTree
from trainer.service.decks.shelving import add_deck
from trainer.service.study import Study

GAME = """[Event "The patient bishop"]

{First the knight, then the bishop.} 1. e4 {To the middle.} e5 2. Nc3 {[%theme f4 later]}
(2. Qh5? {The queen is chased.} 2... Nc6 3. Bc4 g6) 2... Nf6 {[%share 60]}
(2... Nc6 {[%share 30] Calm.} 3. Bc4 {Eyes f7. [%csl Gf7]} Nf6 4. d3) 3. Bc4 Nc6 4. d3 d6 *
"""
"""Five cards: e4, Nc3, 3. Bc4 after each reply, and d3, in which the two lines join."""

SIZES = [(80, 24), (120, 40)]


@asynccontextmanager
async def lines(
    study: Study, size: tuple[int, int], at: str | None = None
) -> AsyncIterator[tuple[Pilot[None], LinesScreen]]:
    """The screen, opened over Today."""
    app = still_app(study)
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        app.push_screen(LinesScreen(study, at=at))
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, LinesScreen)
        yield pilot, screen


def told(pilot: Pilot[None]) -> str:
    """The words of the desk, without the board."""
    left = 49 if pilot.app.size.width == 80 else 68
    return " ".join(" ".join(row[left:] for row in seen(pilot.app).split("\n")).split())


def place(screen: LinesScreen) -> str:
    """The line to where one stands; the board shows its position."""
    assert screen.here is not None
    shown = chess.Board(screen.query_one(Board).view.fen)
    assert shown.epd() == screen.here.position.key
    return screen.here.report.tree.line(screen.here.spot)


@pytest.mark.parametrize("size", SIZES)
async def test_walking(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, size) as (pilot, screen):
            assert place(screen) == ""
            assert "○ 1 e4 e5 2 Nc3" in told(pilot) and "2...Nf6 3 Bc4 Nc6" in told(pilot)
            assert "5 positions from here: 5 fresh." in told(pilot)
            await pilot.press("right")
            assert place(screen) == "1. e4" and "To the middle." in seen(pilot.app)
            await pilot.press("down", "right")
            assert place(screen) == "1. e4 e5 2. Nc3 Nf6 3. Bc4"
            await pilot.press("down")
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6" and "Calm." in seen(pilot.app)
            await pilot.press("left")
            assert place(screen) == "1. e4 e5 2. Nc3"
            await pilot.press("end")
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6"
            await pilot.press("home", "left")
            assert place(screen) == ""
            await pilot.press("escape")
            assert isinstance(pilot.app.screen, TodayScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_a_join_is_followed(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, size) as (pilot, screen):
            assert "= 3...Nc6" in seen(pilot.app)
            await pilot.press("end", "right", "right")
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6"
            assert "Transposes: the line goes on" in told(pilot)
            await pilot.press("right")
            assert place(screen) == "1. e4 e5 2. Nc3 Nf6 3. Bc4 Nc6"


@pytest.mark.parametrize("size", SIZES)
async def test_folding(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, size) as (pilot, screen):
            rows = screen.query_one(LineTree)
            assert len(rows.rows) == 3 and "Space fold" in seen(pilot.app)
            await pilot.press("space")
            assert len(rows.rows) == 1 and "2 Nc3 ► 2" in seen(pilot.app)
            assert "Space unfold" in seen(pilot.app)
            await pilot.press("right", "right", "right", "right")
            assert len(rows.rows) == 3 and place(screen).endswith("2. Nc3 Nf6")
            assert "Space" not in seen(pilot.app)
            await pilot.click(LineTree, offset=(0, 0))
            assert place(screen) == ""
            await pilot.click(LineTree, offset=(0, 1))
            assert place(screen) == "1. e4 e5 2. Nc3 Nf6"
            await pilot.click(LineTree, offset=(17, 2))
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6"


async def test_a_large_tree_begins_as_an_overview(tmp_path: Path) -> None:
    names = ["b6", "b5", "c6", "c5", "d6", "d5", "f6", "f5", "g6", "g5", "e6", "Nc6", "Nf6"]
    replies = " ".join(f"(1... {name} 2. Nf3 a5 (2... h5))" for name in names)
    with study_of(tmp_path, f"1. e4 e5 {replies} 2. Nf3 a5 (2... h5) *") as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            rows = screen.query_one(LineTree)
            assert len(rows.rows) == 15 and "1...b6 2 Nf3 ► 2" in seen(pilot.app)
            await pilot.press("plus")
            assert len(rows.rows) == 43
            await pilot.press("end", "ctrl+up")
            assert rows.spot.stretch == 42 - rows.page
            await pilot.press("minus")
            assert 15 <= len(rows.rows) <= 17


@pytest.mark.parametrize("size", SIZES)
async def test_finding(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, size) as (pilot, screen):
            await type_in(pilot, "Nc3 Nc6 e4 e5")
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6"
            await pilot.press("escape", "slash")
            await type_in(pilot, "bishop")
            assert place(screen) == "" and "The patient bishop" in seen(pilot.app)
            await pilot.press("escape")
            await type_in(pilot, "f4 later")
            assert place(screen) == "1. e4 e5 2. Nc3"
            await pilot.press("escape")
            await type_in(pilot, "zebra")
            assert "No line and no title here has “zebra”." in told(pilot)
            await pilot.press("escape")
            assert not screen.finding and pilot.app.screen is screen
            assert screen.focused is None


async def test_a_search_may_be_typed_ahead(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            for letter in "e4 e5":
                pilot.app.post_message(Key("space" if letter == " " else letter, letter))
            pilot.app.post_message(Key("enter", None))
            await pilot.pause()
            assert screen.query_one(FindBox).value == "e4 e5"
            assert place(screen) == "1. e4 e5"


async def test_places_found_follow_each_other(tmp_path: Path) -> None:
    game = "1. e4 {[%theme centre]} e5 2. Nc3 {[%theme Centre]} Nf6 3. f4 *"
    with study_of(tmp_path, game) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            await type_in(pilot, "centre")
            assert place(screen) == "1. e4" and "1 of 2" in seen(pilot.app)
            await pilot.press("enter")
            assert place(screen) == "1. e4 e5 2. Nc3" and "2 of 2" in seen(pilot.app)
            await pilot.press("enter")
            assert place(screen) == "1. e4"


@pytest.mark.parametrize("size", SIZES)
async def test_practising_a_branch_and_coming_back(tmp_path: Path, size: tuple[int, int]) -> None:
    with study_of(tmp_path, GAME, settings=AT_ONCE) as study:
        async with lines(study, size) as (pilot, screen):
            await pilot.press("end", "enter")
            await pilot.pause()
            sit = sitting(pilot.app)
            ahead = [prompt.card.line for prompt in sit.teller.sitting.ahead]
            assert ahead == ["1. e4 e5 2. Nc3 Nc6"]
            assert told(pilot).startswith("Vienna 1/2")
            for move in ("d3", "Bc4"):
                await type_in(pilot, move)
                await pilot.press("enter")
            await pilot.press("enter")
            assert pilot.app.screen is screen and qualities(study) == [5, 5]
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6"
            assert "1 position from here: 1 holds." in told(pilot)
            await pilot.press("home")
            assert "5 positions from here: 2 hold, 3 fresh." in told(pilot)


@pytest.mark.parametrize("theme", ["textual-dark", "textual-light", "ansi-dark"])
async def test_the_selected_move_stands_out_in_any_theme(tmp_path: Path, theme: str) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            pilot.app.theme = theme
            await pilot.press("right")
            row = {s.text: s.style for s in screen.query_one(LineTree).render_line(0) if s.style}
            selected, other = row["e4"], row["e5"]
            papers = selected.bgcolor, other.bgcolor
            assert selected.reverse or (papers[0] == other.color and papers[0] != papers[1])


async def test_the_collector_walks_everything_again_afterwards(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME) as study:
        async with lines(study, (80, 24)) as (pilot, _):
            assert gc.get_freeze_count() > 0 and gc.isenabled()
            await pilot.press("escape")
            await pilot.pause()
            assert gc.get_freeze_count() == 0


async def test_it_opens_where_it_is_told_to(tmp_path: Path) -> None:
    board = chess.Board()
    for san in ("e4", "e5", "Nc3", "Nc6"):
        board.push_san(san)
    with study_of(tmp_path, GAME) as study:
        async with lines(study, (80, 24), at=board.epd()) as (_, screen):
            assert place(screen) == "1. e4 e5 2. Nc3 Nc6"


async def test_another_deck_and_its_side(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME) as study:
        add_deck(study, write(tmp_path / "b", "1. e4 c6 *", deck="caro", side="black", title="C"))
        async with lines(study, (120, 40)) as (pilot, screen):
            assert "1 of 2" in seen(pilot.app)
            await pilot.press("tab")
            assert "C · Black · 1 position to know" in seen(pilot.app)
            assert screen.query_one(Board).view.flipped
            await pilot.press("f3")
            assert not screen.query_one(Board).view.flipped
            await pilot.press("tab")
            assert "Vienna · White" in seen(pilot.app)


async def test_a_deck_of_which_nothing_is_open(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME) as study:
        closed = write(tmp_path / "b", "1. c4 *", deck="later", title="Later")
        manifest = closed / "deck.toml"
        manifest.write_text(f"{manifest.read_text()}opens = 2026-12-08\n")
        add_deck(study, closed)
        async with lines(study, (80, 24)) as (pilot, screen):
            await pilot.press("right", "tab")
            assert "Nothing of these lines is open yet." in told(pilot)
            assert "Main roads: opens on Tue 8 Dec" in told(pilot) and "c4" not in told(pilot)
            assert screen.query_one(Board).view.fen == chess.STARTING_FEN
            await pilot.press("down", "right", "space", "enter", "x", "tab")
            assert place(screen) == ""


async def test_without_a_deck_it_says_what_to_do(tmp_path: Path) -> None:
    with study_of(tmp_path) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            app.push_screen(LinesScreen(study))
            await pilot.pause()
            assert "There is no deck yet" in seen(app)
            await pilot.press("down", "enter", "x", "space", "f2", "f5", "tab", "slash")
            assert isinstance(app.screen, LinesScreen)
            await pilot.press("escape")
            assert not isinstance(app.screen, LinesScreen)


async def test_a_window_too_small_says_so_and_nothing_else(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT) as study:
        async with lines(study, (60, 20)) as (pilot, screen):
            assert "73" in seen(pilot.app) and "e4" not in seen(pilot.app)
            await pilot.press("right", "x", "enter")
            assert pilot.app.screen is screen and not screen.finding
            assert screen.here is not None and screen.here.spot.step == 0


async def test_a_step_paints_only_the_rows_that_change(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    painted: list[int] = []
    paint = LineTree.render_line

    def noted(self: LineTree, y: int) -> Strip:
        painted.append(y)
        return paint(self, y)

    monkeypatch.setattr(LineTree, "render_line", noted)
    with study_of(tmp_path, GAME) as study:
        async with lines(study, (80, 24)) as (pilot, _):
            painted.clear()
            await pilot.press("right")
            assert set(painted) == {0}
            await pilot.press("down")
            assert set(painted) == {0, 1}


@pytest.mark.parametrize("size", SIZES)
async def test_text_of_a_deck_is_never_markup(tmp_path: Path, size: tuple[int, int]) -> None:
    game = f'[Event "{NASTY}"]\n\n{{{NASTY}}} 1. e4 {{{NASTY} [%theme [/x] [e4]]}} e5 2. Nc3 *'
    with study_of(tmp_path, game, title=NASTY, chapter=NASTY) as study:
        async with lines(study, size) as (pilot, screen):
            assert "[/x] [e4]" in seen(pilot.app)
            await pilot.press("right", "f2", "f5", "f4", "escape", "slash")
            screen.query_one("#find").insert_text_at_cursor(NASTY)  # type: ignore[attr-defined]
            await pilot.press("enter")
            assert "[/x] [e4]" in seen(pilot.app)
            for row in range(size[1]):
                await pilot.click(offset=(size[0] - 20, row))
            assert pilot.app.is_running and pilot.app.screen is screen


def test_every_binding_has_an_id_and_a_sentence() -> None:
    ids = set()
    for binding in BINDINGS:
        assert isinstance(binding, Binding) and binding.id and binding.tooltip.endswith(".")
        assert binding.id not in ids
        ids.add(binding.id)


SET_UP = '[SetUp "1"]\n[FEN "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"]\n\n1. e3 Kd7 2. Kd2 Kc6 *'


async def test_a_branch_that_starts_in_a_set_up_position(tmp_path: Path) -> None:
    """Only what stands at it and after it is asked, not every start of the deck."""
    with study_of(tmp_path, GAME, SET_UP, settings=AT_ONCE) as study:
        async with lines(study, (120, 40)) as (pilot, _screen):
            await pilot.press("end")
            assert "2 positions from here" in told(pilot)
            await pilot.press("enter")
            asked = sitting(pilot.app).teller.sitting
            assert 1 + len(asked.ahead) == 2
            assert asked.current is not None and asked.current.card.start.startswith("4k3")


async def test_lines_that_cannot_be_read_are_one_sentence(tmp_path: Path) -> None:
    with study_of(tmp_path, GAME) as study:
        study.db.execute("DELETE FROM lines")
        async with lines(study, (120, 40)) as (pilot, _screen):
            assert "add the deck again" in told(pilot)
            await pilot.press("right", "tab", "enter", "f5", "escape")
            assert isinstance(pilot.app.screen, TodayScreen)


@pytest.mark.parametrize("text", ["e4 e5 Sc3", "1. e4 e5 2. Nc3 *", "e2e4 e5 Sc3 1-0"])
async def test_moves_are_found_in_the_letters_of_the_reader(tmp_path: Path, text: str) -> None:
    with study_of(tmp_path, SHORT, settings='piece_letters = "de"\n') as study:
        async with lines(study, (80, 24)) as (pilot, screen):
            await pilot.press("slash")
            await type_in(pilot, text)
            assert screen.here is not None
            assert chess.Board(screen.here.view.fen).piece_at(chess.C3) == chess.Piece.from_symbol(
                "N"
            )
