"""What the desk says of questions, tactics and model games, without a screen."""

from __future__ import annotations

from pathlib import Path

import chess
import pytest

from tests.app.kinds_deck import CHAPTERS, kinds_study, teller_of
from trainer.app.telling.blocks import Choices, Paragraph, Rows
from trainer.app.telling.heading import title, whose
from trainer.app.telling.moment import Moment, Tone, Wants
from trainer.app.telling.sheet import sheet
from trainer.app.telling.teller import Teller
from trainer.app.telling.typing import squares_in, toggled, typed_answer
from trainer.app.widgets.strip import Course
from trainer.service.preparation import Wish, prepare_practice
from trainer.sitting.events import AnswerChosen, GoOn, MoveTyped, SquaresChosen, Stop, UndoWanted
from trainer.sitting.sitting import Phase

EVENTS = {"go": GoOn, "undo": UndoWanted, "stop": Stop}


def step(told: Teller, *steps: str) -> Moment:
    """Words, help, numbers chosen and texts typed, in turn."""
    for text in steps:
        if text in EVENTS:
            told.send(EVENTS[text])
        elif text == "?":
            told.help()
        else:
            told.type(text)
    return told.moment


def said(moment: Moment) -> str:
    """All words of the page."""
    words = []
    for block in moment.page:
        if isinstance(block, Paragraph):
            words.append(block.text)
        elif isinstance(block, Rows):
            words += [f"{label} {text}" for label, text in block.rows]
    return " | ".join(words)


SQUARES = "Which squares near Black's king does only the king guard?"
TO_MOVE = ["f7 d8", "go"]
TO_CHOOSE = [*TO_MOVE, "Nf3", "go"]

IDEAS = [
    ("asked", [], "", SQUARES, "Type the square or squares"),
    ("not all", ["f7"], "×", "No, not f7", SQUARES),
    ("right", ["d8, f7"], "●", "Right, first try, 0.0 s", "No other piece looks there."),
    ("second try", ["f7", "F7 D8"], "●", "Right, second try", "It comes again"),
    ("no squares", ["Nf3"], "!", "Squares are asked here, such as d4 e5.", SQUARES),
    ("no hint", ["?"], "?", "A question has no hint.", SQUARES),
    ("shown", ["?", "?"], "►", "The squares are d8 f7", "Choose them to go on."),
    ("as shown", ["?", "?", "d8 f7"], "●", "Right, as shown", "It comes again"),
    ("a move asked", TO_MOVE, "", "How does White attack e5 at once?", "White to move."),
    ("a wrong move", [*TO_MOVE, "Bc4"], "×", "No, not 2. Bc4", "try again"),
    (
        "an illegal one",
        [*TO_MOVE, "Nf4"],
        "!",
        "White has no knight that can reach f4.",
        "attack e5",
    ),
    ("the move", [*TO_MOVE, "Nf3"], "●", "Right, first try, 0.0 s", "The knight hits e5."),
    ("the move shown", [*TO_MOVE, "?", "?"], "►", "The move is 2. Nf3", "Play it to go on."),
    ("choices", TO_CHOOSE, "", "What does 2. f4 offer?", "White to move."),
    ("a wrong one", [*TO_CHOOSE, "1"], "×", "No, not answer 1", "What does 2. f4 offer?"),
    ("no such one", [*TO_CHOOSE, "7"], "!", "The answers are numbered from 1 to 3.", "2. f4"),
    ("a word", [*TO_CHOOSE, "pawn"], "!", "The number of one of the answers is asked here.", ""),
    ("the right one", [*TO_CHOOSE, "2"], "●", "Right, first try, 0.0 s", "a pawn. | The f-pawn."),
    ("its number shown", [*TO_CHOOSE, "?", "?"], "►", "The answer is 2", "Type 2 to go on."),
    ("undone", ["f7 d8", "undo"], "", SQUARES, "is taken back and asked again"),
]


@pytest.mark.parametrize(
    ("steps", "sign", "headline", "words"),
    [row[1:] for row in IDEAS],
    ids=[row[0] for row in IDEAS],
)
def test_questions(tmp_path: Path, steps: list[str], sign: str, headline: str, words: str) -> None:
    with kinds_study(tmp_path) as study:
        moment = step(teller_of(study, "ideas"), *steps)
        assert (moment.sign, moment.headline) == (sign, headline)
        assert words in said(moment)


def test_squares_are_marked_right_and_wrong_only_after_the_answer(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "ideas")
        missed = step(told, "f7 e4").stage
        assert missed.before is not None
        assert missed.before.chosen == {chess.F7, chess.E4}
        assert missed.view.chosen == missed.view.wrong == set()
        view = step(told, "f7 d8").stage.view
        assert (view.chosen, view.wrong) == ({chess.F7, chess.D8}, {chess.E4})


