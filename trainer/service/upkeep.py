"""Looking after the data: is it sound, does the log still give the states, what is in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import chess

from trainer.lines.graph import split_card_key
from trainer.memory.card_state import FRESH
from trainer.service.study import Study
from trainer.store.answers import (
    read_log,
    read_states,
    read_withdrawals,
    rebuild_states,
    replayed_states,
    stored_states,
)
from trainer.store.database import damage
from trainer.store.decks import decks_of_cards


@dataclass(frozen=True, slots=True)
class Verification:
    """What `verify` found."""

    answers: int
    cards: int
    problems: tuple[str, ...]

    @property
    def ok(self) -> bool:
        """Nothing is wrong."""
        return not self.problems


def verify(study: Study) -> Verification:
    """Check the file, its references, and every state against the log replayed.

    A log that cannot be trusted to be read whole is not replayed.
    """
    problems = damage(study.db)
    if problems:
        return Verification(0, 0, tuple(problems))
    wanted, stored = replayed_states(study.db), stored_states(study.db)
    problems += [
        f"the state of {card!r} is not what its answers come to: run `trainer data rebuild`"
        for card in sorted(wanted.keys() | stored)
        if wanted.get(card) != stored.get(card)
    ]
    answers = sum(1 for _ in read_log(study.db))
    return Verification(answers, len(stored), tuple(problems))


def rebuild(study: Study) -> int:
    """Make all states anew from the log; how many were not as they should be."""
    return rebuild_states(study.db)


def export(study: Study) -> dict[str, Any]:
    """Everything remembered, as plain data for JSON."""
    return {
        "format": 1,
        "answers": [_answer(entry.id, entry.answer) for entry in read_log(study.db)],
        "withdrawals": [
            {"id": row.id, "answer": row.answer, "at": row.at} for row in read_withdrawals(study.db)
        ],
        "cards": _cards(study),
    }


def _answer(answer_id: str, answer: Any) -> dict[str, Any]:
    return {
        "id": answer_id,
        "card": answer.card,
        "asked_at": answer.asked_at,
        "day": answer.schedule.day.isoformat(),
        "quality": answer.schedule.quality,
        "seconds": answer.seconds,
        "looked": answer.looked,
        "tries": [{"san": san, "verdict": verdict} for san, verdict in answer.tries],
        "hint": answer.hint,
        "shown": answer.shown,
        "source": answer.source,
        "repeat": answer.schedule.repeat,
        "deck": answer.deck,
        "chapter": answer.chapter,
        "edition": answer.edition,
        "rules": answer.rules,
        "part_credit": answer.schedule.part_credit,
    }


def _cards(study: Study) -> list[dict[str, Any]]:
    states = read_states(study.db)
    decks = decks_of_cards(study.db)
    return [
        _card(card, states.get(card, FRESH), decks.get(card, []))
        for card in dict.fromkeys((*decks, *states))
    ]


def _card(card: str, state: Any, decks: list[str]) -> dict[str, Any]:
    key, uci = split_card_key(card)
    fen = f"{key} 0 1"
    schedule = state.schedule
    return {
        "card": card,
        "fen": fen,
        "move": chess.Board(fen).san(chess.Move.from_uci(uci)),
        "decks": decks,
        "repetition": schedule.repetition,
        "interval": schedule.interval,
        "e_factor": schedule.e_factor / 100,
        "due": state.due.isoformat() if state.due else None,
    }
