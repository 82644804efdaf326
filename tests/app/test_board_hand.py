"""What presses, drags and keys do to the piece in hand."""

import chess
import pytest

from trainer.app.widgets.board.hand import Hand, drag, press, release, step, take_or_drop

START = chess.Board()
E2, E4, D2, E7 = chess.E2, chess.E4, chess.D2, chess.E7


def click(hand, square, board=START):
    """Down and up on one square, as a mouse does it."""
    hand, tried = press(hand, board, square)
    released, dropped = release(hand, square)
    return released, tried or dropped


CLICKS = [
    ("an own piece is taken", [E2], E2, None),
    ("the goal of a piece in hand is a try", [E2, E4], None, (E2, E4)),
    ("an illegal goal is a try like any other", [E2, chess.A6], None, (E2, chess.A6)),
    ("an enemy piece is a goal too", [E2, E7], None, (E2, E7)),
    ("the piece again puts it down", [E2, E2], None, None),
    ("another own piece is taken instead", [E2, D2], D2, None),
    ("an enemy piece is not taken", [E7], None, None),
    ("an empty square is nothing", [E4], None, None),
]


@pytest.mark.parametrize(("_name", "squares", "held", "tried"), CLICKS, ids=[c[0] for c in CLICKS])
def test_clicks(_name, squares, held, tried):
    hand, found = Hand(), None
    for square in squares:
        hand, found = click(hand, square)
    assert (hand.held, found) == (held, tried)
    assert not hand.dragging


def test_only_the_side_to_move_is_taken():
    board = chess.Board()
    board.push_san("e4")
    assert click(Hand(), E7, board)[0].held == E7
    assert click(Hand(), D2, board)[0].held is None


DRAGS = [
    ("dropped on its goal", [chess.E3, E4], None, (E2, E4)),
    ("dropped on an own piece", [D2], None, (E2, D2)),
    ("dropped off the board", [chess.E3, None], None, None),
    ("carried away and back", [E4, E2], E2, None),
]


@pytest.mark.parametrize(("_name", "path", "held", "tried"), DRAGS, ids=[d[0] for d in DRAGS])
def test_drags(_name, path, held, tried):
    hand, _ = press(Hand(), START, E2)
    for square in path:
        hand = drag(hand, square)
    hand, found = release(hand, path[-1])
    assert (hand.held, found) == (held, tried)


def test_the_frame_follows_the_pointer_and_stays_behind_when_it_leaves_the_board():
    hand, _ = press(Hand(), START, E2)
    assert drag(hand, chess.E3).over == chess.E3
    assert drag(hand, None).over == E2


def test_a_held_piece_can_still_be_dragged():
    hand, _ = click(Hand(), E2)
    hand, _ = press(hand, START, E2)
    assert release(drag(hand, E4), E4) == (Hand(), (E2, E4))


def test_the_key_does_what_a_click_does():
    hand, tried = take_or_drop(Hand(cursor=E2), START)
    assert (hand.held, tried) == (E2, None)
    hand, tried = take_or_drop(Hand(held=E2, cursor=E4), START)
    assert (hand, tried) == (Hand(cursor=E4), (E2, E4))
    assert take_or_drop(Hand(), START) == (Hand(), None)


STEPS = [
    ("up", E4, (0, 1), False, chess.E5),
    ("right", E4, (1, 0), False, chess.F4),
    ("up, Black at the bottom", E4, (0, 1), True, chess.E3),
    ("right, Black at the bottom", E4, (1, 0), True, chess.D4),
    ("off the edge", chess.H8, (1, 0), False, chess.H8),
    ("off the lower edge", chess.A1, (0, -1), False, chess.A1),
]


@pytest.mark.parametrize(
    ("_name", "start", "way", "flipped", "end"), STEPS, ids=[s[0] for s in STEPS]
)
def test_the_cursor_moves_as_the_reader_sees_it(_name, start, way, flipped, end):
    assert step(start, *way, flipped) == end
