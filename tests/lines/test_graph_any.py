"""Any graph: it survives storage, its places lead to it, and size does not hurt."""

from __future__ import annotations

import json
import random
import time
from collections import Counter

import chess
from hypothesis import given
from hypothesis import strategies as st

from tests.trees import game, graph, grown, key
from trainer.lines.graph import Standing, graph_from_data, graph_to_data
from trainer.lines.graph_builder import MOST_PLIES, build_graph
from trainer.lines.position import PositionPool
from trainer.lines.tree import NO_COMMENT, Comment, GameTree, MoveNode

# --- Storage


COMMENTS = st.builds(
    Comment,
    text=st.sampled_from(["", "why", "why not", "“quoted” – 中文\nsecond"]),
    squares=st.sampled_from([(), ("Gd5",), ("Rd4", "Ye5")]),
    arrows=st.sampled_from([(), ("Gf1c4",)]),
    themes=st.sampled_from([(), ("centre", "tempo")]),
    aside=st.booleans(),
    share=st.sampled_from([None, 0.0, 0.25, 1.0]),
)
MOVES = st.tuples(
    st.integers(0, 400),
    st.integers(0, 60),
    st.one_of(st.just(NO_COMMENT), COMMENTS),
    st.sampled_from([None, None, None, 1, 2, 6, 14]),
)
# Few moves to choose from, so that positions meet again and again.
FENS = ["4k3/8/8/8/8/8/4p3/K7 w - - 0 1", "4k3/8/8/8/8/8/4p3/K7 b - - 0 7", chess.STARTING_FEN]
FORESTS = st.lists(st.lists(MOVES, max_size=25), max_size=3).map(lambda some: grown(some, FENS))
SIDES = st.sampled_from(["white", "black"])


def test_a_share_of_nothing_is_kept() -> None:
    book = graph("white", "1. e4 e5 {[%share 0]}")
    assert graph_from_data(graph_to_data(book)) == book


@given(SIDES, FORESTS)
def test_data_round_trip_through_json(side: str, trees: list[GameTree]) -> None:
    book = build_graph(side, [("lines", tree) for tree in trees]).graph
    text = json.dumps(graph_to_data(book), allow_nan=False)
    assert graph_from_data(json.loads(text)) == book


@given(SIDES, FORESTS)
def test_what_holds_in_any_graph(side: str, trees: list[GameTree]) -> None:
    result = build_graph(side, [("lines", tree) for tree in trees])
    book, student = result.graph, side == "white"
    assert len({card.key for card in book.cards}) == len(book.cards)
    for position in book.positions.values():
        board = chess.Board(f"{position.key} 0 1")
        assert board.epd() == position.key
        standing = Counter(move.standing for move in position.moves)
        assert standing[Standing.DECK] <= 1
        assert (standing[Standing.ACCEPTED] == 0) or position.deck_move is not None
        assert (standing[Standing.REPLY] == len(position.moves)) or board.turn == student
        for move in position.moves:
            assert board.parse_san(move.san).uci() == move.uci
        for move in position.book_moves:
            assert move.after in book.positions
    if not result.contradictions:
        assert {card.key for card in book.cards} == {
            key for key, position in book.positions.items() if position.deck_move
        }


@given(SIDES, FORESTS)
def test_places_lead_to_their_positions(side: str, trees: list[GameTree]) -> None:
    book = build_graph(side, [("lines", tree) for tree in trees]).graph
    for position in book.positions.values():
        for place in position.places:
            board = chess.Board(place.start)
            for word in place.line.split():
                if word.endswith("."):
                    dots = "." if board.turn else "..."
                    assert word == f"{board.fullmove_number}{dots}"
                else:
                    board.push_san(word)
            assert board.epd() == position.key


# --- Size


def test_as_many_plies_as_a_line_may_have_with_a_variation_at_each() -> None:
    built = build_graph("white", [("deep", _deep(MOST_PLIES))])
    book = built.graph
    assert built.contradictions == ()
    assert book.lines == MOST_PLIES
    assert len(book.cards) > MOST_PLIES / 6
    assert graph_from_data(graph_to_data(book)) == book


def test_a_longer_line_is_a_fault_and_costs_no_more() -> None:
    built = build_graph("white", [("deep", _deep(3000))])
    assert [found.code for found in built.contradictions] == ["line-too-long"]
    assert "more than 200 moves of each side; end it " in built.contradictions[0].message
    lines = [place.line for at in built.graph.positions.values() for place in at.places]
    assert max(map(len, lines)) < 10 * MOST_PLIES


def test_three_thousand_plies_of_explanation() -> None:
    tree = game("1. e4 (1. g4? e5) 1... e5")
    tree.children[1].children = _deep(3000).children
    explanation = build_graph("white", [("deep", tree)]).graph.positions[key("")].moves[1]
    assert explanation.explanation.count("(") == 2999
    assert explanation.explanation.endswith(")" * 2999)


def _deep(plies: int) -> GameTree:
    """Two rooks on a walk, each move a variation inside the one before."""
    chance = random.Random(7)
    pool = PositionPool()
    board = chess.Board("4k2r/8/8/8/8/8/8/R3K3 w - - 0 1")
    tree = GameTree(1, 1, {}, pool.at(board), board.fen())
    node: GameTree | MoveNode = tree
    for ply in range(plies):
        position = node.after if isinstance(node, MoveNode) else node.start
        calm = [
            move
            for move in position.board.legal_moves
            if not position.board.is_capture(move) and not position.board.gives_check(move)
        ]
        node.children = [
            MoveNode(move, position.board.san(move), pool.after(position, move), 1, 1)
            for move in chance.sample(calm, 1 if ply == plies - 1 else 2)
        ]
        node = node.children[-1]
    return tree


def test_two_thousand_games_are_quick() -> None:
    # The size of the encyclopaedia of openings: about 2,000 lines, 20,000 plies.
    chance = random.Random(11)
    growths = [
        [(ply, chance.randrange(3), NO_COMMENT, None) for ply in range(10)] for _ in range(2000)
    ]
    trees = grown(growths)
    began = time.perf_counter()
    book = build_graph("white", [("eco", tree) for tree in trees]).graph
    assert len(book.cards) > 1000
    assert time.perf_counter() - began < 2
