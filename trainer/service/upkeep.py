"""Looking after the data: is it sound, does the log still give the states, what is in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

import chess

from trainer.lines.graph import split_card_key
from trainer.lines.idea import IDEA, Idea
from trainer.lines.movetext import movetext
from trainer.memory.card_state import FRESH, CardState
from trainer.service.books import all_books
from trainer.service.exercises import made_of, read_idea
from trainer.service.opening import OpenDeck, read_shelf
from trainer.service.study import Study
from trainer.store.answers import (
    NewAnswer,
    read_log,
    read_states,
    read_withdrawals,
    rebuild_states,
    replayed_states,
    stored_states,
)
from trainer.store.database import BrokenRow, DataFileError, damage
from trainer.store.decks import decks_of_cards, read_cards, read_decks, read_exercises
from trainer.store.guesses import Guess, read_guesses
from trainer.store.preferences import read_preferences


@dataclass(frozen=True, slots=True)
class Verification:
    """What `verify` found."""

    answers: int
    cards: int
    problems: tuple[str, ...]

    @property
    def ok(self) -> bool:
        """Nothing is wrong."""
        return not self.problems


def verify(study: Study) -> Verification:
    """Check the file, its references, and every state against the log replayed.

    A log that cannot be trusted to be read whole is not replayed.
    """
    if problems := damage(study.db):
        return Verification(0, 0, tuple(problems))
    try:
        answers = sum(1 for _ in read_log(study.db))
        wanted = replayed_states(study.db)
        for _ in read_guesses(study.db):
            pass  # nothing is derived from guesses, but all of them can be read
    except DataFileError as error:
        return Verification(0, 0, (str(error),))
    problems = [*_wrong_states(study, wanted), *_broken_decks(study)]
    return Verification(answers, len(wanted), tuple(problems))


def _wrong_states(study: Study, wanted: dict[str, tuple[CardState, str]]) -> Iterator[str]:
    try:
        stored = stored_states(study.db)
    except DataFileError as error:
        yield f"{error}; `trainer data rebuild` makes the states anew from the answers"
        return
    for card in sorted(wanted.keys() | stored):
        if wanted.get(card) != stored.get(card):
            yield (
                f"the state of {card!r} is not what its answers come to: run `trainer data rebuild`"
            )


def _broken_decks(study: Study) -> Iterator[str]:
    """Decks whose compiled lines cannot be read, or give other cards than the shelf has."""
    try:
        shelf = read_shelf(study)
    except DataFileError as error:
        yield str(error)
        return
    for entry in shelf.decks:
        try:
            asked = _cards_of(study, entry)
        except DataFileError as error:
            yield str(error)
            continue
        if asked != {card.card for card in read_cards(study.db, entry.deck.id)}:
            yield f"the cards of deck {entry.deck.id!r} are not those of its files: add it again"


def _cards_of(study: Study, entry: OpenDeck) -> set[str]:
    """What the compiled lines, ideas and tactics of a deck ask for.

    :raises DataFileError: some of it cannot be read; games, which have no cards, count too.
    """
    books = all_books(study, [entry]).values()
    cards = {position.card for book in books for position in book.cards}
    for chapter in entry.deck.chapters:
        for exercise in read_exercises(study.db, entry.deck.id, chapter.id):
            made = made_of(chapter.kind, exercise, entry.deck.id)
            if chapter.kind != "games":
                cards.add(made.key)
    return cards


def rebuild(study: Study) -> int:
    """Make all states anew from the log; how many were not as they should be."""
    return rebuild_states(study.db)


def export(study: Study) -> dict[str, Any]:
    """Everything remembered, as plain data for JSON."""
    return {
        "format": 1,
        "answers": [_answer(entry.id, entry.answer) for entry in read_log(study.db)],
        "withdrawals": [
            {"id": row.id, "answer": row.answer, "at": row.at} for row in read_withdrawals(study.db)
        ],
        "cards": _cards(study),
        "preferences": [
            {"deck": deck.id, "side": side, "position": position, "move": move}
            for deck in read_decks(study.db)
            for side, kept in read_preferences(study.db, deck.id).items()
            for position, move in kept.items()
        ],
        "guesses": [_guess(guess_id, guess) for guess_id, guess in read_guesses(study.db)],
    }


def _answer(answer_id: str, answer: NewAnswer) -> dict[str, Any]:
    return {
        "id": answer_id,
        "card": answer.card,
        "asked_at": answer.asked_at,
        "day": answer.schedule.day.isoformat(),
        "quality": answer.schedule.quality,
        "seconds": answer.seconds,
        "looked": answer.looked,
        "tries": [{"san": san, "verdict": verdict} for san, verdict in answer.tries],
        "hint": answer.hint,
        "shown": answer.shown,
        "source": answer.source,
        "repeat": answer.schedule.repeat,
        "deck": answer.deck,
        "chapter": answer.chapter,
        "edition": answer.edition,
        "rules": answer.rules,
        "part_credit": answer.schedule.part_credit,
    }


def _cards(study: Study) -> list[dict[str, Any]]:
    states = read_states(study.db)
    decks = decks_of_cards(study.db)
    ideas = _ideas_on_the_shelf(study)
    return [
        _card(card, _asked(card, ideas.get(card)), states.get(card, FRESH), decks.get(card, []))
        for card in dict.fromkeys((*decks, *states))
    ]


def _ideas_on_the_shelf(study: Study) -> dict[str, Idea]:
    ideas = {}
    for deck in read_decks(study.db):
        for chapter in deck.chapters:
            if chapter.kind == "ideas":
                for exercise in read_exercises(study.db, deck.id, chapter.id):
                    ideas[exercise.key] = read_idea(study, deck.id, chapter.id, exercise.key)
    return ideas


def _card(card: str, asked: tuple[str, str], state: CardState, decks: list[str]) -> dict[str, Any]:
    schedule = state.schedule
    return {
        "card": card,
        "fen": asked[0],
        "move": asked[1],
        "decks": decks,
        "repetition": schedule.repetition,
        "interval": schedule.interval,
        "e_factor": schedule.e_factor / 100,
        "due": state.due.isoformat() if state.due else None,
    }


def _asked(card: str, idea: Idea | None) -> tuple[str, str]:
    """FEN and what is right: SAN, of a tactic its solution, of an idea its answer.

    Empty for an idea that no deck on the shelf has any more.
    """
    if idea is not None:
        return idea.fen, idea.answer
    if card.startswith(IDEA):
        return "", ""
    key, moves = split_card_key(card)
    fen = f"{key} 0 1"
    try:
        board = chess.Board(fen)
        first, *more = [chess.Move.from_uci(uci) for uci in moves.split()]
        return fen, movetext(board, [first, *more]) if more else board.san(first)
    except (ValueError, AssertionError) as error:
        raise BrokenRow(f"card {card!r}", error) from error


def _guess(guess_id: str, guess: Guess) -> dict[str, Any]:
    return {"id": guess_id, **asdict(guess)}
