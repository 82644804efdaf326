"""What goes into a handout, and in which order. Expected values: worked by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.handout_decks import IDEAS, LINES, chapter, deck, whole_deck
from tests.trees import game, grown
from trainer.deck.deck import Kind
from trainer.deck.handout.compose import handout_of
from trainer.deck.handout.main_line import drawn_in_game, drawn_in_line, main_line
from trainer.deck.handout.pages import Block, Choices, Diagram, Entry, Manner, Paragraph
from trainer.deck.handout.references import positions
from trainer.deck.handout.telling import tell
from trainer.lines.tree import Comment


def told(blocks: Sequence[Block]) -> list[str]:
    """Paragraphs as text behind their level, diagrams as their captions in brackets."""
    lines = []
    for block in blocks:
        if isinstance(block, Paragraph):
            words = " ".join(word.text for word in block.words)
            lines.append(f"{block.level} {words}")
        elif isinstance(block, Diagram):
            lines.append(f"[{block.caption}]")
        else:
            lines.append(", ".join(block.answers) if isinstance(block, Choices) else "___")
    return lines


def entries(number: int, *, of: str = "c") -> tuple[Entry, ...]:
    """The entries of a chapter of the whole deck, or of its answers."""
    sections = handout_of(whole_deck()).sections
    return next(section.entries for section in sections if section.anchor == f"{of}{number}")


def test_lines_are_told_as_a_tree_with_their_reasons() -> None:
    assert told(entries(1)[0].blocks) == [
        "0 We strike early.",
        "0 1. e4 Takes the centre.",
        "0 1... e5 2. Nc3 Guards e4.",
        "1 Not ours: 2. Nf3 Sound.",
        "1 A mistake: 2. Qh5? Chased. 2... Nc6 3. Bc4 g6",
        "2 3... Nf6? 4. Qxf7#",
        "0 2... Nf6 (60%) Hits e4.",
        "0 3. f4",
        "1 Also right: 3. Bc4 Quieter. 3... Nc6 4. d3",
        "0 3... d5 4. fxe5",
        "[After 4. fxe5]",
    ]


def test_a_line_that_ends_refers_to_the_one_that_goes_on() -> None:
    *_, last, diagram = told(entries(1)[1].blocks)
    assert last == "0 2. f4 +- Nf6 3. Nc3 (goes on in 1.1)"
    assert diagram == "[After 3. Nc3]"
    (link,) = (
        word.link
        for block in entries(1)[1].blocks
        if isinstance(block, Paragraph)
        for word in block.words
        if word.link
    )
    assert link == "c1-1"


def test_main_lines_are_set_apart_from_variations() -> None:
    manners = {
        (block.level > 0, word.manner)
        for block in entries(1)[0].blocks
        if isinstance(block, Paragraph)
        for word in block.words
        if word.manner in (Manner.MAIN, Manner.MOVE)
    }
    assert manners == {(False, Manner.MAIN), (True, Manner.MOVE)}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1. e4 e5 2. Nf3", ["0 1. e4 e5 2. Nf3"]),
        ("1. e4! e5?! 2. Nf3", ["0 1. e4! e5?! 2. Nf3"]),
        ("1. e4 {One.\nTwo.} e5", ["0 1. e4 One.", "0 Two.", "0 1... e5"]),
        ("1. e4 c5 (1... e5 {One.\nTwo.})", ["0 1. e4 c5", "1 1... e5 One. Two."]),
        ("1. e4 {[%theme centre, tempo]}", ["0 1. e4 [centre, tempo]"]),
        ("1. e4 {[%share 7]}", ["0 1. e4 (7%)"]),
        ("[7k/8/8/8/8/8/8/K6R b - - 0 9] 9... Kg7", ["0 9... Kg7"]),
    ],
    ids=["bare", "marks", "paragraphs", "folded", "themes", "share", "black first"],
)
def test_moves_are_numbered_and_marked(text: str, expected: list[str]) -> None:
    assert told(tell(game(text), "white")) == expected


def test_beside_the_moves_of_a_whole_game_nothing_is_right_or_wrong() -> None:
    assert "Also right:" in " ".join(told(tell(game("1. e4 (1. c4) 1... e5"), "white")))
    bare = told(tell(game("1. e4 (1. c4) 1... e5"), "white", trained=False))
    assert bare == ["0 1. e4", "1 1. c4", "0 1... e5"]


# --- Diagrams


def drawn(text: str, *earlier: str) -> list[str]:
    """The moves of White's line after which a diagram stands, told after earlier lines."""
    before, tree = [game(line) for line in earlier], game(text)
    known = {position.key for line in before for position in positions(line)}
    told_before = {position for position in positions(tree) if position.key in known}
    return [node.san for node in drawn_in_line(tree, "white", told_before)]


