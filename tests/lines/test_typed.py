"""Typed moves: what a text means in a position, and when it means nothing or too much."""

from __future__ import annotations

import chess
import pytest

from trainer.lines.letters import LANGUAGES
from trainer.lines.reading import Illegal, LegalMove, Unclear, Unreadable
from trainer.lines.typed import printable, read_move

EXPECTED = "a move looks like Nf3, exd5 or O-O"


def after(line: str) -> chess.Board:
    """The board after SAN moves without numbers, or the board of a FEN."""
    if "/" in line:
        return chess.Board(line)
    board = chess.Board()
    for san in line.split():
        board.push_san(san)
    return board


CARO = "e4 c6 Nc3 d5 Nf3 dxe4 Nxe4"
OPEN = "e4 e5 Nf3 Nc6 Bb5 a6"
CASTLING = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"
PASSING = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 9"
LAST_RANK = "1r2k3/P7/8/8/8/8/8/4K3 w - - 0 1"
LOOSE_BISHOP = "4k3/8/8/B7/1P6/8/8/4K3 w - - 0 1"

# Source: FIDE Laws of Chess (2023), Appendix C; the tolerances are design decisions.
MEANT = {
    "SAN": (CARO, "Bf5", "Bf5"),
    "a pawn": ("", "e4", "e4"),
    "move number (C)": (CARO, "4...Bf5", "Bf5"),
    "move number and blank": (OPEN, "4. Bxc6", "Bxc6"),
    "move number, blanks and dots": (CARO, "4. ... Bf5", "Bf5"),
    "move number and castling": (CASTLING, "12.0-0", "O-O"),
    "only dots": (CARO, "… Bf5", "Bf5"),
    "blanks around": (CARO, "  Bf5 ", "Bf5"),
    "no capture sign (C.9)": (OPEN, "Bc6", "Bxc6"),
    "pawn takes without sign (C.9)": ("e4 d5", "ed5", "exd5"),
    "colon for taking": ("e4 d5", "e:d5", "exd5"),
    "times sign for taking": ("e4 d5", "e×d5", "exd5"),
    "check not written (C.13)": ("e4 e5 Nf3 f6 Nxe5 fxe5", "Qh5", "Qh5+"),
    "mate not written (C.13)": ("f3 e5 g4", "Qh4", "Qh4#"),
    "check wrongly written": ("", "Nf3+", "Nf3"),
    "old double check sign": ("", "Nf3++", "Nf3"),
    "suffix !": ("", "Nf3!", "Nf3"),
    "suffix !?": ("", "Nf3!?", "Nf3"),
    "suffix after the check": ("f3 e5 g4", "Qh4#!!", "Qh4#"),
    "castling (C.13)": (CASTLING, "0-0", "O-O"),
    "castling, letters": (CASTLING, "O-O-O", "O-O-O"),
    "castling, small letters": (CASTLING, "o-o", "O-O"),
    "castling, small letters, long": (CASTLING, "o-o-o", "O-O-O"),
    "castling, en dash": (CASTLING, "0–0–0", "O-O-O"),
    "castling, Cyrillic letters": (CASTLING, "О-О", "O-O"),
    "castling, no dash": (CASTLING, "ooo", "O-O-O"),
    "castling with check sign": ("5k2/8/8/8/8/8/8/4K2R w K - 0 1", "0-0+", "O-O+"),
    "castling in UCI": (CASTLING, "e1c1", "O-O-O"),
    "castling in long algebraic": (CASTLING, "Ke1-g1", "O-O"),
    "en passant (C.13)": (PASSING, "exd6 e.p.", "exd6"),
    "en passant, short": (PASSING, "exd6ep", "exd6"),
    "en passant in brackets": (PASSING, "ed6 (e.p.)", "exd6"),
    "en passant not said": (PASSING, "exd6", "exd6"),
    "en passant in UCI": (PASSING, "e5d6", "exd6"),
    "small piece letter": ("", "nf3", "Nf3"),
    "small bishop where no pawn can take": (LOOSE_BISHOP, "bb6", "Bb6"),
    "small bishop takes": (OPEN, "bxc6", "Bxc6"),
    "b is the pawn": ("e4 a5 b4 h6", "ba5", "bxa5"),
    "capitals": ("", "NF3", "Nf3"),
    "capital pawn": ("", "E4", "e4"),
    "capital file alone": ("e4 d5", "Exd5", "exd5"),
    "UCI": ("", "g1f3", "Nf3"),
    "UCI in capitals": ("", "E2E4", "e4"),
    "long algebraic (C.8)": ("", "e2-e4", "e4"),
    "long algebraic piece (C.8)": ("", "Ng1-f3", "Nf3"),
    "long algebraic, no dash (C.8)": ("", "Ng1f3", "Nf3"),
    "long algebraic takes": (OPEN, "Bb5xc6", "Bxc6"),
    "more origin than needed": ("", "N1f3", "Nf3"),
    "pawn with its letter": ("", "Pe4", "e4"),
    "pawn takes with its letter": (PASSING, "Pe5xd6", "exd6"),
    "figurine": ("", "♘f3", "Nf3"),
    "figurine of the other colour": ("", "♞f3", "Nf3"),
    "figurine with text selector": ("", "♘\ufe0ef3", "Nf3"),
    "figurine with picture selector": ("", "♞\ufe0ff3", "Nf3"),
    "figurine pawn": ("", "♙e4", "e4"),
    "figurine promotion": (LAST_RANK, "a8♕", "a8=Q"),
    "promotion (C.11)": (LAST_RANK, "axb8=N", "axb8=N"),
    "promotion without sign (C.11)": (LAST_RANK, "a8R", "a8=R"),
    "promotion, small letter": (LAST_RANK, "a8=q", "a8=Q"),
    "promotion in brackets": (LAST_RANK, "a8(B)", "a8=B"),
    "promotion with slash": (LAST_RANK, "a8/B", "a8=B"),
    "promotion in UCI": (LAST_RANK, "a7b8q", "axb8=Q+"),
}


