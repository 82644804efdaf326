"""A throwaway home with a made-up club, so that a stranger has something to practise.

The student's history is invented from the numbers in `demo/club.toml` and is always the
same, counted back from today. Nothing touches the user's own home.
"""

from __future__ import annotations

import hashlib
import tempfile
import tomllib
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path

from trainer.memory.card_state import FRESH, RULE_VERSION, Answer, CardState, advance
from trainer.memory.plan import choose_fresh, plan_day
from trainer.memory.sm2 import REPEATED_BELOW
from trainer.service.clock import utc_text
from trainer.service.decks.shelving import add_deck
from trainer.service.shipped import shipped
from trainer.service.study import Study, open_study
from trainer.sitting.verdict import Verdict
from trainer.store.answers import NewAnswer, record_all
from trainer.store.decks import StoredCard, StoredDeck, read_cards, read_decks


@dataclass(frozen=True, slots=True)
class Club:
    """What `demo/club.toml` says."""

    deck: str
    """The id of the shipped deck that the student practises."""
    seed: int
    days: int
    fresh_per_day: int
    absent: frozenset[int]
    """Days, counted back from today, without practice."""
    evening: time


@contextmanager
def open_demo() -> Iterator[Study]:
    """A study in a throwaway home, which is removed afterwards."""
    club = _read_club()
    with (
        tempfile.TemporaryDirectory(prefix="trainer-demo-") as folder,
        open_study(Path(folder)) as study,
    ):
        add_deck(study, shipped("decks", club.deck))
        record_all(study.db, list(_invent(study, club)))
        yield study


def _read_club() -> Club:
    table = tomllib.loads(shipped("demo", "club.toml").read_text(encoding="utf-8"))
    return Club(
        deck=table["deck"],
        seed=table["seed"],
        days=table["days"],
        fresh_per_day=table["fresh_per_day"],
        absent=frozenset(table["absent"]),
        evening=time.fromisoformat(table["evening"]),
    )


def _invent(study: Study, club: Club) -> Iterator[NewAnswer]:
    """Day by day what the student might have answered, by the product's own schedule."""
    deck = read_decks(study.db)[0]
    cards = {card.card: card for card in read_cards(study.db, deck.id)}
    states: dict[str, CardState] = {}
    for ago in range(club.days, 0, -1):
        if ago in club.absent:
            continue
        day = study.today - timedelta(days=ago)
        open_cards = [(card, states.get(card.card, FRESH)) for card in _open(deck, cards.values())]
        plan = plan_day(
            ((card.card, state) for card, state in open_cards),
            day,
            _fresh(deck, open_cards, club.fresh_per_day),
        )
        instant = datetime.combine(day, club.evening, study.clock.now().tzinfo)
        for card in plan.cards:
            state = states.get(card, FRESH)
            for answer in _answers(_luck(f"{club.seed}/{card}/{ago}"), state, day):
                instant += timedelta(seconds=20)
                states[card] = advance(states.get(card, FRESH), answer)
                yield _logged(deck, cards[card], answer, utc_text(instant))


def _open(deck: StoredDeck, cards: Iterable[StoredCard]) -> Iterator[StoredCard]:
    """Cards of the chapters that open without another."""
    free = {chapter.id for chapter in deck.chapters if chapter.after is None}
    return (card for card in cards if free.intersection(card.chapters))


def _fresh(
    deck: StoredDeck, cards: Iterable[tuple[StoredCard, CardState]], limit: int
) -> frozenset[str]:
    kinds = {chapter.id: chapter.kind for chapter in deck.chapters}
    groups: dict[str, list[str]] = {}
    for card, state in cards:
        if state.fresh:
            groups.setdefault(kinds[card.chapters[0]], []).append(card.card)
    return choose_fresh(list(groups.values()), limit)


def _luck(text: str) -> float:
    """A number from 0 to 1 that looks like chance and is always the same for a text."""
    return int.from_bytes(hashlib.sha256(text.encode()).digest()[:4], "big") / 2**32


def _answers(luck: float, state: CardState, day: date) -> Iterator[Answer]:
    """One answer, and the repeat that it owes: mostly right, more shakily while young."""
    shaky = 0.30 if state.schedule.repetition < 2 else 0.12
    quality = 2 if luck < shaky / 2 else 3 if luck < shaky else 4 if luck < shaky + 0.2 else 5
    yield Answer(day, quality, repeat=False, part_credit=True)
    if quality < REPEATED_BELOW:
        yield Answer(day, 4, repeat=True, part_credit=True)


def _logged(deck: StoredDeck, card: StoredCard, answer: Answer, asked_at: str) -> NewAnswer:
    missed = [("an invented try", Verdict.OUT_OF_BOOK.value)] if answer.quality == 2 else []
    return NewAnswer(
        card=card.card,
        asked_at=asked_at,
        schedule=answer,
        seconds=4.0 if answer.quality == 5 else 12.0,
        looked=0.0,
        tries=missed,
        hint=answer.quality == 3,
        shown=False,
        source="day",
        deck=deck.id,
        chapter=card.chapters[0],
        edition=deck.edition,
        rules=RULE_VERSION,
    )