TEN = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7"


@pytest.mark.parametrize(
    ("text", "earlier", "expected"),
    [
        ("1. e4", [], []),
        ("1. e4 e5 2. Nf3", [], ["Nf3"]),
        (TEN, [], ["Be7"]),
        (TEN.replace("Nc6", "Nc6 {[%csl Ge5]}"), [], ["Be7"]),
        (TEN.replace("a6", "a6 {[%csl Ge5]}"), [], ["a6", "Be7"]),
        (TEN.replace("Ba4 Nf6", "Ba4 Nf6 (4... d6)"), [], ["Ba4", "Be7"]),
        (TEN, ["1. e4 e5 2. Nf3 d6"], ["Nf3", "Be7"]),
        (TEN, [TEN], []),
        ("1. e4 c5 (1... e5 2. f4)", ["1. e4 c5"], ["e4"]),
    ],
    ids=[
        "nothing to see",
        "the end",
        "nothing on the way",
        "marked too early",
        "marked",
        "a choice",
        "it parts from another",
        "all known",
        "it parts in a variation",
    ],
)
def test_diagrams_stand_where_the_rule_says(
    text: str, earlier: list[str], expected: list[str]
) -> None:
    assert drawn(text, *earlier) == expected


@pytest.mark.parametrize(
    ("moves", "expected"),
    [
        ("1. e4", 1),
        (TEN, 1),
        (f"{TEN} 6. Re1 b5 7. Bb3 d6 8. c3 O-O 9. h3 Nb8 10. d3 Nbd7 11. Nbd2 Bb7", 2),
    ],
    ids=["one move", "short", "long"],
)
def test_a_whole_game_has_one_or_two(moves: str, expected: int) -> None:
    assert len(drawn_in_game(game(moves))) == expected


def test_a_diagram_of_a_game_prefers_a_move_with_a_comment() -> None:
    assert [node.san for node in drawn_in_game(game(TEN.replace("O-O", "O-O {Safe.}")))] == ["O-O"]


def test_diagrams_are_seen_from_the_side_of_the_chapter_and_show_the_marks() -> None:
    black = deck(chapter(Kind.LINES, "1. e4 c6 2. c4 d5 {[%csl Gd5][%cal Rd5e4]} *", side="black"))
    (diagram,) = handout_of(black).diagrams
    assert diagram == Diagram(
        "rnbqkbnr/pp2pppp/2p5/3p4/2P1P3/8/PP1P1PPP/RNBQKBNR w KQkq - 0 3",
        "black",
        "After 2... d5",
        ("Gd5",),
        ("Rd5e4",),
    )


def test_a_line_from_a_position_begins_with_it() -> None:
    pgn = '[SetUp "1"]\n[FEN "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"]\n\n1. e4 Ke7 *'
    (entry,) = handout_of(deck(chapter(Kind.LINES, pgn))).sections[0].entries
    assert told(entry.blocks) == ["[White to move.]", "0 1. e4 Ke7"]


# --- Exercises


def test_tactics_are_asked_without_their_solutions() -> None:
    first, second = entries(2)
    assert (first.title, told(first.blocks)) == (
        "The loose bishop",
        ["[White to move.]", "0 Is the knight pinned?", "___"],
    )
    # Where the other side begins, its move is made first.
    assert told(second.blocks) == ["[After 3... Nf6. White to move.]", "___"]
    assert all(entry.whole for entry in (first, second))


def test_their_solutions_stand_at_the_end() -> None:
    first, second = entries(2, of="s")
    assert told(first.blocks) == [
        "0 4. Bxf7+ Draws the king out.",
        "0 4... Kxf7",
        "1 4... Kd7 5. Ng5",
        "0 5. Ng5+",
        "1 A mistake: 5. d3? Too slow.",
        "0 5... Ke8 6. Qxg4",
    ]
    assert told(second.blocks) == ["0 3... Nf6? 4. Qxf7#"]
    anchors = [section.anchor for section in handout_of(whole_deck()).sections]
    assert anchors == ["c1", "c2", "c3", "c4", "s2", "s4"]


