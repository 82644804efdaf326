"""What the trees say of mistakes, and what they contradict each other about."""

from __future__ import annotations

import pytest

from tests.trees import after, asked, built, games, graph, key, standings
from trainer.lines.graph import Standing
from trainer.lines.graph_builder import build_graph

# --- Explanations


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1. e4 e5 2. Nf3 (2. Qh5?) 2... Nc6", ""),
        ("1. e4 e5 2. Nf3 (2. Qh5? Nc6 3. Bc4 g6) 2... Nc6", "2... Nc6 3. Bc4 g6"),
        (
            "1. e4 e5 2. Nf3 (2. Qh5? {Early.} Nc6 {Guards e5.} 3. Bc4 {Mate\nlooms.} g6) 2... Nc6",
            "2... Nc6 – Guards e5. 3. Bc4 – Mate looms. 3... g6",
        ),
        (
            "1. e4 e5 2. Nf3 (2. Qh5? Nc6 (2... Nf6 3. Qxe5+ (3. d3 d5) 3... Be7) (2... g6?) "
            "3. Bc4 g6) 2... Nc6",
            "2... Nc6 (2... Nf6 3. Qxe5+ (3. d3 d5) 3... Be7) (2... g6) 3. Bc4 g6",
        ),
        (
            "1. e4 e5 2. Nf3 (2. Qh5? Nc6 3. Bc4 (3. Qf3 {Back ( early ) home.} Nf6) 3... g6) "
            "2... Nc6",
            "2... Nc6 3. Bc4 (3. Qf3 – Back ( early ) home. 3... Nf6) 3... g6",
        ),
        (
            "[4k3/8/8/8/8/8/4P3/4K3 w - - 0 31] 31. e4 (31. Kd1? Kd7 32. e4) 31... Kd7",
            "31... Kd7 32. e4",
        ),
    ],
    ids=["nothing follows", "moves", "comments", "variations", "brackets", "from a FEN"],
)
def test_explanations(text: str, expected: str) -> None:
    book = graph("white", text)
    (mistake,) = (
        move
        for position in book.positions.values()
        for move in position.moves
        if move.standing is Standing.MISTAKE
    )
    assert mistake.explanation == expected


def test_an_explanation_is_numbered_by_its_own_game() -> None:
    book = graph(
        "white",
        f"[{after('e4 e5').fen().replace('0 2', '0 12')}] 12. Nf3 (12. Qh5? Nc6 13. Qf3) 12... Nc6",
        "1. e4 e5 2. Nf3 Nc6 3. Bb5 (3. Bd3? d6 4. O-O) 3... a6",
    )
    assert book.positions[key("e4 e5")].moves[1].explanation == "12... Nc6 13. Qf3"
    assert book.positions[key("e4 e5 Nf3 Nc6")].moves[1].explanation == "3... d6 4. O-O"


def test_the_first_explanation_is_kept_and_only_for_what_is_not_book() -> None:
    book = graph(
        "white",
        "1. e4 e5 2. Nf3 (2. Qh5?) (2. Nc3 {[%aside]} Nf6) 2... Nc6",
        "1. e4 e5 2. Nf3 (2. Qh5? Nc6) (2. Nc3 Nc6) 2... Nc6",
        "1. e4 e5 2. Nf3 (2. Qh5? Nf6) 2... Nc6",
    )
    moves = book.positions[key("e4 e5")].moves
    assert [(move.san, move.explanation) for move in moves] == [
        ("Nf3", ""),
        ("Qh5", "2... Nc6"),
        ("Nc3", ""),
    ]
    assert moves[2].standing is Standing.ACCEPTED


