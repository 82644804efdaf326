"""The deck that comes with the program, offered to a student who has none."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

from trainer.service.decks.shelving import AddedDeck, add_deck
from trainer.service.shipped import shipped
from trainer.service.study import Study


@dataclass(frozen=True, slots=True)
class FirstDeck:
    """What is said of the deck before it is added."""

    path: Path
    title: str
    about: str


def first_deck() -> FirstDeck:
    """The shipped deck.

    :raises TrainerError: the installation lacks it.
    """
    path = shipped("decks", "vienna")
    table = tomllib.loads((path / "deck.toml").read_text(encoding="utf-8"))
    return FirstDeck(path, table["title"], table.get("about", ""))


def add_first_deck(study: Study) -> AddedDeck:
    """Put the shipped deck on the shelf.

    :raises TrainerError: it is missing, or it cannot be added.
    """
    return add_deck(study, first_deck().path)
