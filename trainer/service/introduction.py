"""The introduction: a few moves of a real sitting, of which nothing is kept.

What is said beside the board is for the face.
"""

from __future__ import annotations

from trainer.deck.compiled import compile_deck
from trainer.deck.reader import read_deck
from trainer.errors import TrainerError
from trainer.lines.graph import BookPosition, LineGraph
from trainer.lines.letters import ENGLISH, LANGUAGES
from trainer.memory.card_state import FRESH, Answer, CardState, advance
from trainer.service.practice import Practice
from trainer.service.shipped import shipped
from trainer.service.study import Study
from trainer.sitting.cards import MoveCard
from trainer.sitting.events import Recorded
from trainer.sitting.sitting import Prompt, Rules, Sitting

TITLE = "The first minute"
PATIENCE = 600.0
"""Seconds of hesitation allowed: a first-time reader takes them."""


class Tryout(Practice):
    """A sitting whose answers are graded like any other and forgotten at its end."""

    def __init__(self, study: Study, sitting: Sitting) -> None:
        super().__init__(study, sitting, source="")
        self._given: list[tuple[str, CardState]] = []
        """By answer the state before it, in order."""
        self._states: dict[str, CardState] = {}

    def _record(self, prompt: Prompt, quality: int) -> Recorded:
        key, day = prompt.card.key, self._study.today
        before = self._states.get(key, FRESH)
        self._given.append((key, before))
        self._states[key] = advance(before, Answer(day, quality, prompt.repeat, part_credit=True))
        return Recorded(str(len(self._given)), self._states[key])

    def _withdraw(self, _answer_id: str) -> None:
        key, before = self._given.pop()
        self._states[key] = before


def prepare_introduction(study: Study) -> Tryout:
    """The sitting of the introduction; send it `Begin`.

    :raises TrainerError: the installation lacks its moves.
    """
    path = shipped("demo", "introduction.pgn")
    read = read_deck(path, "white")
    if read.deck is None:
        raise TrainerError(f"{path}: {read.findings[0].message}; install the program again")
    graph = compile_deck(read.deck).graphs["white"]
    cards = [
        Prompt(_card(read.deck.id, graph, position), fresh=True, repeat=False)
        for position in graph.cards
    ]
    rules = Rules(
        hesitation=PATIENCE,
        first_look=False,
        letters=LANGUAGES.get(study.settings.piece_letters, ENGLISH),
    )
    books = {(read.deck.id, graph.side): graph}
    return Tryout(study, Sitting(books=books, ahead=tuple(cards), rules=rules))


def _card(deck: str, graph: LineGraph, position: BookPosition) -> MoveCard:
    place = position.places[0]
    return MoveCard(
        key=position.card,
        deck=deck,
        deck_title=TITLE,
        edition=1,
        chapter=place.chapter,
        chapter_title=TITLE,
        side=graph.side,
        line=place.line,
        start=place.start,
        introduction="",
        position=position,
        other_decks={},
    )
