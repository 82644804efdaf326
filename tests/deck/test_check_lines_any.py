"""Checks of lines against a slow and simple second way, on trees that hypothesis grows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.check_decks import written_of
from tests.trees import Growth, games, grown
from trainer.deck.check.played_lines import PlayedLine
from trainer.deck.check.spots import after_line
from trainer.deck.check.transpositions import answered_elsewhere
from trainer.deck.check.unanswered import unanswered_replies
from trainer.deck.check.written import Written
from trainer.lines.movetext import numbered
from trainer.lines.tree import NO_COMMENT, GameTree

# A king and pawn ending with castling, promotion and en passant near: many move orders meet.
CLOSE = "4k2r/3p2P1/8/2p5/1P6/8/3P4/R3K3 w Qk - 0 1"
GROWTHS = st.lists(
    st.lists(
        st.tuples(
            st.integers(0, 40),
            st.integers(0, 40),
            st.just(NO_COMMENT),
            st.sampled_from([None, None, None, 2]),
        ),
        max_size=40,
    ),
    min_size=1,
    max_size=3,
)


def by_hand(written: Written) -> set[str]:
    """What `answered_elsewhere` should say first, every legal move made and looked up."""
    answered = {card.key for card in written.graph.cards}
    found = set()
    for key, position in written.graph.positions.items():
        board = chess.Board(f"{key} 0 1")
        if board.turn == written.student:
            continue
        for move in board.legal_moves:
            ahead = board.copy()
            ahead.push(move)
            if ahead.epd() in answered and position.move(move.uci()) is None:
                # Its number is that of the line, not of the key.
                told = numbered(written.positions[key].board, board.san(move))
                found.add(f"{told} is not given {after_line(position.places[0].line)}, ")
    return found


@given(GROWTHS, st.sampled_from(["white", "black"]))
def test_replies_by_transposition_are_those_found_by_trying_all(
    growths: Sequence[Growth], side: str
) -> None:
    written = written_of(grown(growths, [CLOSE]), side)
    found = list(answered_elsewhere(written))
    assert {one.message.split("but leads")[0] for one in found} == by_hand(written)
    assert len(set(found)) == len(found)


@given(GROWTHS, st.sampled_from(["white", "black"]))
def test_every_position_and_move_of_a_graph_has_its_place(
    growths: Sequence[Growth], side: str
) -> None:
    written = written_of(grown(growths, [chess.STARTING_FEN, CLOSE]), side)
    assert set(written.positions) == set(written.arrivals) == set(written.graph.positions)
    moves = {(p.key, m.uci) for p in written.graph.positions.values() for m in p.moves}
    assert set(written.moves) == moves


@given(GROWTHS, st.sampled_from(["white", "black"]))
def test_replies_are_counted_as_a_slow_count_has_them(growths: Sequence[Growth], side: str) -> None:
    trees = grown(growths, [CLOSE])
    written = written_of(trees[:1], side)
    played = [line for tree in trees for line in main_lines(tree)] * 2
    followed = unanswered_replies([written], played)
    assert (followed.games, followed.unreadable) == (len(played), 0)
    assert Counter(one.message.split("; ")[0] for one in followed.findings) == Counter(
        slow_count(written, played)
    )


def main_lines(tree: GameTree) -> list[PlayedLine]:
    """The main line of a tree as a played game; none where it has no moves."""
    moves, children = [], tree.children
    while children:
        moves.append(children[0].san)
        children = children[0].children
    return [PlayedLine(fen=tree.start_fen, moves=moves)] if moves else []


def slow_count(written: Written, played: Sequence[PlayedLine]) -> Iterator[str]:
    """What the findings should say first."""
    seen: dict[str, Counter[str]] = {}
    for line in played:
        board = chess.Board(line.fen)
        first: dict[str, str] = {}
        for san in line.moves:
            first.setdefault(board.epd(), san)
            board.push_san(san)
        for key, san in first.items():
            seen.setdefault(key, Counter())[san] += 1
    answered = {card.key for card in written.graph.cards}
    for key, position in written.graph.positions.items():
        board = written.positions[key].board
        for san, count in seen.get(key, Counter()).items():
            ahead = board.copy()
            ahead.push_san(san)
            if board.turn != written.student and ahead.epd() not in answered:
                if not any(ahead.legal_moves):
                    continue
                games = seen[key].total()
                yield (
                    f"{numbered(board, san)} {after_line(position.places[0].line)} was seen in "
                    f"{count} of {games} games ({100 * count / games:.0f} %)"
                )


# Worked by hand: each reply leads, in one move, to where another game goes on.
@pytest.mark.parametrize(
    ("here", "there", "reply"),
    [
        (
            "[4k2r/8/8/8/8/8/8/R3K3 b k - 0 1] 1... Rf8 2. Ra2",
            "[5rk1/8/8/8/8/8/8/R3K3 w - - 1 2] 2. Ra3",
            "1... O-O",
        ),
        (
            "[4k3/8/8/8/1Pp5/8/8/4K3 b - b3 0 1] 1... Kd8 2. Kd1",
            "[4k3/8/8/8/8/1p6/8/4K3 w - - 0 2] 2. Ke2",
            "1... cxb3",
        ),
        (
            "[4k3/8/8/8/8/8/2p5/4K3 b - - 0 1] 1... Kd8 2. Kd2",
            "[4k3/8/8/8/8/8/8/2q1K3 w - - 0 2] 2. Kf2",
            "1... c1=Q+",
        ),
    ],
    ids=["castling", "en passant", "promotion"],
)
def test_moves_of_two_pieces_are_looked_up_too(here: str, there: str, reply: str) -> None:
    (found,) = answered_elsewhere(written_of(games(here, there)))
    assert found.message.startswith(f"{reply} is not given at the start, but leads to ")
