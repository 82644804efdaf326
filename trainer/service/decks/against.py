"""What a deck that is still being written changes, told to its coach beforehand.

Nothing personal is in such an account: no answers, no preferences.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from trainer.deck.source import is_single
from trainer.errors import TrainerError
from trainer.service.decks.cards import Contents
from trainer.service.decks.contents import contents_of, shelved_contents
from trainer.service.decks.editions import EditionAccount, account_of
from trainer.service.decks.named import read_at
from trainer.service.opening import read_shelf
from trainer.service.study import Study


def contents_at(path: Path, side: str | None) -> Contents:
    """Of the deck at a path; a PGN file has no id, so its deck is left empty.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :raises DeckUnreadable: it has errors.
    """
    contents = contents_of(*read_at(path, side))
    return replace(contents, deck="") if is_single(path) else contents


def contents_here(study: Study, deck_id: str) -> Contents:
    """Of an added deck, as it was issued.

    :raises TrainerError: there is no such deck.
    """
    read_shelf(study).find(deck_id)  # says which decks there are
    found = shelved_contents(study, deck_id)
    if found is None:
        raise TrainerError(f"the deck {deck_id!r} was just taken off the shelf")
    return replace(found, preferred={})


def account_against(old: Contents, new: Contents) -> EditionAccount:
    """What the new contents change for those who have the old ones.

    :raises TrainerError: they are not editions of one deck.
    """
    if old.deck and new.deck and old.deck != new.deck:
        raise TrainerError(
            f"{old.deck!r} and {new.deck!r} are two decks: name another edition of {new.deck!r}"
        )
    return account_of(old, new)
