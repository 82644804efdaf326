"""Every shipped deck is clean, a whole course, and has what a student needs."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from trainer.deck.check.check import check_whole
from trainer.deck.check.written import find_written
from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.findings import Severity
from trainer.deck.reader import read_deck
from trainer.lines.idea import Form

DECKS = sorted(path.parent for path in (Path(__file__).parent.parent / "decks").glob("*/deck.toml"))


@cache
def course(folder: Path) -> tuple[Deck, CompiledDeck]:
    deck = read_deck(folder).deck
    assert deck is not None
    return deck, compile_deck(deck)


def chapters(deck: Deck, kind: Kind) -> list[Chapter]:
    return [chapter for chapter in deck.chapters if chapter.kind is kind]


@pytest.fixture(params=DECKS, ids=lambda path: path.name)
def folder(request: pytest.FixtureRequest) -> Path:
    given: Path = request.param
    return given


def test_three_decks_are_shipped() -> None:
    assert [path.name for path in DECKS] == ["caro-kann", "english", "vienna"]


def test_the_check_finds_neither_error_nor_warning(folder: Path) -> None:
    deck, compiled = course(folder)
    found = [*read_deck(folder).findings, *compiled.findings]
    found += check_whole(deck, compiled, find_written(deck, compiled))
    assert [one for one in found if one.severity is not Severity.NOTE] == []


def test_all_decks_together_are_what_a_season_needs() -> None:
    counts = {"cards": 0, "tactics": 0, "ideas": 0, "games": 0}
    for path in DECKS:
        deck, compiled = course(path)
        counts["cards"] += sum(len(graph.cards) for graph in compiled.graphs.values())
        counts["ideas"] += sum(len(chapter.ideas) for chapter in deck.chapters)
        for kind in (Kind.TACTICS, Kind.GAMES):
            for chapter in chapters(deck, kind):
                counts[kind.value] += len(compiled.played[chapter.id])
    assert counts["cards"] >= 300
    assert counts["tactics"] >= 30
    assert counts["ideas"] >= 40
    assert counts["games"] >= 6


def test_a_course_has_every_kind_of_chapter(folder: Path) -> None:
    deck, compiled = course(folder)
    assert {chapter.kind for chapter in deck.chapters} == set(Kind)
    assert {chapter.side for chapter in deck.chapters} <= {"white", "black"}
    (graph,) = compiled.graphs.values()
    assert graph.lines >= 25
    assert len(graph.cards) >= 90
    (ideas,) = (chapter.ideas for chapter in chapters(deck, Kind.IDEAS))
    assert {idea.form for idea in ideas} == set(Form)


def test_four_cards_in_five_give_their_reason_and_none_repeats_another(folder: Path) -> None:
    _, compiled = course(folder)
    (graph,) = compiled.graphs.values()
    moves = [position.deck_move for position in graph.cards]
    notes = [move.note for move in moves if move is not None and move.note]
    assert len(notes) >= 0.8 * len(moves)
    assert len(set(notes)) == len(notes)


def test_every_known_mistake_is_explained(folder: Path) -> None:
    _, compiled = course(folder)
    (graph,) = compiled.graphs.values()
    silent = [
        (position.places[0].line, move.san)
        for position in graph.positions.values()
        for move in position.moves
        if move.standing == "mistake" and not (move.note and move.explanation)
    ]
    assert silent == []


def test_every_tactic_says_where_it_comes_from_and_why_it_works(folder: Path) -> None:
    deck, compiled = course(folder)
    for chapter in chapters(deck, Kind.TACTICS):
        for tactic in compiled.played[chapter.id]:
            assert tactic.title
            assert tactic.introduction, tactic.title
            first = tactic.turns[0]
            move = tactic.defences[first.defence].moves[first.ply].move
            assert move.note, tactic.title
            assert move.san not in f"{tactic.title} {tactic.introduction}", tactic.title


def test_every_idea_gives_its_reason(folder: Path) -> None:
    deck, _ = course(folder)
    ideas = [idea for chapter in deck.chapters for idea in chapter.ideas]
    assert [idea.ask for idea in ideas if not idea.why or not idea.key.startswith("idea ")] == []
    given = {idea.key.split(" ")[1] for idea in ideas}
    assert given == {deck.id}, "every idea has an id, so that its wording can change"


def test_model_games_are_marked_invented_and_follow_the_lines(folder: Path) -> None:
    deck, compiled = course(folder)
    (graph,) = compiled.graphs.values()
    for chapter in chapters(deck, Kind.GAMES):
        for game, tree in zip(compiled.played[chapter.id], chapter.games, strict=True):
            assert "invented" in tree.tags["Event"]
            assert "invented" in game.introduction
            assert len(game.turns) >= 20
            key, plies = tree.start.key, 0
            for played in game.defences[0].moves:
                here = graph.positions.get(key)
                move = here.move(played.move.uci) if here else None
                if move is None or not move.after:
                    break
                key, plies = move.after, plies + 1
            assert plies >= 8, f"{game.title} leaves the lines after {plies} moves"
