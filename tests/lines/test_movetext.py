"""Lines as text: written in one way, read in several."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st
from second_opinion import played_boards

from trainer.lines.movetext import BadLine, movetext, numbered, read_movetext

CARO = ["e2e4", "c7c6", "b1c3", "d7d5", "g1f3"]
AFTER_E4 = "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"


def moves(*ucis: str) -> list[chess.Move]:
    return [chess.Move.from_uci(uci) for uci in ucis]


# Source: design of a `line`; the spacing on import is that of the PGN standard, 8.2.2.1.
@pytest.mark.parametrize(
    "text",
    [
        "1. e4 c6 2. Nc3 d5 3. Nf3",
        "1.e4 c6 2.Nc3 d5 3.Nf3",
        "1.e4 1...c6 2.Nc3 2...d5 3.Nf3",
        "1. e4 1... c6 2. Nc3 2... d5 3. Nf3",
        "1 e4 c6 2 Nc3 d5 3 Nf3",
        "1 . e4 c6 2 . Nc3 d5 3 . Nf3",
        "e4 c6 Nc3 d5 Nf3",
        "  1.   e4\tc6\n2. Nc3   d5 3. Nf3  ",
        "1. e4 … c6 2. Nc3 …d5 3. Nf3",
        "1. e4! c6 2. Nc3!? d5 3. Nf3",
    ],
)
def test_a_line_is_read_however_it_is_spaced(text: str) -> None:
    assert read_movetext(text) == moves(*CARO)


def test_a_line_is_written_in_one_way() -> None:
    assert movetext(chess.Board(), moves(*CARO)) == "1. e4 c6 2. Nc3 d5 3. Nf3"
    assert movetext(chess.Board(AFTER_E4), moves(*CARO[1:3])) == "1... c6 2. Nc3"
    assert movetext(chess.Board(), []) == ""


def test_one_move_has_its_number() -> None:
    assert numbered(chess.Board(), "e4") == "1. e4"
    assert numbered(chess.Board(AFTER_E4), "c6") == "1... c6"


def test_writing_refuses_an_illegal_move() -> None:
    with pytest.raises(ValueError, match=r"e7e5 is not legal after 1\. e4 c6"):
        movetext(chess.Board(), moves("e2e4", "c7c6", "e7e5"))


@pytest.mark.parametrize("text", ["", "   ", "1.", "\n"])
def test_no_moves_are_a_line(text: str) -> None:
    assert read_movetext(text) == []


def test_a_line_may_start_elsewhere() -> None:
    start = chess.Board(AFTER_E4)
    assert read_movetext("1... c6 2. Nc3", start) == moves("c7c6", "b1c3")
    assert start.fen() == AFTER_E4


@given(played_boards(longest=10), st.lists(st.integers(0, 255), max_size=30))
def test_what_is_written_is_read_back(start: chess.Board, picks: list[int]) -> None:
    board, line = start.copy(stack=False), []
    for pick in picks:
        legal = list(board.legal_moves)
        if not legal:
            break
        line.append(legal[pick % len(legal)])
        board.push(line[-1])
    text = movetext(start, line)
    assert read_movetext(text, start) == line
    assert read_movetext(text.replace(". ", ".").replace("... ", "..."), start) == line


LONG = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Nxe4"

# Worked by hand.
BAD = {
    "illegal": (
        "1. e4 e5 2. Bb4",
        "2. Bb4 is not legal after 1. e4 e5: White has no bishop that can reach b4",
    ),
    "illegal at once": (
        "1. Qh5",
        "1. Qh5 is not legal at the start of the line: "
        "the pawn on e2 is in the way of the queen on d1",
    ),
    "Black's move": (
        "1. e4 Nd7",
        "1... Nd7 is not legal after 1. e4: Black's own pawn is on d7",
    ),
    "not clear": (
        "1. Nf3 e5 2. d3 d6 3. Nd2",
        "3. Nd2 is not clear after 1. Nf3 e5 2. d3 d6: the knight on b1 and the knight on f3 "
        "can both go to d2: add the square it starts from",
    ),
    "no move": (
        "1. e4 e5 2. hello",
        '2. cannot be read after 1. e4 e5: "hello" is no move; a move looks like Nf3, exd5 or O-O',
    ),
    "another language": (
        "1. Sf3",
        '1. cannot be read at the start of the line: "Sf3" is no move; '
        "a move looks like Nf3, exd5 or O-O",
    ),
    "a null move": (
        "1. e4 --",
        '1... cannot be read after 1. e4: "--" is no move; a move looks like Nf3, exd5 or O-O',
    ),
    "a result": (
        "1. e4 1-0",
        '1... cannot be read after 1. e4: "1-0" is no move; a move looks like Nf3, exd5 or O-O',
    ),
    "moves glued together": (
        "1.e4e5",
        "1. e4e5 is not legal at the start of the line: there is no piece on e4",
    ),
    "a comment": (
        "1. e4 {best} e5",
        'a line has moves only, no comments or variations; this one has "{" after 1. e4',
    ),
    "a variation": (
        "1. e4 (1. c4) e5",
        'a line has moves only, no comments or variations; this one has "(" after 1. e4',
    ),
    "a rest-of-line comment": (
        "1. e4 ;best",
        'a line has moves only, no comments or variations; this one has ";" after 1. e4',
    ),
    "a wrong number": ("1. e4 e5 3. Nf3", "3. stands where 2. belongs after 1. e4 e5"),
    "a wrong number at once": ("2. e4", "2. stands where 1. belongs at the start of the line"),
    "Black's number for White": (
        "1... Nf3",
        "1... stands where 1. belongs at the start of the line",
    ),
    "a long line": (
        f"{LONG} 6. Qe4",
        "6. Qe4 is not legal after ... 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Nxe4: "
        "a queen does not move from d1 to e4",
    ),
    "control characters": (
        "1. \x1b[2J",
        '1. cannot be read at the start of the line: "[2J" is no move; '
        "a move looks like Nf3, exd5 or O-O",
    ),
}


@pytest.mark.parametrize(("text", "message"), BAD.values(), ids=BAD)
def test_a_bad_line_names_the_move_and_where(text: str, message: str) -> None:
    with pytest.raises(BadLine) as caught:
        read_movetext(text)
    assert str(caught.value) == message


@given(st.text(max_size=60) | st.text(alphabet="e4c6Nf3 .O-1(…{\x1b\u202e", max_size=30))
def test_any_text_is_a_line_or_refused_in_one_clean_sentence(text: str) -> None:
    try:
        line = read_movetext(text)
    except BadLine as refused:
        assert str(refused).isprintable()
    else:
        assert read_movetext(movetext(chess.Board(), line)) == line
