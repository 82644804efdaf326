"""The graph of lines: what is joined, what each move is, in what order cards travel."""

from __future__ import annotations

import chess
import pytest

from tests.trees import after, asked, games, graph, key, standings
from trainer.lines.graph import (
    Place,
    Standing,
    card_key,
    graph_from_data,
    graph_to_data,
    split_card_key,
)
from trainer.lines.graph_builder import build_graph

# --- What is joined


def test_transpositions_are_one_position() -> None:
    book = graph(
        "white",
        "1. e4 c5 2. Nf3 e6 3. d3",
        "1. e4 e6 2. Nf3 c5 3. d3 Nc6 4. g3",
    )
    assert asked(book) == ["e4", "Nf3", "d3", "g3", "Nf3"]
    assert book.transpositions == 1
    assert len(book.positions[key("e4 c5 Nf3 e6")].places) == 1
    assert book.lines == 2


@pytest.mark.parametrize(
    ("line", "other", "ends"),
    [
        ("1. e4 c5 2. Nf3 e6", "1. e4 e6 2. Nf3 c5", 1),
        ("1. e4 e5 2. Nf3 Nc6", "1. Nf3 Nc6 2. e4 e5", 1),
        ("1. e3 e5 2. e4", "1. e4 e5", 2),
        ("1. e4 d5 2. e5 f5", "1. e4 f5 2. e5 d5", 2),
        (
            "1. Nf3 Nc6 2. Rg1 Rb8 3. Rh1 Ra8 4. e4 e5",
            "1. Nf3 Nc6 2. Nc3 Nf6 3. Nb1 Ng8 4. e4 e5",
            2,
        ),
    ],
    ids=["idle e.p. square", "order", "mover", "en passant", "castling"],
)
def test_the_same_position_is_fides(line: str, other: str, ends: int) -> None:
    # Source: FIDE Laws of Chess (2023), article 9.2.
    book = graph("white", line, other)
    assert sum(1 for position in book.positions.values() if not position.moves) == ends


def test_notes_marks_and_themes_are_merged_in_deck_order_equal_texts_once() -> None:
    book = graph(
        "white",
        "1. e4 {Takes the centre. [%csl Gd5] [%theme centre]} e5",
        "1. e4 {Frees the bishop. [%cal Gf1c4] [%csl Gd5]} c5",
        "1. e4 {Takes the centre. [%theme centre, tempo]} e6",
    )
    e4 = book.positions[key("")].moves[0]
    assert e4.note == "Takes the centre.\nFrees the bishop."
    assert e4.squares == ("Gd5",)
    assert e4.arrows == ("Gf1c4",)
    assert e4.themes == ("centre", "tempo")


def test_notes_are_joined_over_move_orders() -> None:
    book = graph(
        "white",
        "1. e4 c5 2. Nf3 e6 3. c3 {From the Sicilian.}",
        "1. e4 e6 2. Nf3 c5 3. c3 {From the French.}",
    )
    assert book.positions[key("e4 c5 Nf3 e6")].moves[0].note == (
        "From the Sicilian.\nFrom the French."
    )


def test_the_first_share_holds() -> None:
    book = graph("white", "1. e4 e5 {[%share 60]}", "1. e4 e5 {[%share 20]} (1... c5 {[%share 0]})")
    replies = book.positions[key("e4")].moves
    assert [move.share for move in replies] == [0.6, 0.0]


def test_one_place_a_chapter_in_deck_order() -> None:
    first, second, third = games(
        "1. e4 e6 2. Nf3 c5 3. c3", "1. e4 c5 2. Nf3 e6 3. c3", "1. Nf3 c5 2. e4 e6 3. c3"
    )
    book = build_graph("white", [("a", first), ("b", second), ("b", third)]).graph
    assert book.positions[key("e4 c5 Nf3 e6")].places == (
        Place("a", 1, "1. e4 e6 2. Nf3 c5", chess.STARTING_FEN),
        Place("b", 2, "1. e4 c5 2. Nf3 e6", chess.STARTING_FEN),
    )


# --- What each move is


