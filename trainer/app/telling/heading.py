"""What a card is called before and after its answer, and whose part the student plays.

The title of a chapter may name the move that is asked for, so it waits for the answer; the
title of a tactic or a game is the coach's own and may be read before.
"""

from __future__ import annotations

from trainer.app.telling.games import players
from trainer.sitting.cards import Card, GuessCard, IdeaCard, TurnCard


def whose(card: Card) -> str:
    """`you are White · The Vienna`."""
    match card:
        case IdeaCard():
            role = "a question"
        case GuessCard():
            role = f"a model game, you guess for {card.side.title()}"
        case _:
            role = f"you are {card.side.title()}"
    return f"{role} · {card.deck_title}"


def title(card: Card, answered: bool) -> str:
    """What stands above the scoresheet."""
    own = ""
    if isinstance(card, TurnCard):
        own = players(card.played) if isinstance(card, GuessCard) else card.played.title
    return own or (card.chapter_title if answered else card.deck_title)
