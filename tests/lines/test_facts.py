"""Position facts: worked by hand, and computed again by boards of other makes."""

from __future__ import annotations

from dataclasses import asdict, astuple
from typing import Any

import chess
import pytest
from hypothesis import given

from tests.lines.mailbox import Mailbox, names
from tests.lines.second_opinion import cozy_checkers, cozy_pinned, played_boards
from tests.trees import after
from trainer.lines.facts import PositionFacts, SideFacts, position_facts


def facts_of(where: str) -> PositionFacts:
    """The facts of a FEN, or after moves."""
    return position_facts(chess.Board(where) if "/" in where else after(where))


def test_an_exchange_on_c6_in_full() -> None:
    # Worked by hand from design.md, section 10.
    found = facts_of("1. e4 c5 2. Nf3 Nc6 3. Bb5 g6 4. Bxc6 bxc6")
    alike: dict[str, Any] = {
        "material": 36,
        "castling": "O-O, O-O-O",
        "passed": (),
        "open_files": (),
        "pinned": (),
        "hanging": (),
        "checks": (),
    }
    assert asdict(found.white) == alike | {
        "bishop_pair": False,
        "developed": 1,
        "space": 4,
        "doubled": (),
        "isolated": (),
        "half_open_files": (),
        "centre": {"d4": 1, "e4": 0, "d5": 1, "e5": 1},
    }
    assert asdict(found.black) == alike | {
        "bishop_pair": True,
        "developed": 0,
        "space": 2,
        "doubled": ("c5", "c6"),
        "isolated": ("a7",),
        "half_open_files": ("b",),
        "centre": {"d4": 1, "e4": 0, "d5": 1, "e5": 0},
    }


ONE_PASSED = "8/5k2/8/3P4/8/2p3p1/6P1/4K3 w - - 0 1"
PINNED_BOTH = "4k3/4n3/8/8/4R2b/8/5P2/4K3 w - - 0 1"