def test_first_is_the_decks_move_others_are_accepted_mistakes_or_asides() -> None:
    book = graph(
        "white",
        """1. e4 e5 2. Nf3 (2. Nc3!? Nf6) (2. f4 Nc6) (2. Qh5?! {Too early.} Nc6 3. Qf3)
           (2. Ke2??) (2. Bc4 {Sound. [%aside]} Nf6 3. d3) 2... Nc6""",
    )
    assert standings(book, "e4 e5") == [
        "Nf3 deck",
        "Nc3 accepted",
        "f4 accepted",
        "Qh5 mistake",
        "Ke2 mistake",
        "Bc4 aside",
    ]
    position = book.positions[key("e4 e5")]
    assert [move.san for move in position.book_moves] == ["Nf3", "Nc3", "f4"]
    assert [move.after for move in position.moves] == [
        key("e4 e5 Nf3"),
        key("e4 e5 Nc3"),
        key("e4 e5 f4"),
        "",
        "",
        "",
    ]
    assert position.move("f1c4") is position.moves[5]
    assert position.move("h2h4") is None
    assert position.moves[3].note == "Too early."


@pytest.mark.parametrize(
    ("nag", "standing"),
    [
        ("$1", "accepted"),
        ("$3", "accepted"),
        ("$5", "accepted"),
        ("$2", "mistake"),
        ("$4", "mistake"),
        ("$6", "mistake"),
        ("$10", "accepted"),
        ("$146", "accepted"),
        ("$14 $2", "mistake"),
        ("$1 $6", "mistake"),
    ],
)
def test_nags(nag: str, standing: str) -> None:
    # Source: PGN standard (Edwards, 1994), 10: 1 to 6 are ! ? !! ?? !? ?!, the rest assess.
    book = graph("white", f"1. e4 e5 2. Nf3 (2. Nc3 {nag}) 2... Nc6")
    assert standings(book, "e4 e5") == ["Nf3 deck", f"Nc3 {standing}"]


def test_alternatives_are_trained_and_explanations_are_not() -> None:
    book = graph(
        "white",
        """1. e4 e5 2. Nf3 (2. Nc3 Nf6 3. g3) (2. Qh5? Nc6 3. Qf3 Nf6 4. Qe2)
           (2. Bc4 {[%aside]} Nf6 3. d3 Bc5 4. Nf3) 2... Nc6 3. Bb5""",
    )
    assert asked(book) == ["e4", "Nf3", "Bb5", "g3"]
    assert key("e4 e5 Qh5") not in book.positions
    assert key("e4 e5 Bc4 Nf6") not in book.positions


def test_the_opponents_moves_are_all_trained_and_their_errors_marked() -> None:
    book = graph("black", "1. e4 c5 2. Nf3 (2. Nc3 Nc6) (2. b4?! cxb4) (2. Qh5?? Nf6) 2... d6")
    assert [(move.san, move.error) for move in book.positions[key("e4 c5")].moves] == [
        ("Nf3", False),
        ("Nc3", False),
        ("b4", True),
        ("Qh5", True),
    ]
    assert asked(book) == ["c5", "d6", "Nc6", "cxb4", "Nf6"]
    assert {move.standing for move in book.positions[key("e4 c5")].moves} == {Standing.REPLY}


def test_an_error_marked_once_is_an_error() -> None:
    book = graph("white", "1. e4 e5? 2. Nf3", "1. e4 e5 2. Nf3")
    assert book.positions[key("e4")].moves[0].error


def test_an_aside_of_the_opponent_is_trained() -> None:
    book = graph("white", "1. e4 e5 (1... c5 {[%aside]} 2. Nf3) 2. Nc3")
    assert asked(book) == ["e4", "Nc3", "Nf3"]


def test_a_line_may_end_at_either_side_and_a_position_without_a_move_is_no_card() -> None:
    book = graph("white", "1. e4 e5 2. Nf3 Nc6", "1. e4 c5 2. Nf3")
    assert asked(book) == ["e4", "Nf3", "Nf3"]
    assert book.positions[key("e4 e5 Nf3 Nc6")].deck_move is None
    assert book.positions[key("e4")].deck_move is None
    assert book.lines == 2


def test_lines_are_counted_as_written() -> None:
    book = graph(
        "white",
        "1. e4 e5 2. Nf3 (2. Nc3) (2. f4 exf4 (2... d5)) (2. Ke2? Ke7) 2... Nc6",
        "1. e4 e5 2. Nf3",
        "",
        "1. e4 c5 2. Ke2? ",
    )
    # Worked by hand: Nc6, Nc3, exf4, d5; Nf3; none; c5.
    assert book.lines == 6


# --- Sides and starts


