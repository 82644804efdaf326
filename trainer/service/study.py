"""The student's study: the opened home with its clock, settings and data file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlite_utils import Database

from trainer.memory.day import local_day
from trainer.service.clock import Clock, read_clock, utc_text
from trainer.service.home import Home, find_home
from trainer.service.settings import Settings, read_settings
from trainer.store.database import damage_told, open_database


@dataclass(frozen=True, slots=True)
class Study:
    """Everything that a use case needs to know of the student. Of one thread only."""

    home: Home
    clock: Clock
    settings: Settings
    problems: tuple[str, ...]
    """Sentences about settings that were not understood."""
    db: Database

    @property
    def today(self) -> date:
        """The local day; it begins at the hour the student set."""
        return local_day(self.clock.now(), self.settings.day_starts)

    def instant(self) -> str:
        """The present instant as it is stored."""
        return utc_text(self.clock.now())


@contextmanager
def open_study(folder: Path | None = None) -> Iterator[Study]:
    """Open the home in this folder (else the usual one) and close it again.

    :raises TrainerError: the data file cannot be used or turns out to be damaged, or
        `TRAINER_NOW` cannot be read.
    """
    home = find_home(folder)
    clock = read_clock()
    read = read_settings(home.settings_file)
    db = open_database(home.data_file)
    try:
        with damage_told(home.data_file):
            yield Study(home, clock, read.settings, read.problems, db)
    finally:
        db.close()