@pytest.mark.parametrize(("line", "text", "san"), MEANT.values(), ids=MEANT)
def test_what_people_type_is_understood(line: str, text: str, san: str) -> None:
    board = after(line)
    read = read_move(board, text)
    assert read == LegalMove(board.parse_san(san), san)


# Source: PGN standard, 8.2.3; FIDE Laws, Appendix C.
SAN_WORKED = [
    ("4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", {"c3e2": "Nce2", "g1e2": "Nge2"}),
    ("4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", {"g1e2": "Ne2"}),
    ("4k3/8/8/8/3N4/8/7N/4K3 w - - 0 1", {"h2f3": "Nhf3", "d4f3": "Ndf3"}),
    ("4k3/8/8/R7/8/8/8/R3K3 w - - 0 1", {"a1a3": "R1a3", "a5a3": "R5a3"}),
    ("8/8/1k6/8/4Q2Q/8/8/K6Q w - - 0 1", {"e4e1": "Qee1", "h1e1": "Q1e1", "h4e1": "Qh4e1"}),
    ("4k3/8/8/8/8/8/5p1K/6N1 b - - 0 1", {"f2g1q": "fxg1=Q+"}),
    ("5k2/8/8/8/8/8/8/4K2R w K - 0 1", {"e1g1": "O-O+"}),
    ("4k3/8/8/8/8/8/4N1N1/4R1K1 w - - 0 1", {"e2c3": "Nc3+"}),
]


@pytest.mark.parametrize(("fen", "moves"), SAN_WORKED, ids=[fen for fen, _ in SAN_WORKED])
def test_standard_notation_reads_and_writes_as_published(fen: str, moves: dict[str, str]) -> None:
    board = chess.Board(fen)
    for uci, san in moves.items():
        assert read_move(board, san) == LegalMove(chess.Move.from_uci(uci), san)
        assert read_move(board, uci) == LegalMove(chess.Move.from_uci(uci), san)


