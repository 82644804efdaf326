"""PGN text into games: what is read, and where it belongs."""

from __future__ import annotations

from pathlib import Path

import chess
import pytest

from tests.deck.reading import nodes, only_game, read, shape
from trainer.deck.pgn import read_pgn
from trainer.lines.position import START_KEY, PositionPool
from trainer.lines.tree import Comment

BLACK_TO_MOVE = "4k3/8/8/8/8/8/4p3/K7 b - - 3 40"
FEN = f'[SetUp "1"]\n[FEN "{BLACK_TO_MOVE}"]\n\n'

# Source: PGN standard (Edwards, 1994), sections as named; each is one game.
SOUND = {
    "no tags": ("1. e4 e5 *", "e4 e5"),
    "no numbers (8.2.2.1)": ("e4 e5 Nf3 *", "e4 e5 Nf3"),
    "numbers everywhere (8.2.2.1)": ("1. e4 1... e5 2. Nf3 2... Nc6 3. *", "e4 e5 Nf3 Nc6"),
    "numbers and any periods (8.2.2.1)": ("1 e4 1.. e5 2 . Nf3 2 ... Nc6 *", "e4 e5 Nf3 Nc6"),
    "glued": ("1.e4{a}e5(1...c5)2.Nf3*", "e4 e5 (c5) Nf3"),
    "blank line inside the movetext": ("1. e4\n\ne5\n \n\n2. Nf3 *", "e4 e5 Nf3"),
    "two blank lines after the tags": ('[Event "x"]\n\n\n1. e4 *', "e4"),
    "two tags on a line": (f'[SetUp "1"][FEN "{BLACK_TO_MOVE}"] 40... Kd7 *', "Kd7"),
    "a tag over two lines": ('[Event\n"x"]\n\n1. e4 *', "e4"),
    "tags in any order (8.1)": (f'[FEN "{BLACK_TO_MOVE}"]\n[SetUp "1"]\n\nKd7 *', "Kd7"),
    "no blank line after the tags": ('[Event "x"]\n1. e4 *', "e4"),
    "CR LF": ('[Event "x"]\r\n\r\n1. e4\r\n*\r\n', "e4"),
    "CR alone": ('[Event "x"]\r\r1. e4\r*', "e4"),
    "byte-order mark": ('\ufeff[Event "x"]\n\n1. e4 *', "e4"),
    "escape lines (6)": ("%a\n1. e4\n% d4 } *\ne5 *", "e4 e5"),
    "four results (8.2.6)": ("1. e4 1/2-1/2", "e4"),
    "variation at the first move": ("1. e4 (1. c4) 1... c5 *", "e4 (c4) c5"),
    "variations side by side and nested (8.2.5)": (
        "1. e4 e5 (1... c5 2. Nf3 (2. Nc3 Nc6) 2... d6) (1... e6) 2. Nf3 *",
        "e4 e5 (c5 Nf3 (Nc3 Nc6) d6) (e6) Nf3",
    ),
    "variation at the end": ("1. e4 e5 (1... c5) *", "e4 e5 (c5)"),
    "a preface is no game": ("{About this file.}\n\n[Event \"x\"]\n\n1. e4 *", "e4"),
    "Standard chess named": ('[Variant "Standard"]\n\n1. e4 *', "e4"),
    "standard chess from a position": (f'[Variant "From Position"]\n{FEN}Kd7 *', "Kd7"),
    "check sign missing (8.2.3.7)": ("1. e4 f6 2. Qh5 *", "e4 f6 Qh5+"),
    "mate sign missing": ("1. f3 e5 2. g4 Qh4 *", "f3 e5 g4 Qh4#"),
    "check sign for mate": ("1. f3 e5 2. g4 Qh4+ 0-1", "f3 e5 g4 Qh4#"),
    "check sign too many": ("1. e4+ e5# *", "e4 e5"),
    "capture sign missing (8.2.3.7)": ("1. e4 d5 2. ed5 Qd5 *", "e4 d5 exd5 Qxd5"),
    "more origin than needed": ("1. Ng1f3 N8c6 2. Nb1c3 *", "Nf3 Nc6 Nc3"),
    "the pawn's letter (8.2.3.2)": ("1. Pe4 Pd5 2. Pexd5 *", "e4 d5 exd5"),
    "castling with zeros": ("1. e4 e5 2. Nf3 Nf6 3. Be2 Be7 4. 0-0 0-0 *",
                            "e4 e5 Nf3 Nf6 Be2 Be7 O-O O-O"),
    "promotion without equals sign": (FEN + "e1Q *", "e1=Q+"),
    "the twin is pinned (8.2.3.4)": (
        '[SetUp "1"]\n[FEN "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1"]\n\n1. Ne2 *', "Ne2"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "moves"), SOUND.values(), ids=SOUND.keys())
def test_sound_text_is_read(text: str, moves: str) -> None:
    assert shape(only_game(text)) == moves


def nested(depth: int) -> str:
    """Variations inside one another, two moves each: `1. Nf3 (1. Nc3 Nf6 (1... Nc6 2. Nf3 (`"""
    words = ["Nf3"]
    board = chess.Board()
    board.push_san("Nf3")
    for _ in range(depth):
        last = board.pop()
        other = next(move for move in board.legal_moves if move != last)
        words.append(f"({board.san(other)}")
        board.push(other)
        reply = list(board.legal_moves)[-1]
        words.append(board.san(reply))
        board.push(reply)
    return " ".join(words) + ")" * depth + " *"


def test_thousands_of_nested_variations_are_read() -> None:
    game = only_game(nested(3_000))
    depth, node = 0, game.children[-1]
    while node.children:
        depth, node = depth + 1, node.children[-1]
    assert len(nodes(game)) == 6_001
    assert depth > 2_900


