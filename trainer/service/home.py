"""Where the student's data live: the home folder and what is in it."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from trainer.errors import TrainerError


@dataclass(frozen=True, slots=True)
class Home:
    """The folder with the data file, the settings and the decks."""

    folder: Path

    @property
    def data_file(self) -> Path:
        """The SQLite file with the answer log."""
        return self.folder / "trainer.db"

    @property
    def settings_file(self) -> Path:
        """What the student may edit by hand; it need not exist."""
        return self.folder / "settings.toml"

    @property
    def introduced_file(self) -> Path:
        """Stands there once the introduction was shown."""
        return self.folder / "introduced.txt"

    @property
    def decks(self) -> Path:
        """The files of the added decks, one folder a deck and edition."""
        return self.folder / "decks"


def find_home(folder: Path | None = None) -> Home:
    """The named folder, else `TRAINER_HOME`, else the user's data folder. Makes nothing.

    :raises TrainerError: the folder is given as that of a user who is not there.
    """
    if folder is None and (named := os.environ.get("TRAINER_HOME")):
        folder = Path(named)
    if folder is None:
        import platformdirs

        folder = platformdirs.user_data_path("opening-line-trainer", appauthor=False)
    try:
        return Home(folder.expanduser().absolute())
    except RuntimeError as error:
        raise TrainerError(f"{folder}: no such home folder ({error}); name another") from error
