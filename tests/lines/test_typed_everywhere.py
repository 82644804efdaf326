"""Typed moves in many positions: every spelling of every legal move, and any text at all."""

from __future__ import annotations

import re

import chess
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from second_opinion import PERFT, cozy_moves, played_boards

from trainer.lines.letters import ENGLISH, LANGUAGES, PieceLetters
from trainer.lines.reading import Illegal, LegalMove, Unclear, Unreadable
from trainer.lines.typed import read_move

FIGURINES = dict(zip("KQRBN", "♔♕♖♗♘", strict=True))


def spellings(board: chess.Board, move: chess.Move) -> list[str]:
    """Other ways to write a legal move that can mean nothing else."""
    san, uci = board.san(move), move.uci()
    bare = san.rstrip("+#")
    ways = [san, bare, f"{san}!?", f"12... {san}", uci, bare.replace("=", "")]
    if not board.is_castling(move):
        letter = "" if san[0].islower() else san[0]
        tail = bare[bare.index("=") :] if "=" in bare else ""
        sign = "x" if board.is_capture(move) else "-"
        ways.append(f"{letter}{uci[:2]}{sign}{uci[2:4]}{tail}")
        ways.append(f"{uci[:2]}{uci[2:4]}{tail}")
        ways.append("".join(FIGURINES.get(sign, sign) for sign in bare))
    return ways


def in_letters(san: str, language: str) -> str:
    """English notation with another language's letters."""
    if san.startswith("O"):
        return san
    other = {chess.piece_symbol(p).upper(): sign for sign, p in LANGUAGES[language].letters.items()}
    return "".join(other.get(sign, sign) for sign in san)


def assert_every_spelling_is_read_back(board: chess.Board) -> None:
    sans = {board.san(move): move for move in board.legal_moves}
    assert {move.uci() for move in sans.values()} == cozy_moves(board)
    for san, move in sans.items():
        expected = LegalMove(move, san)
        for way in spellings(board, move):
            assert read_move(board, way) == expected, way
        assert_tolerant_spellings(board, san, expected, sans)
        for language in LANGUAGES:
            read = read_move(board, in_letters(san, language), LANGUAGES[language])
            assert read == expected or is_clash(board, read, move), (san, language)


def assert_tolerant_spellings(
    board: chess.Board, san: str, expected: LegalMove, sans: dict[str, chess.Move]
) -> None:
    without_sign = read_move(board, san.replace("x", ""))
    assert without_sign == expected or is_clash(board, without_sign, expected.move)
    capitals = read_move(board, expected.move.uci().upper())
    assert capitals == expected or is_clash(board, capitals, expected.move)
    small = san.lower()
    standard = {other.rstrip("+#"): move for other, move in sans.items()}.get(small.rstrip("+#"))
    read = read_move(board, small)
    if standard is not None:
        assert read == LegalMove(standard, board.san(standard))
    else:
        assert read == expected or is_clash(board, read, expected.move)


def is_clash(board: chess.Board, read: object, move: chess.Move) -> bool:
    """Whether the text was left open between this move and one of another piece."""
    return (
        isinstance(read, Unclear)
        and f"{chess.piece_name(board.piece_type_at(move.from_square) or 0)} on "
        f"{chess.square_name(move.from_square)}"
        in read.reason
        and len(set(re.findall(r"the (\w+) on", read.reason))) > 1
    )


# Agrees with cozy-chess-py 0.1.1 on the moves, run live; SAN by the PGN standard, 8.2.3.
@pytest.mark.parametrize("fen", PERFT.values(), ids=PERFT)
def test_every_spelling_in_the_perft_positions(fen: str) -> None:
    assert_every_spelling_is_read_back(chess.Board(fen))


@given(played_boards())
@settings(max_examples=60)
def test_every_spelling_in_random_positions(board: chess.Board) -> None:
    assert_every_spelling_is_read_back(board)


# Source: PGN standard, 8.2.3.4: the letter or digit stands only where it is needed.
@given(played_boards())
@settings(max_examples=100)
def test_without_its_distinguishing_letter_a_move_is_unclear(board: chess.Board) -> None:
    for move in board.legal_moves:
        told_apart = re.fullmatch(r"([QRBN])([a-h]?[1-8]?)(x?[a-h][1-8])[+#]?", board.san(move))
        if told_apart and told_apart[2]:
            read = read_move(board, told_apart[1] + told_apart[3])
            assert isinstance(read, Unclear)
            assert f"on {chess.square_name(move.from_square)}" in read.reason


LIKE_MOVES = st.text(alphabet="abcdefgh12345678KQRBNPOokqrnx-+#=:0. ♘♟СКр", max_size=9)
ANY_TEXT = st.one_of(
    LIKE_MOVES,
    st.text(max_size=40),
    st.text(alphabet=st.characters(), max_size=30),
    st.from_regex(r"[KQRBNPa-h]?[a-h]?[1-8]?x?[a-h][1-8](=?[QRBNKP])?( ?e\.p\.)?", fullmatch=True),
)


@given(played_boards(longest=20), ANY_TEXT, st.sampled_from(list(LANGUAGES.values())))
@settings(max_examples=1500)
def test_any_text_gets_a_true_answer(board: chess.Board, text: str, letters: PieceLetters) -> None:
    before = board.fen()
    read = read_move(board, text, letters)
    assert board.fen() == before
    if isinstance(read, LegalMove):
        assert read.move.uci() in {move.uci() for move in board.legal_moves}
        assert read.san == board.san(read.move)
    else:
        assert read.reason
        assert read.reason.isprintable()
        assert len(read.reason) < 200


# Agrees with python-chess 1.11.2 `parse_san`, run live, apart from what it takes and we must not.
@given(played_boards(longest=20), ANY_TEXT)
@settings(max_examples=1000)
def test_what_another_reader_takes_is_that_move_or_left_open(board: chess.Board, text: str) -> None:
    try:
        move = board.parse_san(text)
    except ValueError:
        return
    read = read_move(board, text, ENGLISH)
    takes_nothing = "x" in text and not board.is_capture(move)
    takes_rook = board.is_castling(move) and text[:4] in ("e1h1", "e1a1", "e8h8", "e8a8")
    oddly = re.match(r"[x1-8]|([a-h])x?\1", text)  # `xa5`, `7a5`, `aa5`: nobody writes them
    if not move or oddly:
        assert isinstance(read, Unreadable)
    elif takes_nothing or takes_rook:
        assert isinstance(read, Illegal)
    else:
        assert read == LegalMove(move, board.san(move)) or isinstance(read, Unclear)
