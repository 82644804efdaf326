"""The settings as the file has them; what is not understood is named with its line.

Nothing is rewritten here. A value that cannot be used leaves the default in force.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from trainer.service.settings.declared import BY_NAME, KEYS, TABLES, Settings
from trainer.service.settings.file_text import BOM, SettingsFileError, load_text, parse
from trainer.service.settings.kinds import as_toml, shown

if TYPE_CHECKING:
    from trainer.service.settings.places import Place

KEY_WANTED = 'a key such as "ctrl+t", or several with commas between'


@dataclass(frozen=True, slots=True)
class ReadSettings:
    """The settings, and a sentence for each thing in the file that was not understood."""

    path: Path
    settings: Settings = field(default_factory=Settings)
    problems: tuple[str, ...] = ()
    lines: Mapping[Place, int] = field(default_factory=dict)
    """Where each key stands, for a face that knows more of a value than is known here."""

    def line(self, *place: str) -> int | None:
        """The line of a key, else of the nearest table round it."""
        depths = range(len(place), 0, -1)
        return next((at for depth in depths if (at := self.lines.get(place[:depth]))), None)

    def where(self, *place: str) -> str:
        """`settings.toml, line 3`, with the file's whole path."""
        line = self.line(*place)
        return f"{self.path}, line {line}" if line else str(self.path)


def read_settings(path: Path) -> ReadSettings:
    """Read the file; where there is none, or it cannot be read, the defaults hold."""
    try:
        text = load_text(path)
        values = parse(path, text)
    except FileNotFoundError:
        return ReadSettings(path)
    except SettingsFileError as error:
        return ReadSettings(path, problems=(f"{error}; the defaults hold for this run",))
    from trainer.service.settings.places import lines_of_places

    lines = {
        _plain(place): at for place, at in lines_of_places(text.removeprefix(BOM), values).items()
    }
    return _Reading(ReadSettings(path, lines=lines)).read(values)


class _Reading:
    """One pass over the values of a file, gathering what is good and what is not."""

    def __init__(self, empty: ReadSettings) -> None:
        self._empty = empty
        self._chosen: dict[str, Any] = {}
        self._problems: list[tuple[int, str]] = []

    def read(self, values: Mapping[str, Any]) -> ReadSettings:
        """The settings, the problems in the order of the file's lines."""
        for name, value in values.items():
            if name in TABLES or name == KEYS:
                self._table(name, value)
            else:
                self._value((name,), value)
        chosen = replace(Settings(), **self._chosen)
        problems = tuple(problem for _, problem in sorted(self._problems, key=lambda it: it[0]))
        return replace(self._empty, settings=chosen, problems=problems)

    def _table(self, name: str, value: object) -> None:
        if not isinstance(value, dict):
            self._cannot_be_used((name,), value, f"a table [{name}]", "its defaults hold")
        elif name == KEYS:
            self._keys(value)
        else:
            for key, below in value.items():
                self._value((name, key), below)

    def _value(self, place: Place, value: object) -> None:
        setting = BY_NAME.get(place[-1])
        if setting is None or setting.place != place:
            self._complain(place, f"{named(place)} is no setting{_nearest(place)}")
        elif (good := setting.kind.read(value)) is None:
            default = shown(as_toml(setting.default))
            self._cannot_be_used(place, value, setting.kind.wanted, f"{default} holds")
        else:
            self._chosen[setting.name] = good

    def _keys(self, table: Mapping[str, Any]) -> None:
        chosen: dict[str, str] = {}
        for name, value in _entries(table):
            if name in chosen:
                self._complain(
                    (KEYS, name), f"{named((name,))} is given twice; the first one holds"
                )
            elif isinstance(value, str):
                chosen[name] = value
            else:
                self._cannot_be_used((KEYS, name), value, KEY_WANTED, "its own key holds")
        self._chosen[KEYS] = chosen

    def _cannot_be_used(self, place: Place, value: object, wanted: str, instead: str) -> None:
        name = named(place[1:] if place[0] == KEYS and len(place) > 1 else place)
        said = f"{name} = {shown(value)} cannot be used (wanted: {wanted})"
        self._complain(place, f"{said}; {instead} for this run")

    def _complain(self, place: Place, what: str) -> None:
        where = self._empty.where(*place)
        self._problems.append((self._empty.line(*place) or 0, f"{where}: {what}"))


def named(place: Place) -> str:
    """`schedule.part_credit`; a name that is not plain is quoted and shortened."""
    dotted = ".".join(place)
    return dotted if re.fullmatch(r"[A-Za-z0-9_.-]{1,60}", dotted) else shown(dotted)


def _nearest(place: Place) -> str:
    """The setting that was meant, if one is near, and where it has to stand."""
    from difflib import get_close_matches

    near = get_close_matches(place[-1][:60], [*BY_NAME, *TABLES, KEYS], n=1)
    if not near:
        return ""
    setting = BY_NAME.get(near[0])
    if setting is None:
        return f" (did you mean [{near[0]}]?)"
    if setting.place[:-1] == place[:-1]:
        return f" (did you mean {setting.name}?)"
    where = f"in [{setting.table}]" if setting.table else "above the first [table]"
    return f" (did you mean {setting.name}, {where}?)"


def _entries(table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Ids are dotted: `"sitting.hint" = ...`, `sitting.hint = ...` and `[keys.sitting]` alike."""
    for name, value in table.items():
        if isinstance(value, dict):
            yield from ((f"{name}.{rest}", below) for rest, below in value.items())
        else:
            yield name, value


def _plain(place: Place) -> Place:
    """The place of a key as this module speaks of it."""
    return (KEYS, ".".join(place[1:])) if place[0] == KEYS and len(place) > 1 else place
