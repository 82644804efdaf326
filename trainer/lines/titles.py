"""What a game of a deck is called, read from its tags."""

from __future__ import annotations

from collections.abc import Mapping


def game_title(tags: Mapping[str, str]) -> str:
    """Opening and variation where the variation is named, else the event, else the opening.

    Decks name their games in `Event`; tables of openings have `Opening` and `Variation`.
    Empty where no tag names the game.
    """
    opening, variation, event = (_said(tags, name) for name in ("Opening", "Variation", "Event"))
    if variation:
        return f"{opening}, {variation}" if opening else variation
    return event or opening


def exercise_title(tags: Mapping[str, str]) -> str:
    """What a tactic or a model game is called: its event, else as any game."""
    return _said(tags, "Event") or game_title(tags)


def _said(tags: Mapping[str, str], name: str) -> str:
    """The value in one line; `?` is the standard's word for unknown."""
    value = " ".join(tags.get(name, "").split())
    return "" if value == "?" else value
