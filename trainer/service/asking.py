"""Cards of the shelf made ready to be asked, each with all that its answer is judged by."""

from __future__ import annotations

from typing import Any

from trainer.lines.graph import split_card_key
from trainer.service.books import Books, moves_of_others
from trainer.service.exercises import GameProgress, read_idea, read_tactic
from trainer.service.opening import OpenCard, OpenDeck, Shelf
from trainer.service.study import Study
from trainer.sitting.cards import Card, GuessCard, IdeaCard, MoveCard, TacticCard, at_turn
from trainer.store.decks import StoredDeck


def make_card(study: Study, shelf: Shelf, entry: OpenDeck, card: OpenCard, books: Books) -> Card:
    """A card in the name of a deck and of the first open chapter that has it."""
    deck = entry.deck
    if card.kind == "ideas":
        idea = read_idea(study, deck.id, card.chapter, card.card)
        return IdeaCard(
            key=card.card,
            **_named(deck, card.chapter),
            side=card.side,
            line=idea.line,
            start=idea.start,
            idea=idea,
        )
    if card.kind == "tactics":
        tactic = read_tactic(study, deck.id, card.chapter, card.card)
        return TacticCard(**_named(deck, card.chapter), **at_turn(tactic, 0))
    return _move_card(shelf, deck, card, books)


def make_guess(deck: StoredDeck, chapter: str, progress: GameProgress) -> GuessCard:
    """A model game, at the first move that is not guessed in this round."""
    turn = at_turn(progress.game, len(progress.guessed))
    return GuessCard(
        **_named(deck, chapter), **turn, round=progress.round, guessed=progress.guessed
    )


def _move_card(shelf: Shelf, deck: StoredDeck, card: OpenCard, books: Books) -> MoveCard:
    book_id = (deck.id, card.side)
    key, _ = split_card_key(card.card)
    position = books[book_id].positions[key]
    place = next(place for place in position.places if place.chapter == card.chapter)
    return MoveCard(
        key=card.card,
        **_named(deck, card.chapter),
        side=card.side,
        line=place.line,
        start=place.start,
        introduction=place.introduction,
        position=position,
        other_decks=moves_of_others(books, shelf, key, book_id),
    )


def _named(deck: StoredDeck, chapter: str) -> dict[str, Any]:
    """In whose name a card is asked."""
    return {
        "deck": deck.id,
        "deck_title": deck.title,
        "edition": deck.edition,
        "chapter": chapter,
        "chapter_title": next(found.title for found in deck.chapters if found.id == chapter),
    }