def test_a_line_of_thousands_of_moves_is_read() -> None:
    game = only_game("Nf3 Nf6 Ng1 Ng8 " * 5_000 + "*")
    assert len(nodes(game)) == 20_000


# design.md, section 3: a comment belongs to the move it follows.
COMMENTS = {
    "introduction": ("{a} 1. e4 *", ("a", {})),
    "introduction, after tags and number": ('[A "x"]\n\n1. {a} e4 *', ("a", {})),
    "introduction of a game without tags": ("1. c4 *\n\n{a} 1. e4 *", ("a", {})),
    "two introductions": ("{a} {b} 1. e4 *", ("a\nb", {})),
    "after a move": ("1. e4 {a} e5 *", ("", {"e4": "a"})),
    "rest of a line": ("1. e4 ; a\ne5 ; b\n*", ("", {"e4": "a", "e5": "b"})),
    "after NAGs": ("1. e4! $10 {a} e5 *", ("", {"e4": "a"})),
    "before a number": ("1. e4 e5 {a} 2. Nf3 *", ("", {"e5": "a"})),
    "between number and move": ("1. e4 e5 2. {a} Nf3 *", ("", {"e5": "a"})),
    "several on one move": ("1. e4 {a} ; b\n{c} e5 *", ("", {"e4": "a\nb\nc"})),
    "at the start of a variation": ("1. e4 ({a} 1. c4 {b}) *", ("", {"c4": "a\nb"})),
    "after the number of a variation": ("1. e4 (1. {a} c4) *", ("", {"c4": "a"})),
    "after a variation": ("1. e4 {a} (1. c4 {b}) {c} e5 *", ("", {"e4": "a\nc", "c4": "b"})),
    "at the end of a variation": ("1. e4 (1. c4 {a}) e5 *", ("", {"c4": "a"})),
    "before the result": ("1. e4 e5 {a} *", ("", {"e5": "a"})),
    "with braces and tags in it": ('1. e4 {a {b ; [A "x"]\n[B "y"]} *',
                                   ("", {"e4": 'a {b ; [A "x"] [B "y"]'})),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), COMMENTS.values(), ids=COMMENTS.keys())
def test_comment_belongs_to(text: str, expected: tuple[str, dict[str, str]]) -> None:
    games, findings = read(text)
    assert findings == []
    said = {node.san: node.comment.text for node in nodes(games[-1]) if node.comment.text}
    assert (games[-1].introduction.text, said) == expected


# Source: PGN standard, 8.2.3.8 (suffixes) and 10 (the first six NAGs).
@pytest.mark.parametrize(
    ("text", "nags"),
    [
        ("e4!", (1,)),
        ("e4?", (2,)),
        ("e4!!", (3,)),
        ("e4??", (4,)),
        ("e4!?", (5,)),
        ("e4?!", (6,)),
        ("e4 ! $13 $0 $255", (1, 13, 0, 255)),
        ("e4! $1 $13 $13", (1, 13)),
        ("e4 (1. c4 $2) $3", (3,)),
    ],
)
def test_annotations_become_nags(text: str, nags: tuple[int, ...]) -> None:
    assert only_game(f"1. {text} *").children[0].nags == nags


def test_a_move_knows_its_place_and_position() -> None:
    game = only_game('[A "x"]\n\n1. e4 e5\n  (1... c5 {a\nb} 2. Nf3) 2. Nf3 *')
    e4 = game.children[0]
    e5, c5 = e4.children
    assert [(node.line, node.column) for node in (e4, e5, c5)] == [(3, 4), (3, 7), (4, 9)]
    assert (c5.children[0].line, c5.children[0].column) == (5, 7)
    assert (game.number, game.line, game.start.key) == (1, 1, START_KEY)
    assert e5.move == chess.Move.from_uci("e7e5")
    assert e5.after.key.split()[1] == "w"


def test_transpositions_meet_in_one_position() -> None:
    pool = PositionPool()
    text = "1. e4 c5 2. Nf3 e6 (2... Nc6) *\n\n1. e4 e6 2. Nf3 c5 *"
    (one, other), _ = read_pgn(text, "test.pgn", pool)
    ends = [node.after for game in (one, other) for node in nodes(game) if not node.children]
    assert len(ends) == 3
    assert len(set(ends)) == 2


def test_start_and_tags_of_a_game() -> None:
    game = only_game(f'[White "A \\"B\\" C"]\n[SetUp "1"]\n[FEN "{BLACK_TO_MOVE}"]\n\n40... Kd7 *')
    assert game.tags == {"White": 'A "B" C', "SetUp": "1", "FEN": BLACK_TO_MOVE}
    assert game.start_fen == BLACK_TO_MOVE
    assert game.children[0].comment == Comment()


def test_a_game_with_an_unknown_start_is_left_out() -> None:
    games, _ = read('[Variant "Atomic"]\n\n1. e4 *\n\n[A "x"]\n\n1. c4 *')
    assert [(game.number, shape(game)) for game in games] == [(2, "c4")]


ECO = Path("/usr/share/pgn-extract/eco.pgn")


@pytest.mark.skipif(not ECO.exists(), reason="the Debian package pgn-extract is not installed")
def test_a_real_file_of_two_thousand_lines() -> None:
    pool = PositionPool()
    games, findings = read_pgn(ECO.read_text("latin-1"), "eco.pgn", pool)
    # Agrees with python-chess 1.11.2, chess.js 1.4.0, chessops 0.15.1 and pgn-extract 19-04.
    assert findings == []
    assert len(games) == 2_014
    assert sum(len(nodes(game)) for game in games) == 20_697
    assert len(pool) == 4_038
    assert len({pool_position.key for pool_position in pool}) == 4_038
