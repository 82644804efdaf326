"""The deck that a coach begins with: the example files beside this module, under an id of
its own.
"""

from __future__ import annotations

from pathlib import Path

from trainer.deck.manifest import MANIFEST

_ID = 'id = "first-deck"            #'
"""As the example's manifest has it, with the blanks before its comment."""


def starting_files(deck_id: str) -> dict[str, bytes]:
    """The files of a small deck with a chapter of each kind, by name, the manifest last."""
    here = Path(__file__).parent
    names = sorted(path.name for path in here.iterdir() if path.suffix in (".pgn", ".toml"))
    files = {name: (here / name).read_bytes() for name in names}
    manifest = files.pop(MANIFEST).decode("utf-8")
    own = f'id = "{deck_id}"'.ljust(len(_ID) - 2)
    return files | {MANIFEST: manifest.replace(_ID, f"{own} #", 1).encode()}
