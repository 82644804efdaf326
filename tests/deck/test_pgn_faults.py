"""PGN text that is not what a deck may hold: what is said of it, and where."""

from __future__ import annotations

import pytest

from tests.deck.reading import nodes, places, read
from trainer.deck.allowance import Allowance
from trainer.deck.findings import Severity
from trainer.deck.limits import COMMENT_CHARS, DEPTH, FINDINGS, SIBLINGS, TAGS
from trainer.deck.pgn import read_pgn
from trainer.lines.position import PositionPool

BLACK_TO_MOVE = "4k3/8/8/8/8/8/4p3/K7 b - - 3 40"
FEN = f'[SetUp "1"]\n[FEN "{BLACK_TO_MOVE}"]\n\n'

# Source: PGN standard, sections as named; what is unnamed is the deck's own rule (design.md,
# section 3). Line and column by hand.
ERRORS = {
    "illegal move": ("1. e4 e5 2. Ke3 *", [("illegal-move", 1, 13)]),
    "blocked": ("1. Ra3 *", [("illegal-move", 1, 4)]),
    "capture of nothing": ("1. Nxf3 *", [("illegal-move", 1, 4)]),
    "castling through a piece": ("1. O-O *", [("illegal-move", 1, 4)]),
    "king onto its own rook": ("1. Kh1 *", [("illegal-move", 1, 4)]),
    "ambiguous": ("1. Nf3 a6 2. d3 b6 3. Nd2 *", [("ambiguous-move", 1, 23)]),
    "promotion without its piece": (FEN + "e1 *", [("ambiguous-move", 4, 1)]),
    "promotion to a king": (FEN + "e1=K *", [("unreadable-move", 4, 1)]),
    "digit too many": ("1. Nf33 Nc6 *", [("unreadable-move", 1, 4)]),
    "digit missing": ("1. e *", [("unreadable-move", 1, 4)]),
    "no such square": ("1. Qxz9 *", [("unreadable-move", 1, 4)]),
    "German knight": ("1. Sf3 *", [("unreadable-move", 1, 4)]),
    "figurine": ("1. ♘f3 *", [("unreadable-move", 1, 4)]),
    "small piece letter": ("1. nf3 *", [("unreadable-move", 1, 4)]),
    "capital file": ("1. E4 *", [("unreadable-move", 1, 4)]),
    "UCI": ("1. g1f3 *", [("unreadable-move", 1, 4)]),
    "castling as in Chess960": ("1. e1h1 *", [("unreadable-move", 1, 4)]),
    "long algebraic": ("1. e2-e4 *", [("unreadable-move", 1, 4)]),
    "small castling": ("1. o-o *", [("unreadable-move", 1, 4)]),
    "two moves glued": ("1.e4e5 *", [("unreadable-move", 1, 3)]),
    "number glued without period": ("1e4 *", [("unreadable-move", 1, 1)]),
    "en passant said": ("1. e4 a6 2. e5 d5 3. exd6 e.p. *", [("unreadable-move", 1, 27)]),
    "ten to nothing": ("10-0 *", [("unreadable-move", 1, 1)]),
    "a word": ("1. e4 good *", [("unreadable-move", 1, 7)]),
    "escape sign inside a line (6)": ("1. e4 %x *", [("unreadable-move", 1, 7)]),
    "pawn capture on its own file": ("1. ee4 *", [("unreadable-move", 1, 4)]),
    "null move --": ("1. e4 -- *", [("null-move", 1, 7)]),
    "null move Z0": ("1. e4 Z0 *", [("null-move", 1, 7)]),
    "null move 0000": ("1. e4 0000 *", [("null-move", 1, 7)]),
    "null move @@@@": ("1. e4 @@@@ *", [("null-move", 1, 7)]),
    "wrong number (8.2.2.1)": ("1. e4 e5 3. Nf3 *", [("wrong-move-number", 1, 10)]),
    "wrong numbers from there on": (
        "1. e4 e5 3. Nf3 (3. Nc3 4... Nc6) 3... Nc6 4. Bb5 *", [("wrong-move-number", 1, 10),
                                                               ("wrong-move-number", 1, 25)]),
    "one number wrong": ("1. e4 e5 3. Nf3 Nc6 3. Bb5 a6 4. Ba4 *", [("wrong-move-number", 1, 10)]),
    "number zero": ("0. e4 *", [("wrong-move-number", 1, 1)]),
    "number of thousands of digits": ("9" * 5000 + ". e4 *", [("wrong-move-number", 1, 1)]),
    "Black's periods for White": ("1... e4 *", [("wrong-move-number", 1, 1)]),
    "number of a variation": ("1. e4 (2. c4) *", [("wrong-move-number", 1, 8)]),
    "number after a FEN": (FEN + "1... Kd7 *", [("wrong-move-number", 4, 1)]),
    "periods without number": ("1. e4 ... e5 *", [("unknown-token", 1, 7)]),
    "comment never closed": ("1. e4 {a\ne5 *", [("unclosed-comment", 1, 7)]),
    "comment over another game": (
        '1. e4 {a *\n\n[Event "x"]\n\n1. c4 *\n\n[Event "y"]\n\n1. e4 {b} Ke7 *',
        [("unclosed-comment", 1, 7), ("illegal-move", 9, 11)]),
    "two comments over other games": (
        '1. e4 {a *\n\n[Event "x"]\n\n1. c4 {b *\n\n[Event "y"]\n\n1. e4 {c} Ke7 *',
        [("unclosed-comment", 1, 7), ("unclosed-comment", 5, 7), ("illegal-move", 9, 11)]),
    "braces do not nest (5)": ("1. e4 {a {b} c} e5 *", [("unreadable-move", 1, 14),
                                                        ("unknown-token", 1, 15)]),
    "brace closed twice": ("1. e4 {a}} e5 *", [("unknown-token", 1, 10)]),
    "variation never closed": ("1. e4 (1. c4 c5 *", [("unclosed-variation", 1, 7)]),
    "variation over another game": (
        '1. e4 (1. c4\n*\n\n[Event "x"]\n\n1. Ke2 *',
        [("unclosed-variation", 1, 7), ("illegal-move", 6, 4)]),
    "parenthesis too many": ("1. e4 e5 ) 2. Nf3 *", [("stray-parenthesis", 1, 10)]),
    "wrong move, then parenthesis": (
        "1. e4 e5 2. Ke3 ) Nf3 *", [("illegal-move", 1, 13), ("stray-parenthesis", 1, 17)]),
    "variation before any move": ("(1. c4) 1. e4 *", [("variation-before-move", 1, 1)]),
    "variation of a variation not begun": (
        "1. e4 ((1. c4) 1. d3) *", [("variation-before-move", 1, 8)]),
    "variation without move": ("1. e4 () e5 *", [("empty-variation", 1, 8)]),
    "variation with a comment only": ("1. e4 ({a}) e5 *", [("empty-variation", 1, 11)]),
    "moves after the result": ("1. e4 1-0 e5 2. Nf3 *", [("moves-after-result", 1, 11)]),
    "numbered moves after the result": ("1. e4 * 1... e5 *", [("moves-after-result", 1, 9)]),
    "moves with a result after the result": (
        "1. e4 * e5 * 1-0", [("moves-after-result", 1, 9), ("second-result", 1, 14)]),
    "two results": ("1. e4 * 1-0", [("second-result", 1, 9)]),
    "result inside a variation": ("1. e4 (1. c4 1-0) e5 *", [("result-in-variation", 1, 14)]),
    "result, then moves, inside a variation": (
        "1. e4 (1. c4 1-0 c5) e5 *", [("result-in-variation", 1, 14)]),
    "NAG too large (8.2.4)": ("1. e4 $256 *", [("bad-nag", 1, 7)]),
    "NAG of thousands of digits": (f"1. e4 ${'9' * 5000} *", [("bad-nag", 1, 7)]),
    "NAG without digits": ("1. e4 $ *", [("bad-nag", 1, 7)]),
    "NAG before any move": ("$1 1. e4 *", [("nag-before-move", 1, 1)]),
    "NAG before the moves of a variation": ("1. e4 ($1 1. c4) *", [("nag-before-move", 1, 8)]),
    "suffix unknown (8.2.3.8)": ("1. e4!!! ?!? *", [("unknown-suffix", 1, 6),
                                                    ("unknown-suffix", 1, 10)]),
    "reserved (7)": ("1. e4 <x> e5 *", [("unknown-token", 1, 7)]),
    "string outside a tag": ('1. e4 "x" e5 *', [("unknown-token", 1, 7)]),
    "bracket": ("1. e4 ] e5 *", [("unknown-token", 1, 7)]),
    "command outside a comment": ("1. e4 [%csl Gd5] e5 *", [("unknown-token", 1, 7)]),
    "bad command inside": ("1. e4 {[%share many]} *", [("bad-share", 1, 7)]),
    "string not closed (7)": ('[Event "x]\n\n1. e4 *', [("unclosed-string", 1, 1)]),
    "tag not closed": ('[Event "x"\n[Site "y"]\n\n1. e4 *', [("unclosed-tag", 1, 1)]),
    "tag without value": ('[Event]\n\n1. e4 *', [("tag-without-value", 1, 1)]),
    "tag without quotes": ('[Event x]\n\n1. e4 *', [("tag-without-value", 1, 1)]),
    "tag without name": ('["x"]\n\n1. e4 *', [("tag-without-name", 1, 1)]),
    "same tag twice": ('[Event "x"]\n[Event "y"]\n\n1. e4 *', [("duplicate-tag", 2, 1)]),
    "same tag twice, after a gap": (
        '[Event "x"]\n[Site "x"]\n\n[Site "y"]\n\n1. e4 *', [("duplicate-tag", 4, 1)]),
    "SetUp without FEN (9.7)": ('[SetUp "1"]\n\n1. Kh9 *', [("setup-without-fen", 1, None)]),
    "FEN broken": ('[SetUp "1"]\n[FEN "8/8 w"]\n\n1. Kh9 *', [("bad-fen", 2, None)]),
    "FEN without kings": (
        '[SetUp "1"]\n[FEN "8/8/8/8/8/8/8/8 w - - 0 1"]\n\n*', [("bad-fen", 2, None)]),
    "FEN tag broken": ('[SetUp "1"]\n[FEN "x]\n\n1. Kh9 *', [("unclosed-string", 2, 1)]),
    "other chess": ('[Variant "Atomic"]\n\n1. Kh9 *', [("unsupported-variant", 1, None)]),
    "Chess960": ('[Variant "Chess960"]\n\n1. Kh9 *', [("unsupported-variant", 1, None)]),
    "an empty file": ("", [("no-game", None, None)]),
    "only comments": ("{a} ; b\n% c\n", [("no-game", None, None)]),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), ERRORS.values(), ids=ERRORS.keys())
