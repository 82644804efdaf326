"""Keeping one of several right moves: what that does to a deck's cards.

A kept move is what its position asks for; the branches of the others leave practice until it
is taken back. What is remembered of them stays.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.errors import TrainerError
from trainer.service.collection import collection_paused
from trainer.service.decks.cards import Contents
from trainer.service.decks.choices import (
    Choice,
    every_choice,
    find_choice,
    find_kept,
    right_move,
)
from trainer.service.decks.contents import shelved_contents
from trainer.service.opening import read_shelf
from trainer.service.study import Study
from trainer.store.answers import read_states
from trainer.store.database import transaction
from trainer.store.decks import put_cards
from trainer.store.preferences import drop_preference, put_preference, read_preferences


@dataclass(frozen=True, slots=True)
class Preferred:
    """What keeping a move, or taking that back, has done to the cards of the deck."""

    choice: Choice
    come: int
    """Cards that practice gains."""
    returned: int
    """Of these, answered before."""
    gone: int
    """Cards that leave practice."""
    remembered: int
    """Of these, answered before; that stays."""


def choices(study: Study, deck_id: str) -> list[Choice]:
    """All positions of a deck with several right moves, and kept moves that sleep.

    :raises TrainerError: there is no such deck.
    """
    return every_choice(_contents(study, deck_id))


def choice_at(study: Study, deck_id: str, place: str) -> Choice:
    """What is right in a position in which the student moves, and what is kept there.

    :param place: movetext or a FEN.
    :raises TrainerError: there is no such deck, or no such position in it.
    """
    return find_choice(_contents(study, deck_id), place)


def prefer(study: Study, deck_id: str, place: str, move: str) -> Preferred:
    """Keep one of the right moves in a position.

    :param place: movetext or a FEN.
    :param move: as typed, with the reader's piece letters or the English ones.
    :raises TrainerError: there is nothing to choose there, or the move is not a right one.
    """
    with collection_paused(), transaction(study.db):
        before = _contents(study, deck_id)
        choice = find_choice(before, place)
        kept = right_move(choice, move, study.settings.piece_letters)
        put_preference(study.db, deck_id, choice.side, choice.key, kept)
        return _carried_out(study, before, choice)


def take_back(study: Study, deck_id: str, place: str) -> Preferred:
    """Keep no move in a position any more; the deck's is asked again.

    :param place: movetext or a FEN.
    :raises TrainerError: none is kept there.
    """
    with collection_paused(), transaction(study.db):
        before = _contents(study, deck_id)
        choice = find_kept(before, place)
        drop_preference(study.db, deck_id, choice.side, choice.key)
        return _carried_out(study, before, choice)


def _contents(study: Study, deck_id: str) -> Contents:
    read_shelf(study).find(deck_id)  # says which decks there are
    found = shelved_contents(study, deck_id)
    if found is None:
        raise TrainerError(f"the deck {deck_id!r} was just taken off the shelf")
    return found


def _carried_out(study: Study, before: Contents, choice: Choice) -> Preferred:
    """Let the deck ask what it asks by now."""
    after = replace(before, preferred=read_preferences(study.db, before.deck))
    put_cards(study.db, before.deck, after.stored_cards)
    asked = {card.card for card in before.cards}
    asks = {card.card for card in after.cards}
    answered = {card for card, state in read_states(study.db).items() if not state.fresh}
    return Preferred(
        choice=next(
            (one for one in every_choice(after) if one.at == choice.at),
            replace(choice, kept="", sleeps=False),
        ),
        come=len(asks - asked),
        returned=len((asks - asked) & answered),
        gone=len(asked - asks),
        remembered=len((asked - asks) & answered),
    )
