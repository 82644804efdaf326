"""What a new edition changes, in sentences: one a change, as many as can be taken in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.service.decks.editions import Change, EditionAccount

MOST = 12
"""So many changes are told one by one."""

LONGEST = 60
"""Signs of a title or an answer that are shown."""


def summary(account: EditionAccount) -> str:
    """One sentence: the deck, its edition and how its cards fare."""
    cards = account.cards
    told = [f"{cards.new} new", f"{cards.kept} kept"]
    if cards.changed:
        told.append(f"{cards.changed} with another answer")
    if cards.withdrawn:
        kept = " (what is remembered of them stays)" if account.at_stake else ""
        told.append(f"{cards.withdrawn} withdrawn{kept}")
    return f"{account.title} ({account.deck}), edition {account.edition}: cards: {', '.join(told)}."


def account_lines(account: EditionAccount, most: int = MOST) -> Iterator[str]:
    """What changed, the weightiest first; what does not fit is counted."""
    for change in account.changes[:most]:
        yield f"  {_sentence(change)}"
    if (more := len(account.changes) - most) > 0:
        yield f"  and {more} more (all with --json)."


def changes_as_data(account: EditionAccount) -> list[dict[str, Any]]:
    """All changes as plain data for JSON."""
    return [asdict(change) for change in account.changes]


def _sentence(change: Change) -> str:
    what = change.what.value
    if change.kind == "chapter":
        return _CHAPTERS[what].format(
            title=_short(change.title), cards=counted(change.cards, "new card")
        )
    words = _CARDS[what].format(old=_short(change.old), new=_short(change.new) or "nothing")
    return f"{_where(change)}: {words}{_memory(change)}."


_CHAPTERS = {
    "chapter added": "Chapter “{title}” is new: {cards}.",
    "chapter dropped": "Chapter “{title}” is gone.",
    "new": "Chapter “{title}”: {cards}.",
}
_CARDS = {
    "changed": "{new} in place of {old}",
    "withdrawn": "{old} is withdrawn",
    "preference sleeps": "{old}, which you keep, is not right here now; {new} is asked",
    "returned": "{new} comes back with what you remember",
    "other answer": "{new} is right now in place of {old}",
}


def _memory(change: Change) -> str:
    """What becomes of what is remembered."""
    what = change.what.value
    if what == "changed":
        now = "comes back with what you remember" if change.returned else "asked afresh"
        return f"; {now}" + (f", {_short(change.old)} is remembered" if change.remembered else "")
    if what == "withdrawn" and change.remembered:
        return ", and remembered"
    return ""


def _where(change: Change) -> str:
    """The line, the title or the question by which a reader knows it."""
    if change.kind == "move":
        return change.line or (f"Start of “{_short(change.title)}”" if change.title else "Start")
    name = "Idea" if change.kind == "idea" else "Tactic"
    return f"{name} “{_short(change.title)}”"


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"