def test_ideas_ask_and_their_answers_stand_at_the_end() -> None:
    asked = [told(entry.blocks) for entry in entries(4)]
    board = "[After 1. e4. Black to move.]"
    assert asked == [
        [board, "0 What now?", "0 Name the square or squares.", "___"],
        [board, "0 What now?", "0 Find the move.", "___"],
        [board, "0 What now?", "0 Choose one.", "An attack, nothing, the centre"],
    ]
    assert [told(entry.blocks) for entry in entries(4, of="s")] == [
        ["0 d5, f5", "0 Because."],
        ["0 1... e5", "0 Because."],
        ["0 c) the centre", "0 Because."],
    ]


@given(st.lists(st.text(min_size=1), min_size=2, max_size=6, unique=True), st.randoms())
def test_the_order_of_choices_does_not_depend_on_the_right_one(
    choices: list[str], chance: Random
) -> None:
    def order(written: Sequence[str]) -> tuple[Block, ...]:
        ideas = (replace(IDEAS[2], choices=tuple(written)),)
        return handout_of(deck(chapter(Kind.IDEAS, ideas=ideas))).sections[0].entries[0].blocks

    shuffled = list(choices)
    chance.shuffle(shuffled)
    assert order(choices) == order(shuffled)


# --- The whole


def test_a_model_game_has_its_players_place_and_result() -> None:
    (entry,) = entries(3)
    assert entry.title == "Ann – Bert"
    lines = told(entry.blocks)
    assert (lines[0], lines[-1]) == ("0 A club match, 1999.10", "0 1-0")
    assert "1 4... Nf6" in lines
    assert sum(line.startswith("[") for line in lines) == 1


def test_one_chapter_alone_keeps_its_number_and_its_answers() -> None:
    sections = handout_of(whole_deck(), "tactics").sections
    assert [(section.anchor, section.number, section.title) for section in sections] == [
        ("c2", "2", "The tactics"),
        ("s2", "2", "The tactics"),
    ]


def test_references_never_leave_what_is_printed() -> None:
    second = chapter(Kind.LINES, '[Event "x"]\n\n1. e4 e5 *', id="second")
    both = deck(chapter(Kind.LINES, LINES), second)
    assert "(goes on in 1.1)" in told(handout_of(both).sections[1].entries[0].blocks)[0]
    assert "goes on" not in told(handout_of(both, "second").sections[0].entries[0].blocks)[0]


def test_a_chapter_without_entries_has_no_answers() -> None:
    sections = handout_of(deck(chapter(Kind.TACTICS), chapter(Kind.IDEAS))).sections
    assert [section.anchor for section in sections] == ["c1", "c2", "s1", "s2"]
    assert not any(section.entries for section in sections)


GROWTHS = st.lists(
    st.lists(
        st.tuples(
            st.integers(0, 40),
            st.integers(0, 40),
            st.builds(Comment, text=st.sampled_from(["", "said"]), aside=st.booleans()),
            st.sampled_from([None, 1, 2, 40]),
        ),
        max_size=25,
    ),
    min_size=1,
    max_size=3,
)


@given(GROWTHS, st.sampled_from(["white", "black"]))
def test_every_move_of_a_tree_is_told_once(growths: list[object], side: str) -> None:
    for tree in grown(growths):  # type: ignore[arg-type]
        blocks = tell(tree, side, drawn_in_line(tree, side, ()))
        moves = [
            word.text
            for block in blocks
            if isinstance(block, Paragraph)
            for word in block.words
            if word.manner in (Manner.MAIN, Manner.MOVE)
        ]
        assert len(moves) == len(list(positions(tree)))
        main = [
            word.text.split()[-1].rstrip("!?")
            for block in blocks
            if isinstance(block, Paragraph)
            for word in block.words
            if word.manner is Manner.MAIN
        ]
        assert main == [node.san for node in main_line(tree)]


def test_variations_may_be_very_deep() -> None:
    tree = game("1. e4")
    (node,) = tree.children
    for _ in range(20_000):
        node.children = [replace(node, children=[]), replace(node, children=[])]
        node = node.children[1]
    blocks = tell(tree, "white", drawn_in_line(tree, "white", ()), trained=False)
    assert sum(isinstance(block, Paragraph) for block in blocks) == 20_001
