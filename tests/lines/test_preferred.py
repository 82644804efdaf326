"""One of several right moves kept: the others set aside, with all that only they lead to."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.lines.test_graph_any import FORESTS, SIDES
from tests.trees import asked, built, graph, key, standings
from trainer.lines.graph import LineGraph, Standing, graph_from_data, graph_to_data
from trainer.lines.graph_builder import build_graph
from trainer.lines.preferred import asleep, right_moves, with_preferences
from trainer.lines.tree import GameTree, MoveNode

QUIET = (
    "1. e4 e5 2. Nf3 (2. Bc4 {To f7.} Nf6 3. d3) (2. Qh5? Nc6) (2. c3 {Slow. [%aside]}) Nc6 3. Bc4"
)


def test_the_kept_move_is_asked_and_the_others_are_set_aside() -> None:
    book = with_preferences(graph("white", QUIET), {key("1. e4 e5"): "f1c4"})
    assert standings(book, "1. e4 e5") == ["Bc4 deck", "Nf3 aside", "Qh5 mistake", "c3 aside"]
    assert asked(book) == ["e4", "Bc4", "d3"]
    assert book.get(key("1. e4 e5 2. Nf3")) is None
    aside = book.positions[key("1. e4 e5")].move("g1f3")
    assert aside is not None and (aside.after, aside.note) == ("", "You keep Bc4 here.")


def test_a_move_set_aside_keeps_what_the_deck_says_of_it() -> None:
    book = with_preferences(graph("white", QUIET), {key("1. e4 e5"): "g1f3"})
    assert standings(book, "1. e4 e5") == ["Nf3 deck", "Bc4 aside", "Qh5 mistake", "c3 aside"]
    aside = book.positions[key("1. e4 e5")].move("f1c4")
    assert aside is not None and aside.note == "You keep Nf3 here.\nTo f7."


@pytest.mark.parametrize(
    ("line", "uci"),
    [
        ("1. e4 e5", "b1c3"),
        ("1. e4 e5", "d1h5"),
        ("1. e4 e5", "c2c3"),
        ("1. e4", "e7e5"),
        ("1. e4 e5 2. Nf3 Nc6", "f1c4"),
        ("1. e4 c6", "b1c3"),
    ],
    ids=["unknown", "mistake", "aside", "their turn", "the only one", "not in the deck"],
)
def test_what_cannot_be_kept_changes_nothing(line: str, uci: str) -> None:
    book = graph("white", QUIET)
    assert with_preferences(book, {key(line): uci}) is book
    assert bool(asleep(book, {key(line): uci})) == (line != "1. e4 e5 2. Nf3 Nc6")


def test_a_line_through_a_move_set_aside_is_led_another_way() -> None:
    # Both ways meet after 2... Nc6 3. Bc4 Nf6; the first is written first.
    pgn = "1. e4 e5 2. Nf3 (2. Bc4 Nc6 3. Nf3 Nf6 4. d3) Nc6 3. Bc4 Nf6 4. d3"
    met = key("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6")
    book = graph("white", pgn)
    assert book.positions[met].places[0].line == "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6"
    other = with_preferences(book, {key("1. e4 e5"): "f1c4"})
    assert other.positions[met].places[0].line == "1. e4 e5 2. Bc4 Nc6 3. Nf3 Nf6"
    assert other.get(key("1. e4 e5 2. Nf3 Nc6")) is None


def test_a_chapter_that_no_longer_leads_there_has_no_place_there() -> None:
    first = built("white", "1. e4 e5 2. Nf3 Nc6 3. Bc4").graph
    assert len(first.cards) == 3
    trees = [
        ("one", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. d3"),
        ("two", "1. e4 e5 2. Bc4 Nc6 3. Nf3 Nf6 4. d3"),
    ]
    book = _of_chapters(trees)
    met = key("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6")
    assert [place.chapter for place in book.positions[met].places] == ["one", "two"]
    kept = with_preferences(book, {key("1. e4 e5"): "f1c4"})
    assert [(p.chapter, p.line) for p in kept.positions[met].places] == [
        ("two", "1. e4 e5 2. Bc4 Nc6 3. Nf3 Nf6")
    ]


def test_lines_of_two_chapters_together_still_lead_there() -> None:
    # Chapter two leaves by the move set aside and comes back into chapter one's line; what
    # follows there is chapter two's alone.
    book = _of_chapters(
        [
            ("one", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6"),
            ("two", "1. e4 e5 2. Bc4 Nc6 3. Nf3 Nf6 4. d3 Bc5 5. c3"),
        ]
    )
    last = key("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. d3 Bc5")
    kept = with_preferences(book, {key("1. e4 e5"): "g1f3"})
    assert [(p.chapter, p.line) for p in kept.positions[last].places] == [
        ("two", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. d3 Bc5")
    ]


def test_games_that_start_behind_a_move_set_aside_stay() -> None:
    fen = "rnbqkbnr/pppp1ppp/8/4p3/2B1P3/8/PPPP1PPP/RNBQK1NR b KQkq - 1 2"
    book = graph("white", "1. e4 e5 2. Nf3 (2. Bc4) Nc6", f"[{fen}] 2... Nf6 3. d3")
    kept = with_preferences(book, {key("1. e4 e5"): "g1f3"})
    place = kept.positions[fen.rsplit(" ", 2)[0]].places[0]
    assert (place.start, place.line) == (f"{fen.rsplit(' ', 2)[0]} 0 1", "")
    card = kept.positions[key("1. e4 e5 2. Bc4 Nf6")]
    assert (card.places[0].line, card.places[0].start) == ("2... Nf6", fen)


def _of_chapters(texts: list[tuple[str, str]]) -> LineGraph:
    from tests.trees import games

    trees = games(*(text for _, text in texts))
    return build_graph("white", [(c, t) for (c, _), t in zip(texts, trees, strict=True)]).graph


CHOICES = st.lists(st.integers(0, 10_000), min_size=1, max_size=4)


def _chosen(book: LineGraph, choices: list[int]) -> dict[str, str]:
    """One of the right moves in some positions that have several."""
    forks = [p for p in book.positions.values() if len(right_moves(p)) > 1]
    return {
        forks[choice % len(forks)].key: right_moves(forks[choice % len(forks)])[choice % 2].uci
        for choice in choices
        if forks
    }


def _book(side: str, trees: list[GameTree]) -> LineGraph:
    # Two chapters in turn, so that lines of several lead to one position.
    return build_graph(side, [(f"c{n % 2}", tree) for n, tree in enumerate(trees)]).graph


@given(SIDES, FORESTS, CHOICES)
def test_what_holds_whatever_is_kept(side: str, trees: list[GameTree], choices: list[int]) -> None:
    before = _book(side, trees)
    chosen = _chosen(before, choices)
    book = with_preferences(before, chosen)
    assert asleep(before, chosen) == ()
    assert (book.roots, book.lines) == (before.roots, before.lines)
    assert book.positions.keys() == _reached(book)
    assert graph_from_data(graph_to_data(book)) == book
    assert with_preferences(book, chosen) == book
    for where, position in book.positions.items():
        old = before.positions[where]
        assert {move.uci for move in position.moves} == {move.uci for move in old.moves}
        if where in chosen:
            assert [move.uci for move in right_moves(position)] == [chosen[where]]
            assert position.moves[0].uci == chosen[where]
        else:
            assert position.moves == old.moves
    assert {card.key for card in book.cards} <= {card.key for card in before.cards}


@given(SIDES, FORESTS, CHOICES)
def test_places_lead_to_their_positions_through_what_is_left(
    side: str, trees: list[GameTree], choices: list[int]
) -> None:
    before = _book(side, trees)
    book = with_preferences(before, _chosen(before, choices))
    for position in book.positions.values():
        assert position.places
        for place in position.places:
            board = chess.Board(place.start)
            for word in place.line.split():
                if not word.endswith("."):
                    move = board.parse_san(word)
                    said = book.positions[board.epd()].move(move.uci())
                    assert said is not None and said.after
                    board.push(move)
                else:
                    dots = "." if board.turn else "..."
                    assert word == f"{board.fullmove_number}{dots}"
            assert board.epd() == position.key


@given(SIDES, FORESTS, CHOICES)
def test_nothing_is_lost_that_the_trees_without_those_branches_have(
    side: str, trees: list[GameTree], choices: list[int]
) -> None:
    # Agrees with the graph of the trees from which the branches were cut by hand.
    before = _book(side, trees)
    chosen = _chosen(before, choices)
    kept = with_preferences(before, chosen)
    for tree in trees:
        _cut(tree, before, chosen)
    cut = _book(side, trees)
    assert cut.positions.keys() <= kept.positions.keys()
    for where, position in cut.positions.items():
        there = {place.chapter for place in kept.positions[where].places}
        assert {place.chapter for place in position.places} <= there


def _cut(node: GameTree | MoveNode, book: LineGraph, chosen: dict[str, str]) -> None:
    here = (node.after if isinstance(node, MoveNode) else node.start).key
    position = book.positions.get(here)
    right = {move.uci for move in right_moves(position)}
    if here in chosen:
        node.children = [
            child
            for child in node.children
            if child.move.uci() == chosen[here] or child.move.uci() not in right
        ]
    for child in node.children:
        _cut(child, book, chosen)


def _reached(book: LineGraph) -> set[str]:
    reached: set[str] = set()
    waiting = list(book.roots)
    while waiting:
        here = waiting.pop()
        if here not in reached:
            reached.add(here)
            waiting += [move.after for move in book.positions[here].book_moves]
    return reached


def test_standing_of_a_kept_alternative() -> None:
    book = with_preferences(graph("white", QUIET), {key("1. e4 e5"): "f1c4"})
    move = book.positions[key("1. e4 e5")].deck_move
    assert move is not None and (move.standing, move.note) == (Standing.DECK, "To f7.")
