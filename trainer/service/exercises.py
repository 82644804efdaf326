"""The tactics, ideas and model games of the decks on the shelf, read where they are asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from trainer.lines.idea import Idea, idea_from_data
from trainer.lines.played_out import PlayedOut, played_out_from_data
from trainer.service.study import Study
from trainer.store.database import DataFileError
from trainer.store.decks import StoredExercise, read_exercise, read_exercises
from trainer.store.guesses import guesses_at

_Made = TypeVar("_Made")


def read_idea(study: Study, deck: str, chapter: str, key: str) -> Idea:
    """One idea.

    :raises DataFileError: it is missing or damaged.
    """
    return _made(idea_from_data, read_exercise(study.db, deck, chapter, key), deck)


def read_tactic(study: Study, deck: str, chapter: str, key: str) -> PlayedOut:
    """One tactic.

    :raises DataFileError: it is missing or damaged.
    """
    return _made(played_out_from_data, read_exercise(study.db, deck, chapter, key), deck)


def made_of(kind: str, exercise: StoredExercise, deck: str) -> Idea | PlayedOut:
    """An idea, a tactic or a game from its stored values.

    :raises DataFileError: they are damaged.
    """
    if kind == "ideas":
        return _made(idea_from_data, exercise.data, deck)
    return _made(played_out_from_data, exercise.data, deck)


@dataclass(frozen=True, slots=True)
class GameProgress:
    """A model game and how far the student has come in it."""

    game: PlayedOut
    round: int
    """Which time through it comes next or is under way, from 1."""
    guessed: tuple[bool, ...]
    """In this round so far: whether each guess was right."""
    last_score: tuple[int, int] | None
    """Moves found and guessed in the latest round that was finished; None before one was."""

    @property
    def begun(self) -> bool:
        """Whether a move of it was ever guessed."""
        return self.round > 1 or bool(self.guessed)

    @property
    def finished_rounds(self) -> int:
        """How often the game was guessed to its end."""
        return self.round - 1


def games_of(study: Study, deck: str, chapter: str) -> list[GameProgress]:
    """The model games of a chapter in file order.

    :raises DataFileError: one is damaged.
    """
    return [
        progress_of(study, _made(played_out_from_data, exercise.data, deck))
        for exercise in read_exercises(study.db, deck, chapter)
    ]


def progress_of(study: Study, game: PlayedOut) -> GameProgress:
    """How far the student has come in a game; a round ends with its last move."""
    rounds: dict[int, dict[int, bool]] = {}
    for guess in guesses_at(study.db, game.key, game.side):
        rounds.setdefault(guess.round, {}).setdefault(guess.ply, guess.right)
    latest = max(rounds, default=0)
    finished = [number for number in rounds if len(rounds[number]) >= len(game.turns)]
    score = None
    if finished:
        found = rounds[max(finished)]
        score = (sum(found.values()), len(found))
    if latest in finished or not latest:
        return GameProgress(game, latest + 1, (), score)
    return GameProgress(game, latest, tuple(rounds[latest].values()), score)


def _made(make: Callable[[Mapping[str, Any]], _Made], data: Any, deck: str) -> _Made:
    try:
        return make(data or {})
    except (ValueError, TypeError, KeyError, IndexError) as error:
        raise DataFileError(
            f"a tactic, an idea or a game of deck {deck!r} is missing or damaged; "
            "add the deck again"
        ) from error