@pytest.mark.parametrize(
    ("side", "moves"), [("white", ["e4", "Nf3", "Bb5"]), ("black", ["e5", "Nc6"])]
)
def test_both_sides(side: str, moves: list[str]) -> None:
    assert asked(graph(side, "1. e4 e5 2. Nf3 Nc6 3. Bb5")) == moves


def test_a_start_with_black_to_move() -> None:
    fen = after("e4 e5 Nf3 Nc6 Bc4").fen(en_passant="legal")
    text = f"[{fen}] 3... Nf6 4. d3 Bc5 (4... Be7 5. O-O O-O)"
    book = graph("black", text)
    assert asked(book) == ["Nf6", "Bc5", "O-O"]
    places = [card.places[0] for card in book.cards]
    assert [place.line for place in places] == ["", "3... Nf6 4. d3", "3... Nf6 4. d3 Be7 5. O-O"]
    assert {place.start for place in places} == {fen}
    assert book.roots == (key("e4 e5 Nf3 Nc6 Bc4"),)
    assert standings(book, "e4 e5 Nf3 Nc6 Bc4 Nf6 d3") == ["Bc5 deck", "Be7 accepted"]


def test_several_starts_in_deck_order() -> None:
    fen = after("e4 e5 Nf3").fen(en_passant="legal")
    book = graph("black", f"[{fen}] 2... Nc6 3. Bb5 a6", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5")
    assert book.roots == (key("e4 e5 Nf3"), key(""))
    assert asked(book) == ["Nc6", "a6", "Bc5", "e5"]
    assert book.positions[key("e4 e5 Nf3")].places[0].line == ""


# --- Order and reach


def test_travel_order() -> None:
    # Worked by hand: cards 0 -> 1, 2; 1 -> 3, 4; 2 -> 5; 3 -> 6 travel as 0 1 3 6 4 2 5.
    book = graph(
        "white",
        "1. e4 e5 (1... c5 2. Nc3 Nc6 3. g3) 2. Nf3 Nc6 (2... Nf6 3. Nxe5) 3. Bb5 a6 4. Ba4",
    )
    names = {"e4": 0, "Nf3": 1, "Nc3": 2, "Bb5": 3, "Nxe5": 4, "g3": 5, "Ba4": 6}
    assert [names[san] for san in asked(book)] == [0, 1, 3, 6, 4, 2, 5]


def test_a_card_travels_with_the_first_line_that_reaches_it() -> None:
    book = graph(
        "white",
        "1. e4 e6 2. Nc3 d5 3. Nf3",
        "1. e4 c5 2. Nf3 e6 3. c3 (3. b3 b6 4. Bb2)",
        "1. e4 e6 2. Nc3 c5 3. g3",
    )
    # The third game belongs to the branch of the first.
    assert asked(book) == ["e4", "Nc3", "Nf3", "g3", "Nf3", "c3", "Bb2"]


def test_cards_from_a_position_by_any_move_order() -> None:
    book = graph("white", "1. e4 c5 2. Nf3 e6 3. c3", "1. e4 e6 2. Nf3 c5 3. c3 a6 4. Be2")
    wanted = [card.deck_move.san for card in book.cards_from(key("e4 c5")) if card.deck_move]
    assert wanted == ["Nf3", "c3", "Be2"]
    assert book.cards_from(key("e4 e5")) == ()


def test_repetitions_end() -> None:
    book = graph(
        "white",
        "1. Nf3 Nf6 2. Ng1 Ng8 3. Nf3 Nf6 4. Ng1 Ng8 5. e4 e5",
        "1. Nf3 Nf6 2. Ng1 Ng8 3. Nc3 Nc6 4. Nb1 Nb8",
    )
    assert asked(book) == ["Nf3", "Ng1", "Nb1"]
    assert standings(book, "") == ["Nf3 deck", "e4 accepted", "Nc3 accepted"]
    assert book.positions[key("")].places[0].line == ""
    assert {card.key for card in book.cards_from(key("Nf3"))} == {card.key for card in book.cards}
    assert graph_from_data(graph_to_data(book)) == book


def test_card_keys() -> None:
    position = key("e4 e5 Nf3 Nc6")
    assert card_key(position, "f1b5") == f"{position} f1b5"
    assert split_card_key(f"{position} f1b5") == (position, "f1b5")


def test_no_games() -> None:
    book = graph("white")
    assert (book.cards, book.roots, book.lines, book.transpositions) == ((), (), 0, 0)