def test_fault_is_an_error(text: str, expected: list[tuple[str, int, int]]) -> None:
    assert places(text, Severity.ERROR) == expected


# design.md, section 3, "Findings"; the repeated move is the reader's own.
WARNINGS = {
    "no result (8.2.6)": ('[Event "x"]\n\n1. e4', "missing-termination", 1),
    "no result before the next game": (
        '[Event "x"]\n1. e4\n[Event "y"]\n1. c4 *', "missing-termination", 1),
    "tags in the middle of a game": (
        '1. e4 [Event "a4 cup"] 1. c4 *', "missing-termination", 1),
    "FEN without SetUp (9.7)": (f'[FEN "{BLACK_TO_MOVE}"]\n\nKd7 *', "fen-without-setup", 1),
    "FEN with SetUp 0 (9.7)": (
        f'[SetUp "0"]\n[FEN "{BLACK_TO_MOVE}"]\n\nKd7 *', "fen-without-setup", 2),
    "Result differs (8.2.6)": ('[Result "1-0"]\n\n1. e4\n0-1', "result-differs", 4),
    "a variation of the same move": ("1. e4 (1. e4 e5) *", "repeated-move", 1),
    "the same variation twice": ("1. e4 (1. c4) (1. c4) *", "repeated-move", 1),
    "White's period for Black": ("1. e4 1. e5 2. Nf3 2. Nc6 *", "doubtful-move-number", 1),
    "slip in a command": ("1. e4 {[%shar 60]} *", "misspelt-command", 1),
}  # fmt: skip