def test_shown_squares_and_moves_are_drawn(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "ideas")
        assert step(told, "?", "?").stage.view.squares == ("Gd8", "Gf7")
        assert step(told, "a1").stage.view.squares == ("Gd8", "Gf7"), "a miss takes none away"
        assert step(told, "d8 f7", "go", "?", "?").stage.view.arrows == ("Gg1f3",)


def test_choices_are_marked_as_they_are_tried(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "ideas")
        (asked,) = (b for b in step(told, *TO_CHOOSE).page if isinstance(b, Choices))
        numbered = (("1", "a knight"), ("2", "a pawn"), ("3", "the queen"))
        assert asked == Choices(numbered)
        (missed,) = (b for b in step(told, "3").page if isinstance(b, Choices))
        assert missed == Choices(numbered, wrong=("3",))
        moment = step(told, "2")
        (right,) = (b for b in moment.page if isinstance(b, Choices))
        assert right == Choices(numbered, right="2", wrong=("3",))
        assert (moment.answer, moment.missed) == ("2", ("3",))


TACTICS = [
    ("asked", [], "", "White to move.", "The king has no air."),
    ("solved", ["Ra8"], "●", "Solved, first try, 0.0 s", "Mate."),
    ("missed", ["Ra7"], "×", "Not the solution: 1. Ra7", "The solution: 1. Ra8# | 1. Ra8#: Mate."),
    ("many", ["Ra8", "go"], "", "White to move. Defence 1 of 3.", ""),
    ("hint", ["?"], "?", "The rook on a1 moves.", "A hint leaves 3 at best."),
    ("shown", ["?", "?"], "►", "The move is 1. Ra8#", "Play it to go on."),
    ("as shown", ["?", "?", "Ra8"], "●", "Solved, with a move shown", "It comes again"),
    ("with a hint", ["?", "Ra8"], "●", "Solved, with a hint", "It comes again"),
    (
        "a reply",
        ["Ra8", "go", "Nc7"],
        "●",
        "Right. White to move. Defence 1 of 3.",
        "Black: king e8 to d7.",
    ),
    (
        "an alternative",
        ["Ra8", "go", "Kd2"],
        "●",
        "Right. White to move. Defence 1 of 3.",
        "Right too; the solution goes on with Nc7+. | 1. Kd2: Slow, but fine.",
    ),
    (
        "the next defence",
        ["Ra8", "go", "Nc7", "Nxa8"],
        "●",
        "Right",
        "2. Nxa8: A rook. | themes fork | Then 2... Kc6.",
    ),
    (
        "and after it",
        ["Ra8", "go", "Nc7", "Nxa8", "go"],
        "",
        "White to move. Defence 2 of 3.",
        "Back after 1. Nc7+: now 1... Kd8. | Black: king e8 to d8.",
    ),
    (
        "a known mistake",
        ["Ra8", "go", "Nf6"],
        "×",
        "Known mistake: 1. Nf6+",
        "Only a check. | 1... Ke7 | The solution: 1. Nc7+ Kd7 2. Nxa8 Kc6",
    ),
    (
        "after a miss",
        ["Ra8", "go", "Nc7", "Kd2", "go"],
        "",
        "White to move. Defence 2 of 3.",
        "Back after 1. Nc7+: now 1... Kd8. | Black: king e8 to d8.",
    ),
    (
        "the end",
        ["Ra8", "go", "Nc7", "Nxa8", "go", "Nxa8", "Nb6", "go", "Nxa8"],
        "●",
        "Solved, 5 moves, 0.0 s",
        "Won. | Next tomorrow, Fri 4 Dec.",
    ),
    (
        "one missed",
        ["Ra8", "go", "Nc7", "Kd2", "go", "Nxa8", "Nb6", "go", "Nxa8"],
        "●",
        "Missed 1 of 5 moves",
        "Won. | It comes again in this sitting.",
    ),
]


@pytest.mark.parametrize(
    ("steps", "sign", "headline", "words"),
    [row[1:] for row in TACTICS],
    ids=[row[0] for row in TACTICS],
)
def test_tactics(tmp_path: Path, steps: list[str], sign: str, headline: str, words: str) -> None:
    with kinds_study(tmp_path) as study:
        moment = step(teller_of(study, "tactics"), *steps)
        assert (moment.sign, moment.headline) == (sign, headline)
        assert words in said(moment)


