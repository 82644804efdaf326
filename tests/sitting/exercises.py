"""Tactics, ideas and model games as cards, for the tests of this folder."""

from __future__ import annotations

import chess

from tests.sitting.driver import Driver
from tests.trees import game
from trainer.lines.idea import Form, Idea
from trainer.lines.played_out import model_game_of, tactic_of
from trainer.sitting.cards import Card, GuessCard, IdeaCard, TacticCard, at_turn
from trainer.sitting.events import Begin
from trainer.sitting.sitting import Prompt, Rules, Sitting

NAME = {
    "deck": "vienna",
    "deck_title": "Vienna",
    "edition": 1,
    "chapter": "tricks",
    "chapter_title": "Tricks",
}

FORK = (
    "[r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1]1. Nc7+ {a fork} (1. Nf6+? {a check} Ke7) (1. Nb6) "
    "(1. Ke2 {[%aside] slow}) 1... Kd7 (1... Kd8 2. Nxa8 {in the corner} Kc8 3. Nb6+) "
    "2. Nxa8 {a rook}"
)
"""Turns: 1. Nc7+; 2. Nxa8 after Kd7; 2. Nxa8 and 3. Nb6+ after Kd8."""

MATE = "1. e4 e5 2. Bc4 {f7} Nc6 3. Qh5 {threat} (3. Nf3 {sound}) 3... Nf6?? {no} 4. Qxf7# {mate}"


def tactic(text: str = FORK, side: str = "") -> TacticCard:
    """A tactic at its first turn."""
    return TacticCard(**NAME, **at_turn(tactic_of(game(text), side), 0))


def model_game(text: str = MATE, guessed: tuple[bool, ...] = (), side: str = "white") -> GuessCard:
    """A model game behind the guesses that were made already."""
    turn = at_turn(model_game_of(game(text), side), len(guessed))
    return GuessCard(**NAME, **turn, round=1, guessed=guessed)


def idea(form: Form, *answers: str, why: str = "So it is.") -> IdeaCard:
    """An idea at 1. e4 e5; the answers are squares, one move in UCI, or choices."""
    record = Idea(
        key=f"idea vienna {form}",
        start=chess.STARTING_FEN,
        line="1. e4 e5",
        side="white",
        ask="What?",
        form=form,
        squares=tuple(sorted(answers)) if form is Form.SQUARES else (),
        move=answers[0] if form is Form.MOVE else "",
        choices=answers if form is Form.CHOOSE else (),
        why=why,
        place=1,
        file_line=1,
    )
    return IdeaCard(
        key=record.key,
        **NAME,
        side="white",
        line=record.line,
        start=record.start,
        idea=record,
    )


def sit_with(*cards: Card, dice: int = 0, fresh: bool = False) -> Driver:
    """A sitting over these cards that has begun."""
    ahead = tuple(Prompt(card, fresh=fresh, repeat=False) for card in cards)
    driver = Driver(Sitting({}, ahead, Rules(), dice=dice))
    driver.send(Begin())
    return driver
