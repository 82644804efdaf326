"""All checks that need the deck alone, and how many of its cards give a reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.deck.check.chapters import waits_for_nothing
from trainer.deck.check.ideas import ideas_against_lines
from trainer.deck.check.lines import (
    cards_without_reason,
    mistakes_without_refutation,
    positions_without_move,
)
from trainer.deck.check.played_out import (
    is_silent,
    tactics,
    unanswered_defences,
    unexplained_mistakes,
)
from trainer.deck.check.spots import Spot
from trainer.deck.check.transpositions import answered_elsewhere
from trainer.deck.check.written import Written
from trainer.deck.compiled import CompiledDeck
from trainer.deck.deck import Deck
from trainer.deck.findings import Finding

WITHOUT_REASON = "card-without-reason"


@dataclass(frozen=True, slots=True)
class Reasons:
    """How many cards say why."""

    cards: int
    silent: int

    @property
    def given(self) -> int:
        """Those with a reason."""
        return self.cards - self.silent


def check_whole(deck: Deck, compiled: CompiledDeck, sides: tuple[Written, ...]) -> list[Finding]:
    """What neither the reader nor the joining of the lines finds; in no order."""
    found: list[Finding] = []
    for written in sides:
        found += positions_without_move(written)
        found += cards_without_reason(written)
        found += mistakes_without_refutation(written)
        found += answered_elsewhere(written)
    for tactic in tactics(deck, compiled):
        found += unanswered_defences(tactic)
        found += unexplained_mistakes(tactic)
        if is_silent(tactic.played):
            message = "nothing says why the solution works; add a comment at the solver's move"
            found.append(tactic.spot.note(WITHOUT_REASON, message))
    found += _silent_ideas(deck)
    found += waits_for_nothing(deck, compiled)
    found += ideas_against_lines(deck, compiled.graphs)
    return found


def count_reasons(deck: Deck, compiled: CompiledDeck, findings: list[Finding]) -> Reasons:
    """The cards of all kinds, and those of them that some finding calls silent."""
    cards = {position.card for graph in compiled.graphs.values() for position in graph.cards}
    cards |= {tactic.played.key for tactic in tactics(deck, compiled)}
    cards |= {idea.key for chapter in deck.chapters for idea in chapter.ideas}
    silent = sum(1 for finding in findings if finding.code == WITHOUT_REASON)
    return Reasons(len(cards), min(silent, len(cards)))


def _silent_ideas(deck: Deck) -> Iterator[Finding]:
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            if not idea.why:
                message = "nothing says why the answer is right; add it as why"
                spot = Spot(chapter.file, idea.place, idea.file_line)
                yield spot.note(WITHOUT_REASON, message)