def test_a_reply_arrives_in_two_steps_and_a_new_defence_waits_for_the_student(
    tmp_path: Path,
) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "tactics")
        reply = step(told, "Ra8", "go", "Nc7").stage
        assert reply.arriving == chess.Move.from_uci("e8d7")
        assert reply.before is not None
        assert chess.Board(reply.before.fen).piece_at(chess.C7) is not None
        seen = step(told, "Nxa8").stage.view
        assert chess.Board(seen.fen).piece_at(chess.A8) == chess.Piece.from_symbol("N")
        assert told.open_prompt is None and told.goes_on
        back = step(told, "go").stage
        assert back.arriving == chess.Move.from_uci("e8d8")


def test_a_missed_defence_shows_its_move_and_waits(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "tactics")
        moment = step(told, "Ra8", "go", "Nc7", "Kd2")
        assert moment.stage.view.arrows == ("Gc7a8",)
        assert (moment.answer, moment.missed) == ("Nxa8", ("Kd2",))
        assert told.open_prompt is None and told.goes_on
        assert told.course == Course((5,), True, 0)


GAMES = [
    ("asked", [], "", "White to move.", "Asha Penrose – Otto Brandreth, Club (invented), 2026."),
    ("whose", [], "", "White to move.", "Guess the moves of White. | Watch f7."),
    ("found", ["e4"], "●", "Found: 1. e4", "1 of 1 found so far."),
    ("a reply", ["e4", "go"], "", "White to move. 1 of 1 found.", "Black: pawn e7 to e5."),
    (
        "not found",
        ["e4", "go", "d4"],
        "×",
        "The game: 2. Bc4",
        "Looking at f7. | Not d4. | 1 of 2 found so far.",
    ),
    (
        "the author's other move",
        ["e4", "go", "Bc4", "go", "Nf3"],
        "×",
        "The game: 3. Qh5",
        "A threat. | 3. Nf3: Better. | 3... Nf6 | 2 of 3 found so far.",
    ),
    (
        "a reply with its note",
        ["e4", "go", "Bc4", "go", "Qh5", "go"],
        "",
        "White to move. 3 of 3 found.",
        "Black: knight g8 to f6.",
    ),
    (
        "its note comes with the answer",
        ["e4", "go", "Bc4", "go", "Qh5", "go", "Qxf7"],
        "●",
        "Found: 4. Qxf7#",
        "Mate. | 3... Nf6: Overlooks it.",
    ),
    ("a hint", ["?"], "?", "The pawn on e2 moves.", "the game's move is told"),
    ("given up", ["?", "?"], "►", "The game: 1. e4", "0 of 1 found so far."),
    ("illegal", ["e5"], "!", "A pawn does not move from e2 to e5.", "Watch f7."),
    (
        "the end",
        ["e4", "go", "Bc4", "go", "Nf3", "go", "Qxf7"],
        "●",
        "Found: 4. Qxf7#",
        "3... Nf6: Overlooks it. | White won. You found 3 of 4.",
    ),
    (
        "what it still had",
        ["e4", "go", "Bc4", "go", "Nf3", "go", "Qxf7", "go", "f4", "go", "g4"],
        "●",
        "Found: 2. g4",
        "It ended 2... Qh4#. | Black won. You found 2 of 2.",
    ),
    (
        "left",
        ["e4", "go", "d4", "stop"],
        "●",
        "Stopped: 2 guessed in 0:00",
        "1 of 2 moves found. | Asha Penrose – Otto Brandreth goes on at move 3 next time.",
    ),
]


@pytest.mark.parametrize(
    ("steps", "sign", "headline", "words"),
    [row[1:] for row in GAMES],
    ids=[row[0] for row in GAMES],
)
def test_model_games(
    tmp_path: Path, steps: list[str], sign: str, headline: str, words: str
) -> None:
    with kinds_study(tmp_path) as study:
        moment = step(teller_of(study, "games"), *steps)
        assert (moment.sign, moment.headline) == (sign, headline)
        assert words in said(moment)


