"""The student's study: the opened home with its clock, settings and data file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from trainer.memory.day import local_day
from trainer.service.clock import Clock, read_clock, utc_text
from trainer.service.home import Home, find_home
from trainer.service.settings import ReadSettings, Settings, read_settings
from trainer.store.database import damage_told, open_database


@dataclass(slots=True)
class Study:
    """Everything that a use case needs to know of the student. Of one thread only.

    Nothing in it changes but the settings, and those only through `change`.
    """

    home: Home
    clock: Clock
    file: ReadSettings
    """The settings' file as it was last read."""
    db: Database

    @property
    def settings(self) -> Settings:
        """What holds now; to be asked anew each time it matters."""
        return self.file.settings

    @property
    def problems(self) -> tuple[str, ...]:
        """Sentences about settings that were not understood."""
        return self.file.problems

    def change(self, *place: str, value: Any | None) -> None:
        """Write one setting into the file and let the file, as it stands then, hold at once.

        :param place: where it stands: `Setting.place`, or `keys` and the id of a binding.
        :param value: a good value of the setting; None takes it out, so the default holds.
        :raises SettingsFileError: the file is no TOML or cannot be written; nothing changed.
        """
        from trainer.service.settings.writing import write_value

        write_value(self.home.settings_file, place, value)
        self.read_settings_again()

    def read_settings_again(self) -> None:
        """Let the file hold as it stands now; it may have been edited by hand."""
        self.file = read_settings(self.home.settings_file)

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
            yield Study(home, clock, read, db)
    finally:
        db.close()
