"""Where the decks and the demo's club are that come with the program.

In an installed package they lie inside it; in a checkout they stand at the top level.
"""

from __future__ import annotations

from pathlib import Path

from trainer.errors import TrainerError

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(*parts: str) -> Path:
    """The path of a shipped file or folder, such as `shipped("decks", "vienna")`.

    :raises TrainerError: the installation lacks it.
    """
    for top in (_PACKAGE, _PACKAGE.parent):
        path = top.joinpath(*parts)
        if path.exists():
            return path
    raise TrainerError(f"{'/'.join(parts)} is missing from this installation; install it again")
