"""What is wrong with a file, and where: findings, and the list that gathers those of one file.

The wording of each finding belongs to the module that makes it; how findings are shown
belongs to the faces.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import NoReturn

from trainer.deck.limits import FINDINGS


class Severity(StrEnum):
    """How much a finding matters; an error alone keeps a deck out."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with a file of a deck."""

    code: str
    """Stable, lower case, with hyphens."""
    severity: Severity
    file: str
    """The file's name inside the deck."""
    game: int | None
    """The place of the game in its file, from 1; None where it is no game's."""
    line: int | None
    """From 1; None where no line can be named."""
    column: int | None
    """From 1; None where no column can be named."""
    message: str
    """One sentence: what is wrong and what to do."""


class StopReading(Exception):
    """The file is refused anyhow and has cost enough: what was found so far is the result."""


class FindingList:
    """The findings of one file, in the order in which they were met.

    Every method that adds one takes its code, its message and, where known, line and column.
    """

    def __init__(self, file: str) -> None:
        self.game: int | None = None
        """The game that findings belong to from now on."""
        self.file = file
        """The file's name inside the deck."""
        self._listed: list[Finding] = []
        self._room = dict.fromkeys(Severity, FINDINGS)
        self._not_listed = 0
        self._stopped = False

    def error(self, code: str, message: str, *place: int | None) -> None:
        """Add an error.

        :raises StopReading: it was the last one that the list takes.
        """
        self._add(Severity.ERROR, code, message, *place)
        if not self._room[Severity.ERROR]:
            self._stopped = True
            raise StopReading

    def warn(self, code: str, message: str, *place: int | None) -> None:
        """Add a warning."""
        self._add(Severity.WARNING, code, message, *place)

    def note(self, code: str, message: str, *place: int | None) -> None:
        """Add a note."""
        self._add(Severity.NOTE, code, message, *place)

    def refuse(self, message: str, *place: int | None) -> NoReturn:
        """Add the error that the file costs too much to be read on.

        :raises StopReading: always.
        """
        self.error("too-large", message, *place)
        raise StopReading

    def finished(self) -> list[Finding]:
        """All of them; where some are not listed, a last one says so."""
        if self._stopped:
            message = f"the file was not read on after {FINDINGS} errors; mend these first"
            return [*self._listed, self._last(Severity.ERROR, message)]
        if self._not_listed:
            message = f"{self._not_listed} more warnings and notes are not listed; mend these first"
            return [*self._listed, self._last(Severity.WARNING, message)]
        return self._listed

    def _add(
        self,
        severity: Severity,
        code: str,
        message: str,
        line: int | None = None,
        column: int | None = None,
    ) -> None:
        if self._room[severity] > 0:
            self._room[severity] -= 1
            found = Finding(code, severity, self.file, self.game, line, column, message)
            self._listed.append(found)
        else:
            self._not_listed += 1

    def _last(self, severity: Severity, message: str) -> Finding:
        return Finding("too-many-findings", severity, self.file, None, None, None, message)


def has_error(findings: Iterable[Finding]) -> bool:
    """Whether these keep a deck out."""
    return any(finding.severity is Severity.ERROR for finding in findings)
