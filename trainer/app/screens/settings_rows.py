"""What the Settings screen lists, as values: problems of the file, settings, keys. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from itertools import chain
from typing import Any

from trainer.app.key_clashes import Scope, Step
from trainer.app.key_names import key_names
from trainer.app.telling.blocks import Block, Paragraph, Rows
from trainer.service.settings import ReadSettings
from trainer.service.settings.declared import KEYS, SETTINGS, Setting
from trainer.service.settings.kinds import as_toml

PROBLEMS, PLAIN = "In the file", ""

_FIRST = ("app", "today", "sitting", "board", "box")
"""Groups of steps in the order in which they are listed; the others follow by name."""

_MANY = 9
"""So many values are not listed."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One row: something that can be chosen and, unless it is a problem, changed."""

    section: str
    label: str
    value: str
    about: tuple[Block, ...]
    place: tuple[str, ...] = ()
    """Where it stands in the file; empty for a problem."""
    subject: Setting | Step | None = None
    own: bool = False
    """Whether it differs from the default."""
    written: bool = False
    """Whether it stands in the file."""


def problem_entries(file: ReadSettings, problems: Iterable[str]) -> Iterator[Entry]:
    """What was not understood; the path stands at the top of the screen."""
    for problem in problems:
        short = problem.removeprefix(str(file.path)).lstrip(", :")
        yield Entry(PROBLEMS, short, "", (Paragraph(short),))


def setting_entries(file: ReadSettings, themes: Sequence[str]) -> Iterator[Entry]:
    """The settings with what holds of them now."""
    for setting in SETTINGS:
        value = getattr(file.settings, setting.name)
        choices = choices_of(setting, themes)
        rows = [("default", said(setting.default)), ("in the file", _line(setting.place, value))]
        if choices:
            listed = " · ".join(map(said, choices))
            many = f"{len(choices)}; ← and → go through them"
            rows.insert(0, ("values", listed if len(choices) <= _MANY else many))
        yield Entry(
            PLAIN,
            setting.name.replace("_", " "),
            said(value),
            (Paragraph(setting.help), Rows(tuple(rows))),
            setting.place,
            setting,
            own=value != setting.default,
            written=setting.place in file.lines,
        )


def key_entries(
    file: ReadSettings, own: Mapping[str, str], scopes: Iterable[Scope]
) -> Iterator[Entry]:
    """The steps with the keys that they have now."""
    steps = {step.id: step for step in chain.from_iterable(scope.steps for scope in scopes)}
    for step in sorted(steps.values(), key=lambda step: _rank(_group(step))):
        keys = own.get(step.id, ",".join(step.keys))
        rows = (
            ("default", key_names(",".join(step.keys))),
            ("in the file", _line((KEYS, step.id), keys)),
        )
        yield Entry(
            f"Keys: {_title(_group(step))}",
            step.about.rstrip("."),
            key_names(keys),
            (Paragraph(step.about), Rows(rows)),
            (KEYS, step.id),
            step,
            own=step.id in own,
            written=step.id in file.settings.keys,
        )


def choices_of(setting: Setting, themes: Sequence[str]) -> tuple[Any, ...]:
    """The values that are stepped through; none where one is typed."""
    return tuple(themes) if setting.name == "theme" else setting.kind.choices


def stepped(choices: Sequence[Any], value: Any, by: int) -> Any:
    """The next or the last value, round the end; the first where the present one is none."""
    if value not in choices:
        return choices[0]
    return choices[(choices.index(value) + by) % len(choices)]


def said(value: Any) -> str:
    """A value as it is read and typed on the screen."""
    if isinstance(value, bool):
        return "on" if value else "off"
    if isinstance(value, time):
        return f"{value:%H:%M}"
    return f"{value:g}" if isinstance(value, float) else str(value)


def _line(place: tuple[str, ...], value: Any) -> str:
    *table, name = place
    plain = as_toml(value)
    written = str(plain).lower() if isinstance(plain, bool) else plain
    key = f'"{name}"' if "." in name else name
    line = f'{key} = "{written}"' if isinstance(plain, str) else f"{key} = {written}"
    return f"[{table[0]}]  {line}" if table else line


def _group(step: Step) -> str:
    return step.id.partition(".")[0]


def _rank(group: str) -> tuple[int, str]:
    return (_FIRST.index(group) if group in _FIRST else len(_FIRST), group)


def _title(group: str) -> str:
    return {"app": "everywhere", "board": "the board", "box": "the box"}.get(group, group.title())