UNCLEAR = {
    "two knights": (
        "4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1",
        "Nd2",
        "the knight on b1 and the knight on f3 can both go to d2: add the square it starts from",
    ),
    "three queens": (
        "8/8/1k6/8/4Q2Q/8/8/K6Q w - - 0 1",
        "Qe1",
        "the queen on e4, the queen on h1 and the queen on h4 can all go to e1: "
        "add the square it starts from",
    ),
    "the file tells too little": (
        "8/8/1k6/8/4Q2Q/8/8/K6Q w - - 0 1",
        "Qhe1",
        "the queen on h1 and the queen on h4 can both go to e1: add the square it starts from",
    ),
    "b-pawn or bishop": (
        "4k3/8/8/B7/8/2n5/1P6/4K3 w - - 0 1",
        "bc3",
        "the bishop on a5 and the pawn on b2 can both go to c3: add the square it starts from",
    ),
    "b-pawn or bishop, all capitals": (
        "4k3/8/8/B7/8/2n5/1P6/4K3 w - - 0 1",
        "BXC3",
        "the bishop on a5 and the pawn on b2 can both go to c3: add the square it starts from",
    ),
    "promotion by push": (
        LAST_RANK,
        "a8",
        "say what the pawn becomes: a bishop, a knight, a queen or a rook",
    ),
    "promotion by capture": (
        LAST_RANK,
        "axb8",
        "say what the pawn becomes: a bishop, a knight, a queen or a rook",
    ),
    "promotion with nothing after the sign": (
        LAST_RANK,
        "a8=",
        "say what the pawn becomes: a bishop, a knight, a queen or a rook",
    ),
    "promotion in UCI": (
        LAST_RANK,
        "a7a8",
        "say what the pawn becomes: a bishop, a knight, a queen or a rook",
    ),
    "promotion, or a bishop": (
        "2n1k3/1P6/B7/8/8/8/8/4K3 w - - 0 1",
        "bc8",
        "say what the pawn becomes: a bishop, a knight, a queen or a rook",
    ),
    "promotion, or a bishop that can": (
        "2n1k3/1P6/8/8/6B1/8/8/4K3 w - - 0 1",
        "bxc8",
        "the pawn on b7 and the bishop on g4 can both go to c8: add the square it starts from",
    ),
}


# Worked by hand.
@pytest.mark.parametrize(("fen", "text", "reason"), UNCLEAR.values(), ids=UNCLEAR)
def test_two_meanings_are_never_guessed(fen: str, text: str, reason: str) -> None:
    assert read_move(chess.Board(fen), text) == Unclear(reason)


CLASH = chess.Board("4k3/8/8/B7/8/2n5/1P6/4K3 w - - 0 1")


@pytest.mark.parametrize(
    ("text", "uci"),
    [("bxc3", "b2c3"), ("Bc3", "a5c3"), ("Bxc3", "a5c3"), ("b2c3", "b2c3"), ("a5c3", "a5c3")],
)
def test_text_that_is_standard_to_the_letter_is_no_guess(text: str, uci: str) -> None:
    assert read_move(CLASH, text) == LegalMove(
        chess.Move.from_uci(uci), CLASH.san(chess.Move.from_uci(uci))
    )


