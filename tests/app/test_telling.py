"""What the desk says of each effect of a sitting, without a screen."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import chess
import pytest

from tests.app.shelf import AT_ONCE, BLACK, PROMOTION, SHORT, study_of
from trainer.app.telling.blocks import Gauges, Paragraph, Room, Rows
from trainer.app.telling.moment import Moment, Tone
from trainer.app.telling.sections import ends_behind
from trainer.app.telling.sheet import Sheet, SheetRow, sheet
from trainer.app.telling.teller import Teller
from trainer.app.telling.typing import Word, read_back, read_word
from trainer.app.widgets.strip import Course, cells
from trainer.lines.letters import ENGLISH, LANGUAGES
from trainer.service.preparation import Wish, prepare_practice
from trainer.sitting.events import (
    GoOn,
    HintWanted,
    MoveMade,
    MoveTyped,
    ShowWanted,
    Stop,
    UndoWanted,
)


@pytest.fixture
def told(tmp_path: Path) -> Iterator[Teller]:
    """A sitting of the short deck, at its first prompt."""
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        teller = Teller(study, prepare_practice(study, Wish()), lambda: 0.0)
        teller.begin()
        yield teller


def play(told: Teller, *moves: str) -> Moment:
    """Type moves, and go on between them."""
    for move in moves[:-1]:
        told.send(lambda seconds, move=move: MoveTyped(move, seconds))
        told.send(GoOn)
    return told.send(lambda seconds: MoveTyped(moves[-1], seconds))


def texts(moment: Moment) -> list[str]:
    """The paragraphs of the page."""
    return [block.text for block in moment.page if isinstance(block, Paragraph)]


TOLD = [
    ("asked", ["e4", "go"], "", "White to move.", ["Black: pawn e7 to e5."]),
    ("in book", ["e4"], "●", "In book, first try, 0.0 s", ["To the middle."]),
    ("alternative", ["e4", "go", "f4"], "●", "In book, first try, 0.0 s", ["Right too; the"]),
    ("mistake", ["e4", "go", "Qh5"], "×", "Known mistake: 2. Qh5", ["The queen is chased."]),
    ("refuted", ["e4", "go", "Qh5"], "×", "Known mistake: 2. Qh5", ["2... Nc6 3. Bc4 g6"]),
    ("aside", ["e4", "go", "Nf3"], "×", "Out of book: 2. Nf3", ["Another opening."]),
    ("out of book", ["a3"], "×", "Out of book: 1. a3", ["Not a move of this deck."]),
    ("illegal", ["e5"], "!", "A pawn does not move from e2 to e5.", []),
    ("unreadable", ["hello"], "!", '"hello" is no move; a move looks like Nf3, exd5 or O-O.', []),
    ("hint", ["hint"], "?", "The pawn on e2 moves.", ["With a hint the best score left is 3."]),
    ("hint late", ["a3", "hint"], "?", "The pawn on e2 moves.", ["the best score left is 1."]),
    ("shown", ["show"], "►", "The move is 1. e4", ["Pawn e2 to e4."]),
    ("as shown", ["show", "e4"], "●", "In book, as shown", ["It comes again"]),
    ("hinted", ["hint", "e4"], "●", "In book, with a hint", ["It comes again"]),
    ("second try", ["a3", "e4"], "●", "In book, second try", ["It comes again"]),
    ("undone", ["e4", "undo"], "", "Taken back. White to move.", []),
    ("nothing undone", ["undo"], "", "White to move.", ["no answer of this sitting"]),
    ("stopped", ["e4", "go", "stop"], "●", "Stopped: 1 answered in 0:00", ["1 at the first try."]),
    ("nothing asked", ["stop"], "○", "Nothing was answered", []),
]

EVENTS = {"go": GoOn, "hint": HintWanted, "show": ShowWanted, "undo": UndoWanted, "stop": Stop}


@pytest.mark.parametrize(
    ("steps", "sign", "headline", "said"), [row[1:] for row in TOLD], ids=[row[0] for row in TOLD]
)
def test_sentences(
    told: Teller, steps: list[str], sign: str, headline: str, said: list[str]
) -> None:
    for step in steps:
        told.send(EVENTS.get(step) or (lambda seconds, step=step: MoveTyped(step, seconds)))
    moment = told.moment
    assert (moment.sign, moment.headline) == (sign, headline)
    page = " | ".join(texts(moment))
    for sentence in said:
        assert sentence in page


def test_a_transposition_is_neither_right_nor_wrong(tmp_path: Path) -> None:
    knight_out = "rnbqkbnr/pppppppp/8/8/8/2N5/PPPPPPPP/R1BQKBNR b KQkq - 1 1"
    second = f'[SetUp "1"]\n[FEN "{knight_out}"]\n\n1... e5 2. e4 *'
    with study_of(tmp_path, "1. e4 e5 *", second, settings=AT_ONCE) as study:
        told = Teller(study, prepare_practice(study, Wish()), lambda: 0.0)
        told.begin()
        moment = play(told, "Nc3")
        assert (moment.sign, moment.headline) == ("≈", "Transposes: 1. Nc3")
        assert texts(moment)[-1] == "Neither right nor wrong: try again."
        assert moment.missed == ()


def test_no_moment_before_the_answer_draws_or_names_the_move(told: Teller) -> None:
    play(told, "e4")
    asked = told.send(GoOn)
    for moment in (asked, told.send(HintWanted), told.send(lambda s: MoveTyped("Qh5", s))):
        view = moment.stage.view
        assert (view.arrows, view.squares, view.targets, view.in_hand) == ((), (), set(), None)
        assert "Nc3" not in f"{moment.headline} {moment.page}"


def test_a_try_is_shown_and_then_taken_back(told: Teller) -> None:
    stage = play(told, "a3").stage
    assert stage.arriving is None and stage.before is not None
    assert chess.Board(stage.before.fen).piece_at(chess.A3) is not None
    assert stage.view.fen == chess.STARTING_FEN


def test_the_opponents_move_arrives_in_two_steps(told: Teller) -> None:
    play(told, "e4")
    stage = told.send(GoOn).stage
    assert stage.arriving == chess.Move.from_uci("e7e5")
    assert stage.before is not None
    board = chess.Board(stage.before.fen)
    board.push(stage.arriving)
    assert board.board_fen() == chess.Board(stage.view.fen).board_fen()


def test_a_hint_keeps_what_was_said_of_a_mistake(told: Teller) -> None:
    play(told, "e4", "Qh5")
    moment = told.send(HintWanted)
    assert "The queen is chased." in texts(moment)
    assert "Taken back: try again." not in texts(moment)


def test_a_roomy_desk_adds_replies_and_history(told: Teller) -> None:
    moment = play(told, "e4", "Nc3")
    gauges = next(block for block in moment.page if isinstance(block, Gauges))
    assert gauges.rows == (("2... Nf6", 0.6, "60%"), ("2... Nc6", 0.3, "30%"))
    rows = {block.heading: dict(block.rows) for block in moment.page if isinstance(block, Rows)}
    assert rows["This position"] == {
        "scores": "▇  asked once",
        "next": "tomorrow, Fri 4 Dec",
        "lines": "3 of 3 go through it",
    }
    assert Rows((("arrows", "G f2 to f4"),)) in moment.page
    assert Rows((("themes", "f4 first"),), room=Room.ROOMY) in moment.page
    narrow = [b for b in moment.page if isinstance(b, Paragraph) and b.room is Room.NARROW]
    assert [block.text for block in narrow] == ["Next tomorrow, Fri 4 Dec."]


def test_the_end_of_a_sitting_names_what_was_hard(told: Teller) -> None:
    play(told, "a3")
    moment = play(told, "e4", "Nc3", "f4", "Bc4", "e4")
    moment = told.send(GoOn)
    assert moment.headline == "Done: 5 answered in 0:00"
    assert texts(moment)[0] == "3 at the first try, 1 missed; 1 asked again."
    assert texts(moment)[1].startswith(
        "All done for today. Lines shows the hardest one in its place. Tomorrow: 4 positions due"
    )
    (hard,) = (block for block in moment.page if isinstance(block, Rows))
    assert hard.rows == (("missed", "1. e4"),)
    assert moment.tone is Tone.GOOD


def test_the_clock_stands_still_until_the_board_does(tmp_path: Path) -> None:
    now = 0.0
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        told = Teller(study, prepare_practice(study, Wish()), lambda: now)
        told.begin()
        now = 5.0
        told.stood()
        now = 7.5
        assert play(told, "e4").headline == "In book, first try, 2.5 s"


def test_the_sheet_opens_its_box_for_the_side_that_moves(told: Teller, tmp_path: Path) -> None:
    card = play(told, "e4", "Nc3").card
    assert card is not None
    assert sheet(card) == Sheet((SheetRow(1, "e4", "e5"),), 2, "", True)
    (tmp_path / "b").mkdir()
    with study_of(tmp_path / "b", BLACK, settings=AT_ONCE, side="black") as study:
        practice = prepare_practice(study, Wish())
        second = practice.sitting.ahead[1].card
        assert sheet(second) == Sheet((SheetRow(1, "e4", "c6"),), 2, "Nc3", False)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", ""),
        ("N", ""),
        ("Nf", ""),
        ("Nf3", "knight g1 to f3"),
        ("e2e4", "pawn e2 to e4"),
        ("e5", ""),
        ("hint", ""),
    ],
)
def test_read_back(text: str, words: str) -> None:
    assert read_back(chess.Board(), text, ENGLISH) == words


def test_read_back_of_what_is_not_clear_and_of_other_letters() -> None:
    two = chess.Board("4k3/8/8/8/8/8/8/1N2KN2 w - - 0 1")
    assert read_back(two, "Nd2", ENGLISH) == "more than one move fits"
    assert read_back(two, "Nbd2", ENGLISH) == "knight b1 to d2"
    assert read_back(chess.Board(), "Sf3", LANGUAGES["de"]) == "knight g1 to f3"


@pytest.mark.parametrize(
    ("text", "word"), [("Hint", Word.HINT), (" undo ", Word.UNDO), ("hints", None), ("", None)]
)
def test_words(text: str, word: Word | None) -> None:
    assert read_word(text) is word


def test_a_promotion_is_judged_with_its_piece(tmp_path: Path) -> None:
    with study_of(tmp_path, PROMOTION, settings=AT_ONCE) as study:
        told = Teller(study, prepare_practice(study, Wish()), lambda: 0.0)
        told.begin()
        made = told.send(lambda s: MoveMade(chess.A7, chess.A8, chess.QUEEN, s))
        assert made.sign == "×"
        made = told.send(lambda s: MoveMade(chess.A7, chess.A8, chess.KNIGHT, s))
        assert made.sign == "●"


@pytest.mark.parametrize(
    ("course", "width", "strip"),
    [
        (Course((5, 0, 3), True, 2), 22, "▇▁▅|··"),
        (Course((5, 4, 2, 3), False, 0), 2, "▆▃"),
        (Course((5, 5), True, 5), 4, "▇|··"),
        (Course(), 22, ""),
    ],
)
def test_the_strip(course: Course, width: int, strip: str) -> None:
    """Worked by hand; a squeezed cell shows its worst answer."""
    assert cells(course, width) == strip


def test_ends_behind_counts_each_end_once(told: Teller) -> None:
    book = told.sitting.books["vienna", "white"]
    assert ends_behind(book, book.roots) == 3


def test_a_first_look_ends_with_what_the_game_says_first(tmp_path: Path) -> None:
    with study_of(tmp_path, "{Why we play this.}\n" + SHORT) as study:
        page = Teller(study, prepare_practice(study, Wish()), lambda: 0.0).begin().page
    assert page[-1] == Paragraph("Why we play this.", quiet=True)