# Worked by hand: name, position, and by fact what White and Black have.
BY_HAND: list[tuple[str, str, dict[str, tuple[object, object]]]] = [
    ("a pawn ahead on a neighbouring file", ONE_PASSED, {"passed": (("d5",), ("c3",))}),
    (
        "a pawn beside or behind stops nobody",
        "4k3/8/8/4P3/pP1p4/8/8/4K3 w - - 0 1",
        {"passed": (("b4", "e5"), ("a4", "d4"))},
    ),
    (
        "an own pawn ahead stops nobody either",
        "4k3/8/8/8/1P6/8/1P6/4K3 w - - 0 1",
        {"passed": (("b2", "b4"), ()), "doubled": (("b2", "b4"), ())},
    ),
    (
        "pawns at the edge have one neighbour",
        "4k3/p6p/8/8/8/8/P5PP/4K3 w - - 0 1",
        {"isolated": (("a2",), ("a7", "h7")), "passed": ((), ())},
    ),
    (
        "three on a file are all doubled, and alone",
        "4k3/8/8/4P3/4P3/4P3/8/4K3 w - - 0 1",
        {"doubled": (("e3", "e4", "e5"), ()), "isolated": (("e3", "e4", "e5"), ())},
    ),
    (
        "open and half-open files",
        "4k3/pp6/8/8/8/8/P1P5/4K3 w - - 0 1",
        {"open_files": (tuple("defgh"),) * 2, "half_open_files": (("b",), ("c",))},
    ),
    ("pinned on a diagonal", "1. e4 e6 2. d4 d5 3. Nc3 Bb4", {"pinned": (("c3",), ())}),
    (
        "before the queen is not pinned",
        "1. e4 e6 2. d4 d5 3. Nc3 Nf6 4. Bg5",
        {"pinned": ((), ())},
    ),
    ("pinned on both sides", PINNED_BOTH, {"pinned": (("f2",), ("e7",))}),
    (
        "two between king and rook are not pinned",
        "4k3/4n3/4p3/8/4R3/8/8/4K3 w - - 0 1",
        {"pinned": ((), ())},
    ),
    (
        "an own bishop in the way of an enemy one pins nothing",
        "4k3/8/8/8/7b/6P1/5P2/4K3 w - - 0 1",
        {"pinned": ((), ())},
    ),
    ("a pawn hangs too", "1. e4 e5 2. Nf3", {"hanging": ((), ("e5",))}),
    ("defended is not hanging", "1. e4 e5 2. Nf3 Nc6", {"hanging": ((), ())}),
    (
        "both hang, the king attacks as others do",
        "8/8/8/2k5/3N4/8/b7/1K6 w - - 0 1",
        {"hanging": (("d4",), ("a2",))},
    ),
    (
        "a king and a pinned piece defend",
        "4k3/8/8/8/4r3/8/3bN3/4K3 w - - 0 1",
        {"pinned": (("e2",), ()), "hanging": ((), ("d2",))},
    ),
    ("en passant is no attack", "1. e4 a6 2. e5 d5", {"hanging": ((), ())}),
    ("the king never hangs", "4k3/8/8/8/8/8/8/r3K3 w - - 0 1", {"hanging": ((), ())}),
    (
        "check",
        "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7",
        {"checks": ((), ("f7",)), "hanging": (("e4",), ())},
    ),
    (
        "double check",
        "4k3/8/3N4/8/8/8/8/K3R3 b - - 0 1",
        {"checks": ((), ("d6", "e1"))},
    ),
    ("check to White", "1. f4 e5 2. g4 Qh4", {"checks": (("h4",), ())}),
    ("the start", "", {"castling": ("O-O, O-O-O",) * 2, "material": (39, 39)}),
    (
        "a rook that has moved",
        "1. e4 e5 2. Nf3 Nc6 3. Rg1 Rb8",
        {"castling": ("O-O-O", "O-O")},
    ),
    (
        "who has castled may not again",
        "1. e4 e5 2. Nf3 Nc6 3. Bc4 Ke7 4. O-O",
        {"castling": ("", "")},
    ),
    (
        "rights for which no rook stands are none",
        "4k2r/8/8/8/8/8/8/R3K3 w KQkq - 0 1",
        {"castling": ("O-O-O", "O-O")},
    ),
    (
        "a check does not end the right to castle",
        "1. e4 e5 2. Nc3 Bb4 3. d3 Qh4 4. g3 Bxc3",
        {"castling": ("O-O, O-O-O",) * 2, "checks": (("c3",), ())},
    ),
    (
        "the other side's starting squares are no home",
        "4k1N1/8/8/8/8/8/8/2n1K1N1 w - - 0 1",
        {"developed": (1, 1)},
    ),
    (
        "nor are those of another kind of piece",
        "4k3/8/8/8/8/8/8/1BN1K3 w - - 0 1",
        {"developed": (2, 0)},
    ),
    (
        "a knight back at home counts no more",
        "1. Nf3 Nc6 2. Ng1 e6 3. e4 Bc5",
        {"developed": (0, 2)},
    ),
    (
        "two bishops of one colour are no pair",
        "4kb2/8/8/8/8/8/8/B1B1K3 w - - 0 1",
        {"bishop_pair": (False, False), "material": (6, 3)},
    ),
    (
        "three bishops can be one",
        "2b1kb2/8/8/8/8/8/8/BBB1K3 w - - 0 1",
        {"bishop_pair": (True, True), "material": (9, 6)},
    ),
    ("a queen and a rook", "r3k3/8/8/8/8/8/8/Q3K3 w - - 0 1", {"material": (9, 5)}),
]


@pytest.mark.parametrize(
    ("where", "wanted"), [case[1:] for case in BY_HAND], ids=[case[0] for case in BY_HAND]
)
def test_a_fact_worked_by_hand(where: str, wanted: dict[str, tuple[object, object]]) -> None:
    found = facts_of(where)
    told = {fact: (getattr(found.white, fact), getattr(found.black, fact)) for fact in wanted}
    assert told == wanted


