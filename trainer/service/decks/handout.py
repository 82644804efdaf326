"""A deck, or one chapter of it, as a page to print or as plain text."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from trainer.deck.deck import Deck
from trainer.deck.handout.as_html import page
from trainer.deck.handout.as_text import text
from trainer.deck.handout.compose import handout_of
from trainer.errors import TrainerError
from trainer.service.decks.named import on_shelf, read_at, read_kept
from trainer.service.study import Study
from trainer.service.whole_file import write_whole


@dataclass(frozen=True, slots=True)
class PrintedDeck:
    """A handout, written out."""

    deck: str
    title: str
    edition: int
    chapters: int
    diagrams: int
    text: str
    """The whole of it."""


def print_deck(
    study: Study, name: str, *, side: str | None, chapter: str | None, as_text: bool
) -> PrintedDeck:
    """The handout of a deck.

    :param name: its id, or a path.
    :param side: `white` or `black`; needed for the path of a PGN file, and for that alone.
    :param chapter: the id of the one chapter to print; all of them without it.
    :raises TrainerError: there is no such deck or chapter, or the deck has errors.
    """
    entry = on_shelf(study, name)
    deck = read_kept(study, entry) if entry else read_at(Path(name), side)[0]
    chapters = [one.id for one in deck.chapters if chapter in (None, one.id)]
    if not chapters:
        raise TrainerError(_no_chapter(deck, chapter or ""))
    handout = handout_of(deck, chapter)
    written = text(handout) if as_text else page(handout)
    return PrintedDeck(
        deck.id, deck.title, deck.edition, len(chapters), len(handout.diagrams), written
    )


PRINTED = (".html", ".htm", ".txt")
"""Files of these names are taken for handouts, and replaced."""


def write_handout(printed: PrintedDeck, target: Path, over_others: bool = False) -> None:
    """Put a handout into a file, in the place of an earlier one.

    :param over_others: whether a file that is none by its name may be replaced.
    :raises TrainerError: it cannot be written, or another file is there.
    """
    try:
        if target.exists() and not target.is_file():
            raise TrainerError(f"{target}: is no plain file; name another with --to")
        if target.exists() and target.suffix.lower() not in PRINTED and not over_others:
            raise TrainerError(
                f"{target}: is there already and looks like no handout; name another with --to, "
                "or replace it with --yes"
            )
        write_whole(target, printed.text.encode())
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise TrainerError(f"{target}: cannot be written ({why}); name another") from error


def _no_chapter(deck: Deck, chapter: str) -> str:
    names = ", ".join(one.id for one in deck.chapters)
    return f"the deck {deck.id!r} has no chapter {chapter!r}; its chapters are: {names}"
