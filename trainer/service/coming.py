"""What comes and when: the chapters that are still closed, and what each waits for.

The rule itself is `opening`'s; here it is told, in facts and in a clause that all faces say
alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from trainer.service.opening import OpenDeck, Shelf
from trainer.service.words import counted, day_name
from trainer.store.decks import StoredChapter


@dataclass(frozen=True, slots=True)
class ComingChapter:
    """A chapter that is not open yet."""

    deck: str
    chapter: str
    title: str
    kind: str
    opens: date | None
    """The day to come before which it stays closed; None where no day is waited for."""
    after: str | None
    """The id of the chapter that has to be answered first; None where none is waited for."""
    left: int
    """How many cards of that chapter still lack a right answer."""
    when: str
    """`opens on Friday 1 January 2027`, `opens once 7 more positions of “The centre” are
    answered right`, or both."""


def coming(entry: OpenDeck, today: date) -> tuple[ComingChapter, ...]:
    """The closed chapters of a deck, in deck order."""
    chapters = {chapter.id: chapter for chapter in entry.deck.chapters}
    return tuple(
        _coming(entry, chapter, chapters, today)
        for chapter in entry.deck.chapters
        if chapter.id not in entry.open_chapters
    )


def all_coming(shelf: Shelf, today: date) -> tuple[ComingChapter, ...]:
    """The closed chapters of all decks."""
    return tuple(chapter for entry in shelf.decks for chapter in coming(entry, today))


def to_come(chapters: Sequence[ComingChapter]) -> str:
    """What of one deck comes first: `“The gambit” opens on Friday 1 January; 2 more later`.

    Empty where nothing is closed.
    """
    if not chapters:
        return ""
    first, *others = chapters
    more = f"; {len(others)} more later" if others else ""
    return f"“{first.title}” {first.when}{more}"


def _coming(
    entry: OpenDeck, chapter: StoredChapter, chapters: dict[str, StoredChapter], today: date
) -> ComingChapter:
    opens = chapter.opens if chapter.opens is not None and chapter.opens > today else None
    left = entry.left.get(chapter.after, 0) if chapter.after else 0
    awaited = chapters.get(chapter.after) if chapter.after and left else None
    return ComingChapter(
        deck=entry.deck.id,
        chapter=chapter.id,
        title=chapter.title,
        kind=chapter.kind,
        opens=opens,
        after=awaited.id if awaited else None,
        left=left,
        when=_when(opens, awaited, left, today),
    )


def _when(opens: date | None, awaited: StoredChapter | None, left: int, today: date) -> str:
    waits = []
    if opens is not None:
        year = f" {opens.year}" if opens.year != today.year else ""
        waits.append(f"on {day_name(opens)}{year}")
    if awaited is not None:
        more = counted(left, f"more {_NOUNS.get(awaited.kind, 'card')}")
        is_ = "is" if left == 1 else "are"
        waits.append(f"once {more} of “{awaited.title}” {is_} answered right")
    return f"opens {' and '.join(waits)}"


_NOUNS = {"lines": "position", "tactics": "tactic", "ideas": "idea"}
