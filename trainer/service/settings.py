"""What the student set in `settings.toml`. It is read here and never rewritten."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from datetime import time
from pathlib import Path
from typing import Any

from trainer.memory.day import DAY_STARTS
from trainer.memory.quality import HESITATION_SECONDS


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings; the defaults hold where the file says nothing."""

    hesitation_seconds: float = HESITATION_SECONDS
    """Within this time a right first try earns a 5; more than 0."""
    fresh_per_day: int = 10
    """How many fresh cards a day brings at most."""
    day_starts: time = DAY_STARTS
    """The wall-clock time at which a day begins."""
    first_look: str = "show"
    """`show` a fresh card before it is asked, or `ask` it at once."""
    piece_letters: str = "en"
    """The language of the piece letters in typed moves."""
    theme: str = "textual-dark"
    """The name of a Textual theme."""
    motion: bool = True
    """Play the opponent's move in two steps."""
    part_credit: bool = True
    """`[schedule]`: an early right answer earns part of its interval."""


@dataclass(frozen=True, slots=True)
class ReadSettings:
    """The settings, and a sentence for each thing in the file that was not understood."""

    settings: Settings
    problems: tuple[str, ...] = ()


def read_settings(path: Path) -> ReadSettings:
    """Read the file; a value that cannot be used is named, its default holds for this run."""
    try:
        table = _parsed(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return ReadSettings(Settings())
    except (OSError, ValueError, RecursionError) as error:
        return ReadSettings(Settings(), (f"{path}: not read ({error}); the defaults hold",))
    flat = {**table, **_schedule(table)}
    chosen: dict[str, Any] = {}
    problems = []
    for field in fields(Settings):
        if field.name not in flat:
            continue
        value = _READERS[field.name](flat[field.name])
        if value is None:
            problems.append(
                f"{path}: {field.name} = {flat[field.name]!r} cannot be used "
                f"({_WANTED[field.name]}); {_as_toml(field.default)} holds"
            )
        else:
            chosen[field.name] = value
    return ReadSettings(replace(Settings(), **chosen), tuple(problems))


def _parsed(text: str) -> dict[str, Any]:
    import tomllib

    return tomllib.loads(text)


def _schedule(table: dict[str, Any]) -> dict[str, Any]:
    """The switches of `[schedule]` that this program knows."""
    found = table.get("schedule")
    if not isinstance(found, dict) or "part_credit" not in found:
        return {}
    return {"part_credit": found["part_credit"]}


def _as_toml(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:%H:%M}" if isinstance(value, time) else str(value)


def _number(value: Any) -> float | None:
    good = isinstance(value, int | float) and not isinstance(value, bool) and 0 < value < 3600
    return float(value) if good else None


def _count(value: Any) -> int | None:
    good = isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= 10_000
    return value if good else None


def _time(value: Any) -> time | None:
    try:
        return time.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        return None


def _switch(value: Any) -> bool | None:
    return value if isinstance(value, bool) else None


def _text(value: Any) -> str | None:
    return value if isinstance(value, str) else None


def _look(value: Any) -> str | None:
    return value if value in ("show", "ask") else None


def _language(value: Any) -> str | None:
    from trainer.lines.letters import LANGUAGES

    return value if isinstance(value, str) and value in LANGUAGES else None


_READERS: dict[str, Callable[[Any], Any]] = {
    "hesitation_seconds": _number,
    "fresh_per_day": _count,
    "day_starts": _time,
    "first_look": _look,
    "piece_letters": _language,
    "theme": _text,
    "motion": _switch,
    "part_credit": _switch,
}

_WANTED = {
    "hesitation_seconds": "a number of seconds above 0",
    "fresh_per_day": "a whole number from 0",
    "day_starts": 'a time such as "04:00"',
    "first_look": '"show" or "ask"',
    "piece_letters": 'a language such as "en" or "de"',
    "theme": "the name of a theme",
    "motion": "true or false",
    "part_credit": "true or false",
}
