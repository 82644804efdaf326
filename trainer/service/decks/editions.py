"""What a new edition of a deck means for its cards, told before anything changes.

Pure: two contents and the cards that were answered give the account; reading, asking and
keeping belong to others, and so do the words.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from trainer.lines.preferred import asleep
from trainer.service.decks.card_names import answer_of, kind_of, line_of, title_of
from trainer.service.decks.cards import Contents, DeckCard
from trainer.service.decks.pairing import paired


class What(StrEnum):
    """What happens to a card, a chapter or a preference, in the order of an account."""

    CHANGED = "changed"
    """Another move (or solution, or answer) is asked for; the card starts fresh."""
    WITHDRAWN = "withdrawn"
    """It leaves the deck; what is remembered of it stays and comes back with it."""
    PREFERENCE_SLEEPS = "preference sleeps"
    """The move that the student keeps is no longer right there, so the deck's is asked."""
    RETURNED = "returned"
    """New to the deck, but answered before."""
    OTHER_ANSWER = "other answer"
    """An idea keeps its card by its id, but another answer is right now."""
    CHAPTER_ADDED = "chapter added"
    CHAPTER_DROPPED = "chapter dropped"
    NEW = "new"
    """Cards that an earlier chapter gains, told by chapter."""


@dataclass(frozen=True, slots=True)
class CardChanges:
    """What a new edition means for the cards of a deck."""

    kept: int
    new: int
    changed: int
    """Positions whose move is another one now; counted neither as new nor as withdrawn."""
    withdrawn: int


@dataclass(frozen=True, slots=True)
class Change:
    """One line of an account."""

    what: What
    kind: str
    """`move`, `idea`, `tactic` or `chapter`."""
    chapter: str
    """The id of the (first) chapter in which it has its place."""
    line: str = ""
    """Of a move the movetext that leads to its position."""
    title: str = ""
    """Of a move and a tactic its game's, of an idea the question, of a chapter its own."""
    old: str = ""
    """The move, the solution or the answer that is no longer asked for."""
    new: str = ""
    """The one that is asked for now."""
    remembered: bool = False
    """The card that goes was answered; of one that comes: its history comes back."""
    returned: bool = False
    """Of a changed card: what is asked for now was answered before."""
    cards: int = 1
    """How many cards it is about: of a chapter those that were never answered."""


@dataclass(frozen=True)
class EditionAccount:
    """All that a new edition changes."""

    deck: str
    title: str
    before: int | None
    """The edition that was here; None where there was none."""
    edition: int
    cards: CardChanges
    changes: tuple[Change, ...]
    at_stake: frozenset[str]
    """Answered cards that this deck would no longer ask."""


def account_of(
    old: Contents | None, new: Contents, answered: Collection[str] = frozenset()
) -> EditionAccount:
    """What the new contents of a deck change.

    :param old: None for a deck that was not here.
    :param answered: the cards that have a history.
    """
    before = {card.card: card for card in old.cards} if old else {}
    after = {card.card: card for card in new.cards}
    dropped = [card for card in before.values() if card.card not in after]
    added = [card for card in after.values() if card.card not in before]
    pairs = paired(dropped, added)
    changed = {card.card for pair in pairs for card in pair}
    withdrawn = [card for card in dropped if card.card not in changed]
    come = [card for card in added if card.card not in changed]
    changes = [
        *_remembered_first(_changed(one, other, answered) for one, other in pairs),
        *_remembered_first(_gone(card, answered) for card in withdrawn),
        *(_asleep(old, new) if old else ()),
        *(_back(card) for card in come if card.card in answered),
        *_other_answers(before, after, answered),
        *(_chapters(old, new, [c for c in come if c.card not in answered]) if old else ()),
    ]
    return EditionAccount(
        deck=new.deck,
        title=new.title,
        before=old.edition if old else None,
        edition=new.edition,
        cards=CardChanges(
            kept=len(before.keys() & after),
            new=len(come),
            changed=len(pairs),
            withdrawn=len(withdrawn),
        ),
        changes=tuple(changes),
        at_stake=frozenset(card.card for card in dropped if card.card in answered),
    )


def _remembered_first(changes: Iterable[Change]) -> list[Change]:
    return sorted(changes, key=lambda change: not change.remembered)


def _changed(old: DeckCard, new: DeckCard, answered: Collection[str]) -> Change:
    return _about(
        What.CHANGED,
        new,
        old=answer_of(old.source),
        new=answer_of(new.source),
        remembered=old.card in answered,
        returned=new.card in answered,
    )


def _gone(card: DeckCard, answered: Collection[str]) -> Change:
    answer = answer_of(card.source)
    return _about(What.WITHDRAWN, card, old=answer, remembered=card.card in answered)


def _back(card: DeckCard) -> Change:
    return _about(What.RETURNED, card, new=answer_of(card.source), remembered=True)


def _other_answers(
    before: Mapping[str, DeckCard], after: Mapping[str, DeckCard], answered: Collection[str]
) -> Iterator[Change]:
    for key, card in after.items():
        if key in before and kind_of(card.source) == "idea":
            old, new = answer_of(before[key].source), answer_of(card.source)
            if old != new:
                remembered = key in answered
                yield _about(What.OTHER_ANSWER, card, old=old, new=new, remembered=remembered)


def _about(
    what: What,
    card: DeckCard,
    *,
    old: str = "",
    new: str = "",
    remembered: bool = False,
    returned: bool = False,
) -> Change:
    return Change(
        what=what,
        kind=kind_of(card.source),
        chapter=card.chapters[0],
        line=line_of(card.source),
        title=title_of(card.source),
        old=old,
        new=new,
        remembered=remembered,
        returned=returned,
    )


def _asleep(old: Contents, new: Contents) -> Iterator[Change]:
    """Preferences that held in the old edition and do not in the new one."""
    for side, preferred in new.preferred.items():
        graph = new.graphs.get(side)
        before = old.graphs.get(side)
        if before is None:
            continue
        slept = asleep(before, preferred)
        for key in asleep(graph, preferred) if graph else preferred:
            if key in slept:
                continue
            was = before.positions[key]
            kept = was.move(preferred[key])
            here = graph.get(key) if graph else None
            now = here.deck_move if here else None
            yield Change(
                what=What.PREFERENCE_SLEEPS,
                kind="move",
                chapter=was.places[0].chapter,
                line=was.places[0].line,
                title=was.places[0].title,
                old=kept.san if kept else "",
                new=now.san if now else "",
            )


def _chapters(old: Contents, new: Contents, come: Iterable[DeckCard]) -> Iterator[Change]:
    gains: dict[str, int] = {}
    for card in come:
        gains[card.chapters[0]] = gains.get(card.chapters[0], 0) + 1
    before = {chapter.id for chapter in old.chapters}
    after = {chapter.id for chapter in new.chapters}
    for chapter in old.chapters:
        if chapter.id not in after:
            yield Change(What.CHAPTER_DROPPED, "chapter", chapter.id, title=chapter.title, cards=0)
    for chapter in new.chapters:
        count = gains.get(chapter.id, 0)
        if chapter.id not in before or count:
            what = What.NEW if chapter.id in before else What.CHAPTER_ADDED
            yield Change(what, "chapter", chapter.id, title=chapter.title, cards=count)
