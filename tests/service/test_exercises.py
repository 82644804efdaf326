"""How far a student has come in a model game, and exercises that cannot be read."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.course import write_course
from trainer.service.decks.shelving import add_deck
from trainer.service.exercises import games_of, read_idea
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study
from trainer.service.upkeep import verify
from trainer.sitting.events import Begin, GoOn, MoveTyped, Stop
from trainer.store.database import DataFileError

TWO_GAMES = """\
[Event "One"]
[Result "*"]

1. e4 e5 2. Nf3 *

[Event "Two"]
[Result "*"]

1. c4 e5 2. g3 *
"""


def guess(study: Study, *moves: str) -> list[str]:
    """Guess these moves; the lines to the positions in which they were guessed."""
    practice = prepare_practice(study, Wish("course", "games"))
    practice.send(Begin())
    lines = []
    for move in moves:
        assert practice.sitting.current is not None
        lines.append(practice.sitting.current.card.line)
        practice.send(MoveTyped(move, 1.0))
        practice.send(GoOn(1.0))
    practice.send(Stop(0.0))
    return lines


def standing(study: Study) -> list[tuple[str, int, int, tuple[int, int] | None]]:
    """Title, round, guesses of the round, and the last score, of each game."""
    return [
        (found.game.title, found.round, len(found.guessed), found.last_score)
        for found in games_of(study, "course", "games")
    ]


@pytest.fixture
def shelf(study: Study, tmp_path: Path) -> Study:
    add_deck(study, write_course(tmp_path / "course", games=TWO_GAMES))
    return study


def test_a_game_goes_on_where_it_was_left(shelf: Study) -> None:
    assert guess(shelf, "e4") == [""]
    assert standing(shelf) == [("One", 1, 1, None), ("Two", 1, 0, None)]
    assert guess(shelf, "Nc3") == ["1. e4 e5"]
    assert standing(shelf) == [("One", 2, 0, (1, 2)), ("Two", 1, 0, None)]


def test_all_games_are_guessed_once_before_any_is_guessed_again(shelf: Study) -> None:
    assert guess(shelf, "e4", "Nf3") == ["", "1. e4 e5"]
    assert guess(shelf, "c4", "g3") == ["", "1. c4 e5"]
    assert guess(shelf, "e4", "Nf3", "c4") == ["", "1. e4 e5", ""]
    assert standing(shelf) == [("One", 3, 0, (2, 2)), ("Two", 2, 1, (2, 2))]


def test_a_damaged_exercise_is_one_clear_line(shelf: Study) -> None:
    shelf.db.execute("UPDATE exercise SET data = '{}' WHERE key = 'idea course hit-e5'")
    shelf.db.conn.commit()
    with pytest.raises(DataFileError, match="deck 'course' is missing or damaged; add the deck"):
        read_idea(shelf, "course", "ideas", "idea course hit-e5")
    assert "is missing or damaged" in verify(shelf).problems[0]


def test_a_missing_exercise_is_found(shelf: Study) -> None:
    shelf.db.execute("DELETE FROM exercise WHERE chapter = 'tricks'")
    shelf.db.conn.commit()
    assert "the cards of deck 'course' are not those of its files" in verify(shelf).problems[0]


def test_each_side_of_a_game_has_its_own_guesses(study: Study, tmp_path: Path) -> None:
    folder = write_course(tmp_path / "course", games=TWO_GAMES)
    manifest = (folder / "deck.toml").read_text(encoding="utf-8")
    black = '\n[[chapter]]\nid = "other-side"\nfile = "games.pgn"\ntitle = "B"\nkind = "games"\n'
    (folder / "deck.toml").write_text(f'{manifest}{black}side = "black"\n', encoding="utf-8")
    add_deck(study, folder)
    practice = prepare_practice(study, Wish("course", "other-side"))
    practice.send(Begin())
    practice.send(MoveTyped("e5", 1.0))
    practice.send(Stop(0.0))
    assert [found.last_score for found in games_of(study, "course", "other-side")] == [(1, 1), None]
    assert standing(study) == [("One", 1, 0, None), ("Two", 1, 0, None)]
