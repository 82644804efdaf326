"""A search under way: what was found for the text in the box, and which of it is shown."""

from __future__ import annotations

from trainer.app.telling.here import Here
from trainer.lines.letters import PieceLetters
from trainer.lines.stretches import Spot
from trainer.service.lines_search import Found, search


class Finder:
    """Leads from one place found to the next, and round."""

    def __init__(self, letters: PieceLetters) -> None:
        """:param letters: the piece letters that moves are read with, beside the English ones."""
        self._letters = letters
        self._found: tuple[Found, ...] = ()
        self._place = -1

    def forget(self) -> None:
        """Another text will be searched for."""
        self._found, self._place = (), -1

    def look(self, here: Here, text: str) -> Spot | None:
        """The first place that fits, or the next one; None where nothing does."""
        self._found = self._found or search(here.report, text, here.spot, self._letters)
        if not self._found:
            return None
        self._place = (self._place + 1) % len(self._found)
        return self._found[self._place].spot

    @property
    def count(self) -> str:
        """`1 of 3`; empty for a single place."""
        many = len(self._found) > 1
        return f"{self._place + 1} of {len(self._found)}" if many else ""

    @property
    def what(self) -> tuple[str, ...]:
        """The title or theme that was found, as a sentence."""
        what = self._found[self._place].what if self._found else ""
        return (f"Found: {what}",) if what else ()
