"""Playing sittings in tests above the sitting itself."""

from __future__ import annotations

from trainer.service.practice import Practice
from trainer.sitting.events import Ask, Begin, Effect, Ended, GoOn, Graded, MoveTyped, Show


def play_all(
    practice: Practice, seconds: float = 2.0, miss: frozenset[str] = frozenset()
) -> list[Effect]:
    """Answer every prompt with the deck's move; lines in `miss` are missed once first."""
    seen: list[Effect] = []
    effects = practice.send(Begin())
    missed: set[str] = set()
    while True:
        seen += effects
        last = effects[-1]
        if isinstance(last, Ended):
            return seen
        if isinstance(last, Show | Graded):
            effects = practice.send(GoOn(0.0))
        elif isinstance(last, Ask) and last.prompt.card.line in miss - missed:
            missed.add(last.prompt.card.line)
            seen += practice.send(MoveTyped("a3", seconds))
            effects = practice.send(MoveTyped(last.prompt.card.move.san, seconds))
        elif isinstance(last, Ask):
            effects = practice.send(MoveTyped(last.prompt.card.move.san, seconds))
        else:
            raise AssertionError(f"nothing to do after {last}")


def asked_lines(effects: list[Effect]) -> list[str]:
    """The lines of the prompts, in order."""
    return [effect.prompt.card.line for effect in effects if isinstance(effect, Ask)]
