"""What a position and what is said of it mean for each square."""

import chess
import pytest

from trainer.app.widgets.board.geometry import Face, Size
from trainer.app.widgets.board.marks import Mark
from trainer.app.widgets.board.scene import Scene
from trainer.app.widgets.board.view import BoardView, looks, overlay

SIZE = Size(6, 3)
CHIPS = Size(5, 2, Face.CHIPS)
AFTER_E4 = "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"
CHECK = "rnbqkbnr/ppppp1pp/8/5p1Q/4P3/8/PPPP1PPP/RNB1KBNR b KQkq - 1 2"


def marks(view, square):
    return looks(view, SIZE)[square].marks


SAID = [
    (
        "last move, from",
        BoardView(AFTER_E4, last_move=chess.Move.from_uci("e2e4")),
        chess.E2,
        Mark.FROM,
    ),
    (
        "last move, to",
        BoardView(AFTER_E4, last_move=chess.Move.from_uci("e2e4")),
        chess.E4,
        Mark.TO,
    ),
    ("in hand", BoardView(in_hand=chess.G1), chess.G1, Mark.HELD),
    ("may go there", BoardView(targets=frozenset({chess.F3})), chess.F3, Mark.GOAL),
    ("may take there", BoardView(targets=frozenset({chess.F7})), chess.F7, Mark.CAPTURE),
    ("check", BoardView(CHECK), chess.E8, Mark.CHECK),
    ("cursor", BoardView(cursor=chess.A1), chess.A1, Mark.CURSOR),
    ("chosen", BoardView(chosen=frozenset({chess.D5})), chess.D5, Mark.CHOSEN),
    ("a note's square", BoardView(squares=("Gd5",)), chess.D5, Mark.NOTED),
    ("a note's arrow, head", BoardView(arrows=("Gf1c4",)), chess.C4, Mark.ARROW_TO),
    ("a note's arrow, tail", BoardView(arrows=("Gf1c4",)), chess.F1, Mark.ARROW_FROM),
]


@pytest.mark.parametrize(("_name", "view", "square", "mark"), SAID, ids=[s[0] for s in SAID])
def test_what_is_said_of_a_square(_name, view, square, mark):
    assert marks(view, square) == {mark}


def test_the_start_has_no_marks():
    assert not any(look.marks for look in looks(BoardView(), SIZE).values())


def test_pieces_and_squares():
    found = looks(BoardView(AFTER_E4), SIZE, "KDTLSB")
    assert (found[chess.G8].piece, found[chess.G8].letter, found[chess.G8].light) == (
        "n",
        "S",
        True,
    )
    assert (found[chess.E4].piece, found[chess.E2].piece) == ("P", "")
    assert not found[chess.A1].light


@pytest.mark.parametrize(
    ("flipped", "corner", "rank", "file"),
    [(False, chess.A1, "1", "a"), (True, chess.H8, "8", "h")],
    ids=["White below", "Black below"],
)
def test_coordinates_inside_turn_with_the_board(flipped, corner, rank, file):
    found = looks(BoardView(flipped=flipped), Size(6, 3, inside=True))
    assert (found[corner].rank, found[corner].file) == (rank, file)
    assert sum(bool(look.rank) for look in found.values()) == 8
    assert not any(look.rank or look.file for look in looks(BoardView(), SIZE).values())


def test_an_arrow_is_drawn_or_written():
    view = BoardView(arrows=("Gf1c4",))
    drawn, written = looks(view, SIZE), looks(view, CHIPS)
    assert drawn[chess.D3].stones and not written[chess.D3].stones
    assert (drawn[chess.C4].arrow, drawn[chess.F1].arrow) == ("G", "")
    assert (written[chess.C4].arrow, written[chess.F1].arrow) == ("G", "G")


def test_each_letter_of_the_arrows_to_a_goal_is_there_once():
    view = BoardView(arrows=("Gf1c4", "Rc1c4", "Ga4c4", "Bc4f7"))
    assert looks(view, SIZE)[chess.C4].arrow == "GR"
    # Signs say where arrows begin, too, but what ends on the square comes first.
    assert looks(view, CHIPS)[chess.C4].arrow == "GR"
    assert looks(view, CHIPS)[chess.C1].arrow == "R"


def test_letters_of_two_notes_do_not_mix():
    found = looks(BoardView(squares=("Yc4",), arrows=("Gf1c4",)), SIZE)[chess.C4]
    assert (found.note, found.arrow) == ("Y", "G")


def test_what_the_view_says_stays_when_the_hand_is_laid_over_it():
    view = BoardView(in_hand=chess.E2, targets=frozenset({chess.E3}))
    laid = overlay(view, in_hand=chess.D2, cursor=chess.D4, targets=frozenset({chess.D4}))
    assert (laid.in_hand, laid.cursor, laid.targets) == (chess.E2, chess.D4, {chess.D4, chess.E3})


def test_a_move_changes_four_squares():
    scene = Scene()
    first = BoardView(AFTER_E4, last_move=chess.Move.from_uci("e2e4"))
    scene.show(first, SIZE)
    board = chess.Board(AFTER_E4)
    move = board.push_san("c5")
    assert scene.show(BoardView(board.fen(), last_move=move), SIZE) == {
        chess.E2,
        chess.E4,
        chess.C7,
        chess.C5,
    }
    assert scene.show(BoardView(board.fen(), last_move=move), SIZE) == set()


def test_a_view_is_kept_where_no_board_is_shown():
    scene = Scene()
    assert scene.show(BoardView(AFTER_E4), None) == set()
    assert scene.look(4, 4, SIZE).piece == "P"
