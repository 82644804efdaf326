"""Ideas as a coach writes them: what is read, and what is wrong with them, with its line."""

from __future__ import annotations

from contextlib import suppress

import chess
import pytest

from trainer.deck.findings import FindingList, StopReading
from trainer.deck.ideas import read_ideas
from trainer.deck.limits import IDEAS
from trainer.lines.idea import Form, Idea, idea_from_data, idea_to_data

GOOD = """\
[[idea]]
id = "why"
after = "1.e4 e5"
ask = "Which   square\\nis weak?"
squares = ["f7", "e5", "f7"]
why = '''One reason.

And another.'''
"""


def read(
    text: str | bytes, side: str = ""
) -> tuple[tuple[Idea, ...], list[tuple[str, int | None]]]:
    """The ideas, and code and line of each finding."""
    findings = FindingList("ideas.toml")
    data = text if isinstance(text, bytes) else text.encode()
    ideas: tuple[Idea, ...] = ()
    with suppress(StopReading):
        ideas = read_ideas(data, "ideas.toml", "deck", side, findings)
    return ideas, [(found.code, found.line) for found in findings.finished()]


def test_an_idea_is_read() -> None:
    (idea,), findings = read(GOOD)
    assert findings == []
    assert idea == Idea(
        key="idea deck why",
        start=chess.STARTING_FEN,
        line="1. e4 e5",
        side="white",
        ask="Which square is weak?",
        form=Form.SQUARES,
        squares=("e5", "f7"),
        move="",
        choices=(),
        why="One reason.\nAnd another.",
        place=1,
        file_line=1,
    )
    assert idea_from_data(idea_to_data(idea)) == idea
    assert (idea.answer, idea.fen.split()[1]) == ("e5 f7", "w")


@pytest.mark.parametrize(
    ("answer", "key", "said"),
    [
        ('squares = ["e5", "d4"]', "d4 e5", "d4 e5"),
        ('move = "Nf3"', "g1f3", "Nf3"),
        ('move = "g1f3"', "g1f3", "Nf3"),
        ('choose = ["the  knight", "no"]', "the knight", "the knight"),
    ],
)
def test_without_an_id_position_and_answer_are_the_key(answer: str, key: str, said: str) -> None:
    # Source: design of the deck format, section 4: "else position key + the answer".
    (idea,), findings = read(f'[[idea]]\nafter = "1. e4 e5"\nask = "?"\n{answer}\n')
    assert findings == []
    position = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq -"
    assert (idea.key, idea.answer) == (f"idea {position} {key}", said)


def test_a_fen_is_read_and_the_chapters_side_sees_the_board() -> None:
    text = '[[idea]]\nfen = "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 9"\nask = "?"\nsquares = ["d5"]\n'
    (seen,), _ = read(text, side="black")
    (alone,), _ = read(text)
    assert (seen.side, alone.side) == ("black", "white")
    # Taking en passant would open the rank to the rook: FIDE's Laws, article 9.2.
    assert seen.fen == "8/8/8/K2pP2r/8/8/8/4k3 w - - 0 9"


HEAD = '[[idea]]\nafter = "1. e4 e5"\nask = "What?"\n'
FAULTS = {
    "no TOML": ("[[idea\n", ("bad-toml", 1)),
    "not UTF-8": (b'[[idea]]\nask = "\xff"', ("bad-toml", 2)),
    "no idea": ("# nothing\n", ("no-ideas", None)),
    "not tables": ("idea = 5\n", ("wrong-type", 1)),
    "an unknown key at the top": (f'{HEAD}move = "Nf3"\n[[ideas]]\n', ("unknown-key", 5)),
    "an unknown key": (f'{HEAD}move = "Nf3"\nwhi = "x"\n', ("unknown-key", 5)),
    "no question": ('[[idea]]\nafter = "1. e4"\nmove = "e5"\n', ("missing-key", 1)),
    "no position": ('[[idea]]\nask = "?"\nmove = "e5"\n', ("missing-key", 1)),
    "two positions": (
        f'{HEAD}fen = "8/8/8/8/8/8/8/8 w - - 0 1"\nmove = "Nf3"\n',
        ("bad-value", 4),
    ),
    "no answer": (HEAD, ("missing-key", 1)),
    "two answers": (f'{HEAD}squares = ["d4"]\nmove = "Nf3"\n', ("bad-value", 5)),
    "an illegal line": ('[[idea]]\nafter = "1. e5"\nask = "?"\nmove = "e5"\n', ("bad-line", 2)),
    "a bad FEN": ('[[idea]]\nfen = "8/8 w"\nask = "?"\nmove = "e5"\n', ("bad-fen", 2)),
    "an illegal move": (f'{HEAD}move = "Nf6"\n', ("idea-contradicted", 4)),
    "no move at all": (f'{HEAD}move = "N"\n', ("bad-value", 4)),
    "an unclear move": (
        '[[idea]]\nafter = "1. a3 e5 2. Nc3 e4 3. Nf3 d6 4. Nd4 d5"\nask = "?"\nmove = "Nb5"\n',
        ("idea-contradicted", 4),
    ),
    "no list": (f'{HEAD}squares = "d4"\n', ("wrong-type", 4)),
    "no square": (f'{HEAD}squares = ["d9"]\n', ("bad-value", 4)),
    "no squares": (f"{HEAD}squares = []\n", ("bad-value", 4)),
    "one choice": (f'{HEAD}choose = ["a"]\n', ("bad-value", 4)),
    "ten choices": (f"{HEAD}choose = {[str(n) for n in range(10)]}\n", ("bad-value", 4)),
    "a choice twice": (f'{HEAD}choose = ["a", "b", "a "]\n', ("bad-value", 4)),
    "an empty choice": (f'{HEAD}choose = ["a", " "]\n', ("bad-value", 4)),
    "a huge choice": (f'{HEAD}choose = ["a", "{"b" * 201}"]\n', ("too-large", 4)),
    "a huge question": (
        f'[[idea]]\nafter = "1. e4"\nask = "{"x" * 2001}"\nmove = "e5"\n',
        ("too-large", 3),
    ),
    "an id twice": (
        f'{HEAD}id = "a"\nmove = "Nf3"\n{HEAD}id = "a"\nmove = "Nc3"\n',
        ("duplicate-idea", 9),
    ),
    "a question twice": (f'{HEAD}move = "Nf3"\n{HEAD}move = "Nf3"\n', ("duplicate-idea", 5)),
    "a bad id": (f'{HEAD}id = "A b"\nmove = "Nf3"\n', ("bad-value", 4)),
    "too many": ('[[idea]]\nask = "x"\n' * (IDEAS + 1), ("too-large", 2 * IDEAS + 1)),
}


@pytest.mark.parametrize(("text", "finding"), FAULTS.values(), ids=FAULTS)
def test_each_fault_is_found_where_it_stands(
    text: str | bytes, finding: tuple[str, int | None]
) -> None:
    _, findings = read(text)
    assert findings == [finding]


def test_findings_name_the_idea_by_its_number() -> None:
    findings = FindingList("ideas.toml")
    text = f'{HEAD}move = "Nf3"\n{HEAD}move = "Nf6"\n'
    read_ideas(text.encode(), "ideas.toml", "deck", "", findings)
    (found,) = findings.finished()
    assert (found.game, found.file) == (2, "ideas.toml")
    assert "White has no knight" in found.message