@pytest.mark.parametrize(("text", "code", "line"), WARNINGS.values(), ids=WARNINGS.keys())
def test_doubt_is_a_warning(text: str, code: str, line: int) -> None:
    games, findings = read(text)
    assert [(found.code, found.severity, found.line) for found in findings] == [
        (code, Severity.WARNING, line)
    ]
    assert nodes(games[0])


@pytest.mark.parametrize(
    ("text", "code"),
    [("*", "game-without-moves"), ("1. e4 * {bye}", "comment-between-games")],
)
def test_harmless_oddity_is_a_note(text: str, code: str) -> None:
    games, findings = read(text)
    assert [(found.code, found.severity) for found in findings] == [(code, Severity.NOTE)]
    assert len(games) == 1


# Worked by hand: what the author of the slip needs to read.
WORDS = {
    "the right letter case": ("1. nf3 *", "1. nf3 is not how PGN writes it; write Nf3"),
    "the move meant": ("1. e4 e7e5 *", "1... e7e5 is not how PGN writes it; write e5"),
    "the letters of PGN": ("1. Sf3 *", "with the piece letters K, Q, R, B and N"),
    "why it is illegal": ("1. e4 e5 2. Ke3 *", "2. Ke3 is not legal here: a king moves one square"),
    "a bishop meant as a pawn": ("1. e4 e5 2. bc4 *", "write Bc4"),
    "what is missing": ("1. Nf3 a6 2. d3 b6 3. Nd2 *", "add the square it starts from"),
    "the right number": ("1. e4 e5 3. Nf3 *", "write 2."),
    "a number over two lines": ("1. e4 7\n.\ne5 *", "7. is the wrong move number here"),
    "a word of controls": ("1. e4 x\x1by\u202e *", "1... xy is no move"),
}


