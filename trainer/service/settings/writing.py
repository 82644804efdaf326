"""A changed setting into `settings.toml`: what else stands there stays as it is.

Only here is `tomlkit` loaded. What may be written is for `kinds` and the faces to judge.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from trainer.service.settings.declared import BY_NAME, KEYS
from trainer.service.settings.editing import CannotEdit, with_value, without_value
from trainer.service.settings.file_text import (
    BOM,
    SettingsFileError,
    load_text,
    parse,
    replace_text,
)
from trainer.service.settings.kinds import as_toml
from trainer.service.settings.places import Place

HEADING = "# Settings of the opening line trainer. What does not stand here has its default.\n\n"


def write_value(path: Path, place: Place, value: Any | None) -> None:
    """Set one value in the file as it stands now, or take it out; a missing file is made.

    :param place: `("motion",)`, `("schedule", "part_credit")`, `("keys", "sitting.hint")`.
    :param value: a setting's value; None takes it out, so that the default holds.
    :raises SettingsFileError: the file is no TOML, or is written in a way that cannot be
        changed, or cannot be written. It is as it was.
    """
    try:
        text = load_text(path)
    except FileNotFoundError:
        text = "" if value is None else HEADING
    values = parse(path, text)
    mark = BOM if text.startswith(BOM) else ""
    try:
        changed = mark + _edited(text.removeprefix(mark), values, place, value)
    except (CannotEdit, RecursionError) as error:
        what = f"{'.'.join(place)} cannot be changed as it is written there; do it by hand"
        raise SettingsFileError(f"{path}: {what}") from error
    if changed or path.exists():
        replace_text(path, changed)


def _edited(text: str, values: dict[str, Any], place: Place, value: Any | None) -> str:
    comment = BY_NAME[place[-1]].help if place[-1] in BY_NAME else ""
    there = list(_spellings(values, place))
    if value is not None:
        return with_value(text, there[0] if there else place, as_toml(value), comment)
    for spelling in there:
        text = without_value(text, spelling, comment)
    return text


def _spellings(values: dict[str, Any], place: Place) -> Iterator[Place]:
    """The places at which the value stands; ids of keys are written in two ways."""
    table: Any = values
    for part in place[:-1]:
        table = table.get(part) if isinstance(table, dict) else None
    if not isinstance(table, dict):
        return
    first, _, rest = place[-1].partition(".")
    below = table.get(first)
    for name in table:
        if name == place[-1]:
            yield place
        elif name == first and place[0] == KEYS and isinstance(below, dict) and rest in below:
            yield (*place[:-1], first, rest)
