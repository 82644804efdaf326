"""The deck that a coach begins with shows everything, and nothing is wrong with it."""

from __future__ import annotations

import io
from pathlib import Path

import chess
import chess.pgn
import pytest

from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Deck, Kind
from trainer.deck.reader import read_deck
from trainer.deck.starting import starting_files
from trainer.lines.graph import Standing
from trainer.lines.idea import Form


@pytest.fixture
def deck(tmp_path: Path) -> Deck:
    """The deck as a coach gets it, under the id `my-lines`."""
    for name, data in starting_files("my-lines").items():
        (tmp_path / name).write_bytes(data)
    read = read_deck(tmp_path)
    assert read.findings == ()
    assert read.deck is not None
    return read.deck


@pytest.fixture
def compiled(deck: Deck) -> CompiledDeck:
    """Its lines joined."""
    compiled = compile_deck(deck)
    assert compiled.findings == ()
    return compiled


def test_it_has_the_coachs_id_and_a_chapter_of_every_kind(deck: Deck) -> None:
    assert deck.id == "my-lines"
    assert [chapter.kind for chapter in deck.chapters] == list(Kind)


def test_the_last_file_is_the_manifest_which_alone_is_changed() -> None:
    one, other = starting_files("a"), starting_files("x" * 64)
    assert [*one][-1] == "deck.toml"
    assert [name for name in one if one[name] != other[name]] == ["deck.toml"]
    assert b'\nid = "a" ' in one["deck.toml"]


def test_its_lines_show_what_may_stand_at_a_move(compiled: CompiledDeck) -> None:
    graph = compiled.graphs["white"]
    moves = [move for position in graph.positions.values() for move in position.moves]
    assert {move.standing for move in moves} == set(Standing)
    assert any(move.error for move in moves if move.standing is Standing.REPLY)
    for what in ("squares", "arrows", "themes"):
        assert any(getattr(move, what) for move in moves), what
    assert all(move.note for move in moves if move.standing is not Standing.REPLY)


def test_its_ideas_show_every_form(deck: Deck) -> None:
    assert {idea.form for chapter in deck.chapters for idea in chapter.ideas} == set(Form)


def test_its_tactic_has_another_defence_and_ends_in_mate(compiled: CompiledDeck) -> None:
    (tactic,) = compiled.played["tricks"]
    assert len(tactic.defences) == 2
    board = chess.Board(tactic.start)
    for played in tactic.defences[0].moves:
        board.push_uci(played.move.uci)
    assert board.is_checkmate()


def test_another_reader_finds_the_same_moves() -> None:
    # Agrees with python-chess 1.11.2, run live; it knows `%` lines between games.
    for name, data in starting_files("a").items():
        if name.endswith(".pgn"):
            text = io.StringIO(data.decode())
            while game := chess.pgn.read_game(text):
                assert game.errors == []
                assert game.next() is not None


def test_no_opening_with_the_queens_pawn() -> None:
    for data in starting_files("a").values():
        assert b"1. d4" not in data
