"""Every shipped deck is clean and has what a student needs."""

from pathlib import Path

import pytest

from trainer.deck.compiled import compile_deck
from trainer.deck.findings import Severity
from trainer.deck.reader import read_deck

DECKS = sorted(path.parent for path in (Path(__file__).parent.parent / "decks").glob("*/deck.toml"))


@pytest.fixture(params=DECKS, ids=lambda path: path.name)
def deck_folder(request: pytest.FixtureRequest) -> Path:
    folder: Path = request.param
    return folder


def test_the_reader_finds_nothing(deck_folder: Path) -> None:
    read = read_deck(deck_folder)
    assert [found for found in read.findings if found.severity is not Severity.NOTE] == []


def test_the_lines_do_not_contradict_each_other(deck_folder: Path) -> None:
    deck = read_deck(deck_folder).deck
    assert deck is not None
    assert compile_deck(deck).findings == ()


def test_a_deck_is_large_enough_and_gives_reasons(deck_folder: Path) -> None:
    deck = read_deck(deck_folder).deck
    assert deck is not None
    (graph,) = compile_deck(deck).graphs.values()
    moves = [position.deck_move for position in graph.cards]
    notes = [move.note for move in moves if move is not None and move.note]
    assert graph.lines >= 25
    assert len(moves) >= 90
    assert len(notes) >= 0.75 * len(moves)
    assert len(set(notes)) == len(notes)


def test_every_known_mistake_is_explained(deck_folder: Path) -> None:
    deck = read_deck(deck_folder).deck
    assert deck is not None
    (graph,) = compile_deck(deck).graphs.values()
    silent = [
        (position.places[0].line, move.san)
        for position in graph.positions.values()
        for move in position.moves
        if move.standing == "mistake" and not (move.note and move.explanation)
    ]
    assert silent == []
