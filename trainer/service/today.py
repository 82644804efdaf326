"""What the day brings: what is due, what is fresh, and what the next two weeks hold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.memory.card_state import CardState
from trainer.memory.plan import choose_fresh, plan_day
from trainer.service.coming import ComingChapter, all_coming, to_come
from trainer.service.opening import OpenCard, OpenDeck, Shelf, read_shelf
from trainer.service.study import Study

DAYS_AHEAD = 14

SEEN_SECONDS, FRESH_SECONDS = 7.0, 33.0
"""What a card takes that was asked before, and a fresh one with its first look."""


@dataclass(frozen=True, slots=True)
class DeckToday:
    """One deck, open chapters only."""

    id: str
    title: str
    edition: int
    cards: int
    due: int
    fresh: int
    """Never asked."""
    known: int
    """The latest answer that the schedule took account of had quality 3 or more."""
    to_practise: int
    """Cards that the day's sitting asks in this deck's name, repeats included."""

    @property
    def sentence(self) -> str:
        """`Vienna: 7 today, 61 of 74 hold`: how both faces speak of a deck."""
        return f"{self.title}: {self.to_practise} today, {self.known} of {self.cards} hold"


@dataclass(frozen=True, slots=True)
class DayAhead:
    """How many cards fall due on a day, as things stand."""

    date: date
    due: int


@dataclass(frozen=True, slots=True)
class Today:
    """The whole day; a card that decks share counts once at the top."""

    date: date
    due: int
    fresh_today: int
    """Fresh cards that the day's sitting would still introduce."""
    repeats: int
    """Same-day repeats still owed."""
    decks: tuple[DeckToday, ...]
    days_ahead: tuple[DayAhead, ...]
    """Today first, with all that is overdue."""
    coming: tuple[ComingChapter, ...]
    """The chapters that are closed still."""

    @property
    def to_practise(self) -> int:
        """How many cards the day's sitting would ask."""
        return self.due + self.fresh_today + self.repeats

    @property
    def seconds(self) -> float:
        """How long the day's sitting takes, roughly."""
        seen = self.due + self.repeats
        return seen * SEEN_SECONDS + self.fresh_today * FRESH_SECONDS

    def to_come(self, deck_id: str) -> str:
        """What a deck holds back still, as a clause; empty where all of it is open."""
        return to_come([chapter for chapter in self.coming if chapter.deck == deck_id])


def fresh_left(study: Study, shelf: Shelf) -> int:
    """How many fresh cards the day still allows."""
    introduced = sum(1 for state in shelf.states.values() if state.first_day == study.today)
    return max(0, study.settings.fresh_per_day - introduced)


def fresh_of(cards: Iterable[OpenCard], limit: int) -> frozenset[str]:
    """Which fresh cards come, lines, ideas and tactics each by their part.

    :param cards: in the order of asking.
    """
    groups: dict[str, list[str]] = {}
    for card in cards:
        if card.state.fresh:
            groups.setdefault(card.kind, []).append(card.card)
    return choose_fresh(list(groups.values()), limit)


def report_today(study: Study) -> Today:
    """The day as it stands now."""
    shelf = read_shelf(study)
    today = study.today
    open_cards = shelf.each_card_once()
    cards = {card.card: (deck, card.state) for deck, card in open_cards}
    fresh = fresh_of((card for _, card in open_cards), fresh_left(study, shelf))
    plan = plan_day(((key, state) for key, (_, state) in cards.items()), today, fresh)
    asked = Counter(cards[key][0] for key in (*plan.repeats, *plan.cards))
    return Today(
        date=today,
        due=sum(1 for key in plan.cards if not cards[key][1].fresh),
        fresh_today=sum(1 for key in plan.cards if cards[key][1].fresh),
        repeats=len(plan.repeats),
        decks=tuple(_deck_today(entry, today, asked[entry.deck.id]) for entry in shelf.decks),
        days_ahead=tuple(_ahead([state for _, state in cards.values()], today)),
        coming=all_coming(shelf, today),
    )


def _deck_today(entry: OpenDeck, today: date, to_practise: int) -> DeckToday:
    states = [card.state for card in entry.cards]
    return DeckToday(
        id=entry.deck.id,
        title=entry.deck.title,
        edition=entry.deck.edition,
        cards=len(states),
        due=sum(1 for state in states if state.is_due(today)),
        fresh=sum(1 for state in states if state.fresh),
        known=sum(1 for state in states if state.known),
        to_practise=to_practise,
    )


def _ahead(states: Iterable[CardState], today: date) -> Iterable[DayAhead]:
    due_days = [max(state.due, today) for state in states if state.due is not None]
    for offset in range(DAYS_AHEAD):
        day = today + timedelta(days=offset)
        yield DayAhead(day, due_days.count(day))
