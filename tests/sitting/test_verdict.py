"""What the rules and the deck say of one try."""

from __future__ import annotations

import chess
import pytest

from tests.trees import after, graph, key
from trainer.lines.graph import LineGraph
from trainer.lines.typed import read_move
from trainer.sitting.verdict import Judgement, judge

WHITE = graph(
    "white",
    """1. e4 e5 (1... c5 2. Nf3 e6 3. d3 Nc6) (1... e6 2. d3 c5 3. g3)
       (1... d6 2. d3 c5 3. g3 (3. Nf3? {Blocks the f-pawn.}) 3... e6)
       (1... a6 2. d3 c5 3. g3 (3. Nf3 {Sound. [%aside]}) 3... e6)
       2. Nc3 {The Vienna.} (2. Nf3 {The other knight.} Nf6)
       (2. Qh5? {Too early.} Nc6 3. Bc4 g6) (2. Bc4 {Sound. [%aside]} Nf6) 2... Nf6 3. g3""",
    "1. e4 c5 2. Nf3 d6 3. d3 a6",
    "1. e4 c5 2. Nf3 a6 3. d3 d6",
)
BLACK = graph("black", "1. Nf3 Nf6 2. Ng1 e5 3. e4", "1. e4 e5")
TWO_KNIGHTS = graph("white", "[4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1] 1. Nce2")
PAWN = graph("white", "[4k3/P7/8/8/8/8/8/4K3 w - - 0 1] 1. a8=Q+")


def judged(
    book_line: str, typed: str, other_decks: dict[str, str] | None = None, side: str = "white"
) -> Judgement:
    book = WHITE if side == "white" else BLACK
    board = after(book_line)
    position = book.positions[board.epd()]
    return judge(read_move(board, typed), board, position, book, other_decks or {})


# Worked by hand: legality by FIDE's Laws of Chess (2023), the rest by the deck above.
@pytest.mark.parametrize(
    ("line", "typed", "verdict", "reason"),
    [
        ("e4 e5", "Nc3", "in book", ""),
        ("e4 e5", "b1c3", "in book", ""),
        ("e4 e5", "nc3", "in book", ""),
        ("e4 e5", "Nf3", "in book", "Right too; the deck's first choice is Nc3."),
        ("e4 e5", "Qh5", "known mistake", ""),
        ("e4 e5", "Bc4", "out of book", "Sound, but not asked for here."),
        ("e4 e5", "h4", "out of book", "Not a move of this deck."),
        ("e4 e5", "Ke3", "illegal", "..."),
        ("e4 e5", "Nd4", "illegal", "..."),
        ("e4 e5", "castle", "unreadable", "..."),
        ("e4 e5", "", "unreadable", "..."),
        (
            "e4 e6 d3 c5",
            "Nf3",
            "transposes",
            "This transposes to 1. e4 c5 2. Nf3 e6 3. d3, "
            "but the line asked for plays another move here.",
        ),
        ("e4 d6 d3 c5", "Nf3", "known mistake", ""),
        ("e4 a6 d3 c5", "Nf3", "out of book", "Sound, but not asked for here."),
    ],
)
def test_verdicts(line: str, typed: str, verdict: str, reason: str) -> None:
    found = judged(line, typed)
    assert found.verdict == verdict
    if reason == "...":
        assert found.reason[0].upper() == found.reason[0]
        assert found.reason.endswith(".")
    else:
        assert found.reason == reason


def test_what_the_deck_says_of_the_move_comes_with_the_verdict() -> None:
    mistake = judged("e4 e5", "Qh5").book_move
    assert mistake is not None
    assert (mistake.note, mistake.explanation) == ("Too early.", "2... Nc6 3. Bc4 g6")
    right = judged("e4 e5", "Nf3")
    assert right.book_move is not None
    assert right.book_move.note == "The other knight."
    assert (right.san, right.move) == ("Nf3", after("e4 e5").parse_san("Nf3"))
    assert judged("e4 e5", "h4").book_move is None
    assert judged("e4 e5", "Ke3").move is None


def test_a_move_back_to_the_start_of_a_line_transposes() -> None:
    found = judged("Nf3 Nf6 Ng1", "Ng8", side="black")
    assert found.verdict == "transposes"
    assert found.reason.startswith("This transposes to the position that a line starts from,")


def test_only_lines_of_the_same_side_are_transposed_to() -> None:
    # 1. e4 c5 stands in the deck's lines for White alone.
    assert key("e4 c5") in WHITE.positions
    assert judged("e4", "c5", side="black").verdict == "out of book"


@pytest.mark.parametrize(
    ("typed", "others", "verdict"),
    [
        ("d4", {"d2d4": "Centre"}, "other deck"),
        ("Bc4", {"f1c4": "Bishop"}, "other deck"),
        ("Qh5", {"d1h5": "Queen"}, "known mistake"),
        ("Nf3", {"g1f3": "Spanish"}, "in book"),
        ("d4", {"f1c4": "Bishop"}, "out of book"),
    ],
    ids=["none of ours", "our aside", "our mistake", "our alternative", "no one's"],
)
def test_decks_that_disagree(typed: str, others: dict[str, str], verdict: str) -> None:
    found = judged("e4 e5", typed, others)
    assert found.verdict == verdict
    if verdict == "other deck":
        assert next(iter(others.values())) in found.reason


@pytest.mark.parametrize(
    ("lines", "typed"),
    [
        pytest.param(TWO_KNIGHTS, "Ne2", id="two knights"),
        pytest.param(PAWN, "a8", id="promotion"),
    ],
)
def test_a_try_that_fits_two_moves_is_unclear(lines: LineGraph, typed: str) -> None:
    # Source: PGN standard (Edwards, 1994), 8.2.3.4 and 8.2.3.6.
    card = lines.cards[0]
    board = chess.Board(card.places[0].start)
    found = judge(read_move(board, typed), board, card, lines, {})
    assert (found.verdict, found.move) == ("unclear", None)
    assert found.reason