def test_a_position_without_kings_has_facts_too() -> None:
    assert position_facts(chess.Board.empty()).white.checks == ()


@given(played_boards())
def test_the_mover_is_pinned_and_checked_as_another_library_says(board: chess.Board) -> None:
    # Agrees with cozy-chess-py 0.1.1 (Rust), run live.
    mover = side_facts(board, board.turn)
    assert set(mover.pinned) == cozy_pinned(board)
    assert set(mover.checks) == cozy_checkers(board)


@given(played_boards())
def test_so_is_the_other_side(board: chess.Board) -> None:
    # Agrees with cozy-chess-py 0.1.1 (Rust), run live, the move passed where that is possible.
    other = side_facts(board, not board.turn)
    assert other.checks == ()
    if not board.is_check():
        passed = board.copy(stack=False)
        passed.push(chess.Move.null())
        assert set(other.pinned) == cozy_pinned(passed)


@given(played_boards())
def test_a_mailbox_board_counts_alike(board: chess.Board) -> None:
    # The same definitions on a board written without any chess library.
    mailbox = Mailbox(board.fen())
    for white in (True, False):
        side, hits, enemy = side_facts(board, white), mailbox.hits(white), mailbox.hits(not white)
        assert side.space == sum(1 for _, rank in hits if (rank > 3) == white)
        assert astuple(side.centre) == tuple(hits[s] for s in ((3, 3), (4, 3), (3, 4), (4, 4)))
        assert side.hanging == names(
            s for s in mailbox.men(white) if enemy[s] and not hits[s] and mailbox.at[s] not in "Kk"
        )
        kings = [square for square in mailbox.men(white) if mailbox.at[square] in "Kk"]
        assert len(side.checks) == enemy[kings[0]]


@given(played_boards())
def test_a_mailbox_board_sees_the_same_pawns_and_files(board: chess.Board) -> None:
    mailbox = Mailbox(board.fen())
    for white in (True, False):
        side, own, enemy = side_facts(board, white), mailbox.pawns(white), mailbox.pawns(not white)
        files, enemy_files = [f for f, _ in own], [f for f, _ in enemy]
        assert side.doubled == names(p for p in own if files.count(p[0]) > 1)
        assert side.isolated == names(
            (f, r) for f, r in own if f - 1 not in files and f + 1 not in files
        )
        assert side.passed == names(
            (f, r)
            for f, r in own
            if not any(abs(f - ef) < 2 and (er > r if white else er < r) for ef, er in enemy)
        )
        letters = list(enumerate("abcdefgh"))
        assert side.open_files == tuple(c for f, c in letters if f not in files + enemy_files)
        assert side.half_open_files == tuple(
            c for f, c in letters if f not in files and f in enemy_files
        )


@given(played_boards())
def test_turning_the_board_round_changes_the_sides(board: chess.Board) -> None:
    facts, turned = position_facts(board), position_facts(board.mirror())
    assert turned == PositionFacts(_turned(facts.black), _turned(facts.white))


def side_facts(board: chess.Board, colour: chess.Color) -> SideFacts:
    """The facts of one side."""
    facts = position_facts(board)
    return facts.white if colour == chess.WHITE else facts.black


def _turned(side: SideFacts) -> SideFacts:
    """The facts as they are on the board seen in a mirror: every rank counted from the top."""

    def turned(value: object) -> object:
        if isinstance(value, tuple) and all(len(name) == 2 for name in value):
            return tuple(sorted(f"{name[0]}{9 - int(name[1])}" for name in value))
        return value

    centre = type(side.centre)(side.centre.d5, side.centre.e5, side.centre.d4, side.centre.e4)
    values: dict[str, Any] = {
        name: turned(getattr(side, name)) for name in SideFacts.__dataclass_fields__
    }
    return SideFacts(**values | {"centre": centre})