# Source: FIDE Laws of Chess (2023), 3.1 to 3.10. Worked by hand.
ILLEGAL = {
    "no such piece": ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "Nf3", "White has no knight"),
    "no such piece on the file": ("", "Ncd2", "White has no knight on the c-file"),
    "no such piece on the rank": ("", "N2f3", "White has no knight on rank 2"),
    "no such piece on the square": ("", "Nf1f3", "White has no knight on f1"),
    "no pawn on the file": ("e4 d5 exd5 c6", "e4", "White has no pawn on the e-file"),
    "none can reach": ("", "Nd4", "White has no knight that can reach d4"),
    "one of the file that does not move so": (
        "4k3/8/8/8/8/4P3/8/4K3 w - - 0 1",
        "e7",
        "a pawn does not move from e3 to e7",
    ),
    "none on the file can reach": (
        "4k3/8/8/8/8/4P3/4P3/4K3 w - - 0 1",
        "e7",
        "White has no pawn on the e-file that can reach e7",
    ),
    "neither does move so": (OPEN, "Bb7", "White has no bishop that can reach b7"),
    "one piece that does not move so": ("e4 e5", "Qc3", "a queen does not move from d1 to c3"),
    "a piece in the way": ("", "Bb5", "the pawn on e2 is in the way of the bishop on f1"),
    "a pawn stopped": ("e4 e5", "e5", "the pawn on e5 is in the way of the pawn on e4"),
    "own piece there": ("", "Nd2", "White's own pawn is on d2"),
    "nothing there to take": ("", "Nxf3", "there is nothing on f3 to take"),
    "nothing for a pawn to take": ("", "exd3", "there is nothing on d3 to take"),
    "nothing to take straight ahead": ("", "e2xe4", "there is nothing on e4 to take"),
    "nothing to take in castling": (CASTLING, "e1xg1", "there is nothing on g1 to take"),
    "en passant too late": (
        "4k3/8/8/3pP3/8/8/8/4K3 w - - 0 9",
        "exd6 e.p.",
        "en passant is allowed only at once, in the move after the pawn's double step",
    ),
    "an ordinary capture is not en passant": (
        "e4 d5",
        "exd5 e.p.",
        "this is no capture en passant",
    ),
    "a knight takes nothing en passant": ("", "Nf3 e.p.", "this is no capture en passant"),
    "pinned": (
        "e4 e6 c3 d5 exd5 exd5 d4 Bb4 h3 Ba5 b4 h6 bxa5 a6 Nd2 Qe7+ Ne2 Nf6 Nb3 h5",
        "Nf4",
        "the knight on e2 is pinned to the king by the queen on e7",
    ),
    "check not answered": (
        "e4 e5 Nf3 Nc6 c4 Bb4 Nc3 Bxc3 h3 Bxd2+",
        "a3",
        "the king is in check from the bishop on d2, and this move does not answer it",
    ),
    "king into check": (
        "4k3/8/8/8/8/8/r7/4K3 w - - 0 1",
        "Kd2",
        "the king would stand in check from the rook on a2",
    ),
    "castling over a piece": ("", "O-O", "the bishop on f1 stands between king and rook"),
    "castling from elsewhere": (
        "4k3/8/8/8/8/8/8/3K3R w - - 0 1",
        "O-O",
        "White is no longer allowed to castle kingside: the king has left e1",
    ),
    "castling through check": (
        "4k3/8/b7/8/8/8/8/4K2R w K - 0 1",
        "o-o",
        "castling through check is not allowed: f1 is attacked by the bishop on a6",
    ),
    "castling as king takes rook": (CASTLING, "e1h1", "White's own rook is on h1"),
    "castling as a king's move": (
        CASTLING,
        "Kg1",
        "a king moves one square; castling is written O-O or O-O-O",
    ),
    "the opponent's piece": ("", "e7e5", "the pawn on e7 is Black's"),
    "no piece in UCI": ("", "e4e5", "there is no piece on e4"),
    "promotion to a king": (
        LAST_RANK,
        "a8=K",
        "a pawn becomes a bishop, a knight, a queen or a rook",
    ),
    "promotion to a pawn": (
        LAST_RANK,
        "a8=P",
        "a pawn becomes a bishop, a knight, a queen or a rook",
    ),
    "promotion too early": (
        "",
        "e4=Q",
        "only a pawn that reaches the last rank becomes another piece",
    ),
    "the pinned one, not the one that is stopped": (
        "4r1k1/8/8/8/4R3/8/3P4/3RK3 w - - 0 1",
        "Rd4",
        "the rook on e4 is pinned to the king by the rook on e8",
    ),
    "the pawn, as standard notation has it": (
        "4k3/8/8/8/8/1P6/B7/4K3 w - - 0 1",
        "bxc8",
        "a pawn does not move from b3 to c8",
    ),
    "no pawn, as standard notation has it": (
        "4k3/8/8/8/8/2n5/8/4K3 w - - 0 1",
        "bxc3",
        "White has no pawn on the b-file",
    ),
    "promotion stopped": (
        "n3k3/P7/8/8/8/8/8/4K3 w - - 0 1",
        "a8",
        "the knight on a8 is in the way of the pawn on a7",
    ),
}


@pytest.mark.parametrize(("line", "text", "reason"), ILLEGAL.values(), ids=ILLEGAL)
def test_an_illegal_text_says_why(line: str, text: str, reason: str) -> None:
    assert read_move(after(line), text) == Illegal(reason)


NO_MOVES = {
    "a null move": "--",
    "a null move, letters": "Z0",
    "a null move, UCI": "0000",
    "a null move, drops": "@@@@",
    "a word": "hello",
    "half a move": "Nf",
    "a short capture": "exd",
    "a capture from nowhere": "xd5",
    "a digit too many": "Nf33",
    "off the board": "Ni3",
    "off the board, rank": "e9",
    "two moves": "Nf3 Nc6",
    "a result": "1-0",
    "a drawn result": "1/2-1/2",
    "another language": "Sf3",
    "a comment": "Nf3{x}",
    "full-width letters": "Ｎｆ３",
    "full-width digit": "e４",
    "a number only": "4.",
    "castling too long": "O-O-O-O",
    "a file twice": "ee4",
    "a dash without a square": "e-e4",
    "half an origin": "e-d5",
}


@pytest.mark.parametrize("text", NO_MOVES.values(), ids=NO_MOVES)
def test_what_is_no_move_says_what_was_expected(text: str) -> None:
    assert read_move(chess.Board(), text) == Unreadable(f'"{text}" is no move; {EXPECTED}')


@pytest.mark.parametrize("text", ["", "   ", "\n", "\u202e", "\x1b\x07"])
def test_nothing_visible_is_not_repeated(text: str) -> None:
    assert read_move(chess.Board(), text) == Unreadable(f"this is no move; {EXPECTED}")