def test_a_guess_is_seen_before_the_games_own_move(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        stage = step(teller_of(study, "games"), "d4").stage
        assert stage.before is not None and stage.arriving is None
        assert chess.Board(stage.before.fen).piece_at(chess.D4) is not None
        assert chess.Board(stage.view.fen).piece_at(chess.E4) is not None


def test_the_strip_of_a_game_has_a_bar_a_guess(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "games")
        step(told, "e4", "go")
        assert told.course == Course((5,), True, 2)
        step(told, "d4")
        assert told.course == Course((5, 0), False, 2)
        step(told, "stop")
        assert told.course == Course((5, 0), False, 0)


def test_a_game_that_was_left_goes_on_where_it_stood(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        step(teller_of(study, "games"), "e4", "go", "d4", "stop")
        moment = teller_of(study, "games").moment
        assert moment.headline == "White to move. 1 of 2 found."
        assert "It goes on where you left it." in said(moment)
        assert "Watch f7." not in said(moment)


def test_the_summary_names_every_kind_that_was_hard(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = Teller(study, prepare_practice(study, Wish()), lambda: 0.0)
        told.begin()
        while (phase := told.sitting.phase) is not Phase.ENDED:
            prompt = told.open_prompt
            if prompt is None or phase is not Phase.ASKING:
                step(told, "go")
            elif prompt.repeat or prompt.done:
                step(told, _answer(told))
            else:
                step(told, "?", "?")
                step(told, _answer(told))
        words = said(told.moment)
        assert "shown 1. e4" in words
        assert f"shown {SQUARES} d8 f7" in words
        assert "shown Back row: 1. Ra8#" in words
        assert "All done for today. Lines shows the hardest one" in words
        assert told.in_lines is not None and told.in_lines.line == ""


def _answer(told: Teller) -> str:
    prompt = told.open_prompt
    assert prompt is not None
    if told.wants is Wants.NUMBER:
        return str(prompt.choices.index(prompt.answer) + 1)
    return prompt.answer


def test_without_lines_nothing_is_looked_up_in_them(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "ideas")
        moment = step(told, "a1", "f7 d8", "stop")
        assert told.in_lines is None
        assert "Lines shows" not in said(moment)
        assert moment.stage.view.wrong == set()


def test_headings(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        cards = {
            chapter: teller_of(study, chapter).moment.card
            for chapter in ("lines", "tactics", "ideas", "games")
        }
        told = {kind: (whose(card), title(card, False)) for kind, card in cards.items() if card}
        assert told == {
            "lines": ("you are White · All kinds", "All kinds"),
            "tactics": ("you are White · All kinds", "Back row"),
            "ideas": ("a question · All kinds", "All kinds"),
            "games": (
                "a model game, you guess for White · All kinds",
                "Asha Penrose – Otto Brandreth",
            ),
        }
        assert cards["ideas"] is not None and title(cards["ideas"], True) == "Ideas"


def test_the_sheet_of_a_question_has_its_box_below_the_moves(tmp_path: Path) -> None:
    half = IDEA_AFTER_HALF_A_MOVE
    with kinds_study(tmp_path, {**CHAPTERS, "ideas": half}) as study:
        card = teller_of(study, "ideas").moment.card
        assert card is not None
        shown = sheet(card, move=False)
        assert [(row.number, row.white, row.black) for row in shown.rows] == [
            (1, "e4", "e5"),
            (2, "f4", ""),
        ]
        assert (shown.number, shown.white_asked) == (0, True)


IDEA_AFTER_HALF_A_MOVE = """
[[idea]]
after = "1. e4 e5 2. f4"
ask = "Which pawn is offered?"
squares = ["f4"]
why = "It can be taken."
"""


# Worked by hand.
@pytest.mark.parametrize(
    ("wants", "text", "event"),
    [
        (Wants.SQUARES, "d4 e5", SquaresChosen(("d4", "e5"), 0)),
        (Wants.SQUARES, "E5, d4 d4", SquaresChosen(("e5", "d4"), 0)),
        (Wants.SQUARES, "d4e5", SquaresChosen(("d4", "e5"), 0)),
        (Wants.SQUARES, "Nd4", MoveTyped("Nd4", 0)),
        (Wants.SQUARES, "d9", MoveTyped("d9", 0)),
        (Wants.NUMBER, "2", AnswerChosen(2, 0)),
        (Wants.NUMBER, "²", MoveTyped("²", 0)),
        (Wants.NUMBER, "two", MoveTyped("two", 0)),
        (Wants.MOVE, "d4", MoveTyped("d4", 0)),
    ],
)
def test_typed_answers(wants: Wants, text: str, event: object) -> None:
    assert typed_answer(wants, text)(0) == event


@pytest.mark.parametrize(
    ("text", "square", "then"),
    [
        ("", "d4", "d4"),
        ("d4", "e5", "d4 e5"),
        ("d4 e5", "d4", "e5"),
        ("D4, e5", "f6", "d4 e5 f6"),
        ("hint", "d4", "d4"),
        ("d4 e", "e5", "d4 e5"),
    ],
)
def test_a_square_is_put_in_and_taken_out(text: str, square: str, then: str) -> None:
    assert toggled(text, square) == then
    assert set(squares_in(then)) == set(then.split())


def test_a_miss_is_not_told_in_green(tmp_path: Path) -> None:
    with kinds_study(tmp_path) as study:
        told = teller_of(study, "tactics")
        assert step(told, "Ra8").tone is Tone.GOOD
        assert step(told, "go", "Nc7", "Kd2").tone is Tone.BAD
        assert step(told, "go", "Nxa8").tone is Tone.HELP