@pytest.mark.parametrize(("text", "words"), WORDS.values(), ids=WORDS.keys())
def test_message_helps(text: str, words: str) -> None:
    _, findings = read(text)
    assert words in findings[0].message
    assert all(found.message.isprintable() for found in findings)


def test_a_fault_silences_only_its_own_line_of_play() -> None:
    text = (
        "1. e4 e5 2. Ke3 (2. Nf3 Nc6 3. Ke3 a6 4. Ka9 (4. Kb9) 4... h6) (2. Nc3 Qx)"
        " 2... Nc6 3. Ka9 (3. Kb9) 3... d6 (3... e9) *\n\n1. e4 (1. Kc9) e5 2. Kd9 *"
    )
    assert places(text) == [
        ("illegal-move", 1, 13),
        ("illegal-move", 1, 32),
        ("unreadable-move", 1, 72),
        ("unreadable-move", 3, 11),
        ("unreadable-move", 3, 22),
    ]


def test_findings_say_which_game() -> None:
    _, findings = read('1. e4 e9 *\n\n[A "x"]\n\n1. c4 *\n\n[A "x"]\n\n1. d3 d3 *')
    assert [found.game for found in findings] == [1, 3]


def test_faults_are_listed_up_to_a_limit() -> None:
    text = '[A "x"]\n\n1. e9 *\n\n' * (FINDINGS + 50)
    _, findings = read(text)
    assert len(findings) == FINDINGS + 1
    assert (findings[-1].code, findings[-1].severity) == ("too-many-findings", Severity.ERROR)