# Source: ECMA-48, C0 and C1 controls; Unicode UAX #9.
@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31mNf3", "[31mNf3"),
        ("\x9b31mNf3", "31mNf3"),
        ("N\u202ef3", "Nf3"),
        ("\ud800x", "x"),
        ("♘\u200bf9", "♘f9"),
        ("n" * 21, "n" * 19 + "…"),
        ("Nf3" * 1_000_000, "Nf3Nf3Nf3Nf3Nf3Nf3N…"),
        ("Nf3" + "!" * 100, "Nf3!!!!!!!!!!!!!!!!…"),
        ("Nf3" + "+" * 16 + "ep", "Nf3++++++++++++++++…"),
    ],
)
def test_an_echo_is_short_and_printable(text: str, shown: str) -> None:
    assert printable(text) == shown
    assert read_move(chess.Board(), text) == Unreadable(f'"{shown}" is no move; {EXPECTED}')


KNIGHTS = "e4 e5 Nf3 Nc6"

# Common usage; no source.
IN_OTHER_LETTERS = [
    ("de", KNIGHTS, "Lb5", "Bb5"),
    ("de", KNIGHTS, "sxe5", "Nxe5"),
    ("de", KNIGHTS, "De2", "Qe2"),
    ("de", KNIGHTS, "Tg1", "Rg1"),
    ("fr", KNIGHTS, "Fb5", "Bb5"),
    ("fr", KNIGHTS, "Cxe5", "Nxe5"),
    ("fr", KNIGHTS, "Re2", "Ke2"),
    ("es", KNIGHTS, "Ab5", "Bb5"),
    ("it", KNIGHTS, "De2", "Qe2"),
    ("nl", KNIGHTS, "Pc3", "Nc3"),
    ("nl", "", "Pf3", "Nf3"),
    ("nl", KNIGHTS, "Lb5", "Bb5"),
    ("pl", KNIGHTS, "Gb5", "Bb5"),
    ("pl", KNIGHTS, "Sxe5", "Nxe5"),
    ("pl", KNIGHTS, "He2", "Qe2"),
    ("ru", KNIGHTS, "Сb5", "Bb5"),
    ("ru", KNIGHTS, "Крe2", "Ke2"),
    ("ru", KNIGHTS, "крe2", "Ke2"),
    ("ru", KNIGHTS, "Кxe5", "Nxe5"),
    ("fr", LAST_RANK, "a8=D", "a8=Q"),
    ("de", LAST_RANK, "axb8S", "axb8=N"),
    ("de", LAST_RANK, "a7a8q", "a8=Q"),
    ("de", KNIGHTS, "Bb5", "Bb5"),
    ("fr", KNIGHTS, "Rg1", "Rg1"),
]


@pytest.mark.parametrize(("language", "line", "text", "san"), IN_OTHER_LETTERS)
def test_the_readers_letters_and_then_the_english(
    language: str, line: str, text: str, san: str
) -> None:
    board = after(line)
    assert read_move(board, text, LANGUAGES[language]) == LegalMove(board.parse_san(san), san)


BOTH_ALPHABETS = [
    ("fr", "4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "Rd1", "the rook on a1 and the king on e1", "d1"),
    ("it", "4k3/8/8/8/8/8/7R/5K2 w - - 0 1", "re2", "the king on f1 and the rook on h2", "e2"),
    (
        "fr",
        "4k3/8/8/3p4/2P5/4N3/8/K7 w - - 0 1",
        "cd5",
        "the pawn on c4 and the knight on e3",
        "d5",
    ),
    ("de", "4k3/8/8/4p3/3P4/8/7Q/4K3 w - - 0 1", "de5", "the pawn on d4 and the queen on h2", "e5"),
]


# Worked by hand.
@pytest.mark.parametrize(("language", "fen", "text", "two", "target"), BOTH_ALPHABETS)
def test_a_letter_of_two_alphabets_is_never_guessed(
    language: str, fen: str, text: str, two: str, target: str
) -> None:
    assert read_move(chess.Board(fen), text, LANGUAGES[language]) == Unclear(
        f"{two} can both go to {target}: add the square it starts from"
    )


@pytest.mark.parametrize(("text", "example"), [("??", "Sf3"), ("Rr", "Sf3")])
def test_the_example_is_in_the_readers_letters(text: str, example: str) -> None:
    read = read_move(chess.Board(), text, LANGUAGES["de"])
    assert isinstance(read, Unreadable)
    assert f"looks like {example}, exd5" in read.reason
