"""Which card that leaves a deck and which that comes are one and the same with another answer.

Moves are paired by their position, tactics by their start, ideas without an id of their own
by their position; an idea with an id is known by that alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from trainer.lines.graph import split_card_key
from trainer.lines.idea import IDEA
from trainer.service.decks.card_names import kind_of, title_of
from trainer.service.decks.cards import DeckCard

Pair = tuple[DeckCard, DeckCard]


def paired(dropped: Iterable[DeckCard], added: Iterable[DeckCard]) -> list[Pair]:
    """The pairs, in the order of the cards that come; each card is in one at most.

    Where several could belong together, those of one title do. What is left over then is
    paired in order if it is tactics; ideas only if there is one of each.
    """
    gone = _grouped(dropped)
    come = _grouped(added)
    return [
        pair
        for group in come
        if group in gone
        for pair in _matched(gone[group], come[group], strict=group[0] == "idea")
    ]


def _grouped(cards: Iterable[DeckCard]) -> dict[tuple[str, str], list[DeckCard]]:
    groups: dict[tuple[str, str], list[DeckCard]] = {}
    for card in cards:
        if where := _where(card):
            groups.setdefault((kind_of(card.source), where), []).append(card)
    return groups


def _where(card: DeckCard) -> str:
    """The position by which it is paired; empty for an idea with an id."""
    if not card.card.startswith(IDEA):
        return split_card_key(card.card)[0]
    fields = card.card.split(" ")
    # `idea DECK ID`, or `idea` and the four fields of a position key and an answer.
    return " ".join(fields[1:5]) if len(fields) > 5 else ""


def _matched(gone: Sequence[DeckCard], come: Sequence[DeckCard], strict: bool) -> Iterator[Pair]:
    left, right = list(gone), list(come)
    for new in come:
        named = [old for old in left if title_of(old.source) == title_of(new.source)]
        rivals = [other for other in right if title_of(other.source) == title_of(new.source)]
        if len(named) == len(rivals) == 1:
            yield named[0], new
            left.remove(named[0])
            right.remove(new)
    if not strict or len(left) == len(right) == 1:
        yield from zip(left, right, strict=False)