# --- Contradictions


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (["1. e4 e5 2. Nf3 Nc6", "1. e4 c5 2. Nf3"], []),
        (["1. e4 e5 2. Nf3 (2. Nc3) 2... Nc6"], []),
        (["1. e4 e5 2. Nf3", "1. e4 e5 2. Nc3"], [("moves-disagree", 2, 1, 13)]),
        (
            ["1. e4 c5 2. Nf3 e6 3. c3", "1. e4 e6\n2. Nf3 c5\n3. Nc3"],
            [("moves-disagree", 2, 3, 4)],
        ),
        (["1. e4 e5 2. Nf3 (2. Nc3) 2... d6", "1. e4 e5 2. Nc3"], [("moves-disagree", 2, 1, 13)]),
        (
            ["1. e4 e5 2. Nf3", "1. e4 e5 2. Nc3 Nf6 3. f4", "1. e4 e5 2. Nc3 Nc6 3. Bc4"],
            [("moves-disagree", 2, 1, 13)],
        ),
        (["1. e4 e5 2. Nf3 (2. Qh5?) 2... d6", "1. e4 e5 2. Qh5?"], [("mistake-first", 2, 1, 13)]),
        (["1. e4? e5 2. Nf3"], [("mistake-first", 1, 1, 4)]),
        (["1. e4 {[%aside]} e5 2. Nf3"], [("mistake-first", 1, 1, 4)]),
        (
            ["1. e4 e5 2. Nf3 (2. Nc3?) 2... d6", "1. e4 e5 2. Nf3 (2. Nc3) 2... d6"],
            [("mistake-and-book", 2, 1, 21)],
        ),
        (
            ["1. e4 e5 2. Nf3 (2. Nc3) 2... d6", "1. e4 e5 2. Nf3 (2. Nc3??) 2... d6"],
            [("mistake-and-book", 2, 1, 21)],
        ),
        (
            ["1. e4 e5 2. Nf3 (2. Nc3?) 2... d6", *["1. e4 e5 2. Nf3 (2. Nc3) 2... d6"] * 3],
            [("mistake-and-book", 2, 1, 21)],
        ),
        (
            ["1. e4 c5 2. Nf3 e6 3. c3 (3. Nc3?) 3... a6", "1. e4 e6 2. Nf3 c5 3. Nc3 a6"],
            [("moves-disagree", 2, 1, 23), ("mistake-and-book", 2, 1, 23)],
        ),
        (["1. e4 e5? 2. Nf3", "1. e4 e5! 2. Nf3"], []),
    ],
    ids=[
        "none",
        "an alternative is none",
        "two games",
        "two move orders",
        "an alternative made first elsewhere",
        "two games against one are told once",
        "a refutation as its own game",
        "a mistake alone",
        "an aside first",
        "mistake, then book",
        "book, then mistake",
        "a clash is told once",
        "both",
        "opponents may err",
    ],
)
def test_contradictions(texts: list[str], expected: list[tuple[str, int, int, int]]) -> None:
    found = built("white", *texts).contradictions
    assert [(one.code, one.game, one.line, one.column) for one in found] == expected


def test_a_contradiction_names_its_chapter_and_both_moves() -> None:
    first, second = games("1. e4 e5 2. Nf3", "1. e4 e5 2. Nc3")
    (found,) = build_graph("white", [("main", first), ("quiet", second)]).contradictions
    assert found.chapter == "quiet"
    assert "Nc3" in found.message
    assert "Nf3" in found.message


def test_games_that_disagree_make_the_later_move_an_alternative() -> None:
    book = graph("white", "1. e4 e5 2. Nf3 Nc6", "1. e4 e5 2. Nc3 Nf6 3. g3", "1. Nf3 e5")
    assert standings(book, "e4 e5") == ["Nf3 deck", "Nc3 accepted"]
    assert standings(book, "") == ["e4 deck", "Nf3 accepted"]
    assert "g3" in asked(book)


def test_the_decks_move_stands_first_whatever_was_said_before_it() -> None:
    book = graph("white", "1. e4 e5 2. Qh5?", "1. e4 e5 2. Nf3 (2. Ke2?) 2... Nc6")
    assert standings(book, "e4 e5") == ["Nf3 deck", "Qh5 mistake", "Ke2 mistake"]


def test_the_main_line_comes_before_its_variations() -> None:
    # The position after 1. e4 c5 2. Nf3 e6 stands first in the variation's text.
    book = graph("white", "1. e4 c5 (1... e6 2. Nf3 c5 3. c3) 2. Nf3 e6 3. Nc3")
    assert standings(book, "e4 c5 Nf3 e6") == ["Nc3 deck", "c3 accepted"]


def test_a_move_with_praise_and_blame_at_once_is_refused() -> None:
    (found,) = built("white", "1. e4 e5 2. Nf3 (2. Nc3 $1 $2) 2... Nc6").contradictions
    assert found.code == "mistake-and-book"


def test_equal_texts_count_once_wherever_they_stand() -> None:
    book = graph("white", "1. e4 e5 2. Nf3 {a\nb} 2... Nc6", "1. e4 e5 2. Nf3 {a} 2... Nf6")
    move = book.positions[key("1. e4 e5")].deck_move
    assert move is not None
    assert move.note == "a\nb"