def test_warnings_beyond_the_limit_hide_no_error() -> None:
    text = '[Result "1-0"]\n\n1. e4 *\n\n' * (FINDINGS + 50) + "1. e9 *"
    games, findings = read(text)
    assert len(games) == FINDINGS + 51
    assert [found.code for found in findings[-2:]] == ["unreadable-move", "too-many-findings"]
    assert findings[-1].severity is Severity.WARNING


# What a hostile file may hold, and the one finding that refuses it.
HOSTILE = {
    "comment": "1. e4 {" + "a " * COMMENT_CHARS + "} *",
    "comments on one move": "1. e4 " + "{a} ;b\n" * COMMENT_CHARS + "*",
    "tags": "".join(f'[A{number} "x"]\n' for number in range(TAGS + 1)) + "1. e4 *",
    "depth": "1. e4 " + "(1. c4 " * (DEPTH + 1),
    "siblings": "1. e4 " + "(1. c4) " * (SIBLINGS + 1) + "*",
    "value": f'[A "{"x" * 5000}"]\n\n1. e4 *',
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_costly_file_is_refused(text: str) -> None:
    _, findings = read(text)
    assert "too-large" in [found.code for found in findings]


# The limit that is lowered, and a text that is one above it.
COUNTED = {
    "games": ("pgn", "GAMES", 2, "1. e4 * 1. c4 * 1. d3 *"),
    "positions": ("san", "POSITIONS", 3, "1. e4 e5 2. Nf3 *"),
    "starts": ("pgn", "POSITIONS", 2, f"1. e4 * {FEN} *"),
}


@pytest.mark.parametrize(("module", "limit", "most", "text"), COUNTED.values(), ids=COUNTED.keys())
def test_what_is_counted_has_a_limit(
    monkeypatch: pytest.MonkeyPatch, module: str, limit: str, most: int, text: str
) -> None:
    monkeypatch.setattr(f"trainer.deck.{module}.{limit}", most)
    assert [code for code, _, _ in places(text, Severity.ERROR)] == ["too-large"]
    monkeypatch.setattr(f"trainer.deck.{module}.{limit}", most + 1)
    assert places(text, Severity.ERROR) == []


@pytest.mark.parametrize(
    ("most", "text"), [(4, "1. e4 e5 2. Nf3 * 1. e4 e5 *"), (2, "1. e4 (1. c4) e5 *")]
)
def test_moves_are_counted_over_a_whole_deck(most: int, text: str) -> None:
    for allowed, wanted in ((most, ["too-large"]), (most + 1, [])):
        _, findings = read_pgn(text, "test.pgn", PositionPool(), Allowance(moves=allowed))
        assert [found.code for found in findings if found.severity is Severity.ERROR] == wanted
    allowance = Allowance(moves=most + 1)
    read_pgn(text, "test.pgn", PositionPool(), allowance)
    assert allowance.moves == 0


def test_comments_are_counted_move_by_move() -> None:
    half = "{" + "a " * (COMMENT_CHARS // 4 + 1) + "}"
    assert places(f"1. e4 {half} e5 {half} (1... c5 {half}) 2. Nf3 {half} *") == []


def test_tags_alone_before_the_next_game_are_a_game_without_moves_and_result() -> None:
    games, findings = read('[Event "x"]\n[Site "?"]\n\n[Event "y"]\n\n1. c4 *')
    assert [found.code for found in findings] == ["game-without-moves", "missing-termination"]
    assert [len(nodes(game)) for game in games] == [0, 1]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1. e4 {the centre 1... e5 2. Nf3 {hits e5} 2... Nc6 *", [("brace-in-comment", 1, 7)]),
        ("1. e4 {braces {do not nest} 1... e5 *", []),
        ("1. e4 {see 3. Bb5} 1... e5 {fine} *", []),
        ("1. e4 {[%eval 0.35] on 2. 5. {x} 1... e5 *", []),
    ],
)
def test_a_comment_without_its_end_is_named_before_what_it_leads_astray(
    text: str, wanted: list[tuple[str, int, int]]
) -> None:
    assert places(text, Severity.WARNING) == wanted
