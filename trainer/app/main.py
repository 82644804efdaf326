"""Starting the terminal program. It knows no command line."""

from __future__ import annotations

from pathlib import Path

from trainer.app.app import TrainerApp
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import open_study


def run_app(home: Path | None, wish: Wish | None = None) -> int:
    """Run the program until it is left.

    :param wish: a sitting to open at once; the program goes on at Today after it.
    :return: the exit code: 0, or 1 after a crash whose traceback was printed.
    :raises TrainerError: the home cannot be opened, or the wish cannot be met.
    """
    with open_study(home) as study:
        app = TrainerApp(study, prepare_practice(study, wish) if wish else None)
        app.run()
        return app.return_code or 0
