"""What values a setting takes: read from TOML or from typed text, and said back in both forms.

It knows types and limits, not which setting has which.
"""

from __future__ import annotations

import re
from datetime import time
from typing import Any


class Kind:
    """The values of one setting. Each of them is unlike None.

    Plain classes: as dataclasses these few would cost each command 3 ms at its start.
    """

    wanted: str
    """What a good value is, in words."""
    choices: tuple[Any, ...] = ()
    """All values in the order in which they are stepped through; empty: one is typed."""

    def read(self, value: object) -> Any | None:
        """The setting's value for a value of TOML; None where it is no good one."""
        raise NotImplementedError

    def typed(self, text: str) -> Any | None:
        """The setting's value for a typed text; None where it is no good one."""
        return self.read(text.strip())


class Switch(Kind):
    """On or off."""

    wanted = "true or false"
    choices = (True, False)

    def read(self, value: object) -> bool | None:
        """Only TOML's own two words."""
        return value if isinstance(value, bool) else None


class Choice(Kind):
    """One of a few words."""

    def __init__(self, *choices: str) -> None:
        self.choices = choices
        quoted = [f'"{choice}"' for choice in choices]
        self.wanted = f"{', '.join(quoted[:-1])} or {quoted[-1]}"

    def read(self, value: object) -> str | None:
        """Spelled as it is declared."""
        return value if isinstance(value, str) and value in self.choices else None


class Count(Kind):
    """A whole number."""

    def __init__(self, most: int) -> None:
        self._most = most
        self.wanted = f"a whole number from 0 to {most}"

    def read(self, value: object) -> int | None:
        """No fraction, and no switch, which is a whole number to Python."""
        if isinstance(value, bool) or not isinstance(value, int):
            return None
        return value if 0 <= value <= self._most else None

    def typed(self, text: str) -> int | None:
        """Decimal digits."""
        return self.read(int(text)) if re.fullmatch(r"\s*[0-9]{1,9}\s*", text) else None


class Seconds(Kind):
    """A length of time."""

    def __init__(self, most: int) -> None:
        self._most = most
        self.wanted = f"a number of seconds above 0, at most {most}"

    def read(self, value: object) -> float | None:
        """A number of either kind; infinity and what is no number are none."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            return None
        return float(value) if 0 < value <= self._most else None

    def typed(self, text: str) -> float | None:
        """Decimal digits, with a point or a comma."""
        found = re.fullmatch(r"\s*([0-9]{1,9})(?:[.,]([0-9]{1,9}))?\s*", text)
        return self.read(float(f"{found[1]}.{found[2] or 0}")) if found else None


class TimeOfDay(Kind):
    """An hour and a minute on the wall clock."""

    wanted = 'a time such as "04:00"'

    def read(self, value: object) -> time | None:
        """A text, or a time of TOML's own."""
        if isinstance(value, time):
            return value.replace(second=0, microsecond=0)
        return self.typed(value) if isinstance(value, str) else None

    def typed(self, text: str) -> time | None:
        """Hours and minutes; seconds change nothing."""
        found = re.fullmatch(r"\s*([0-9]{1,2}):([0-9]{2})(?::[0-5][0-9])?\s*", text)
        if not found:
            return None
        hour, minute = int(found[1]), int(found[2])
        return time(hour, minute) if hour < 24 and minute < 60 else None


class Name(Kind):
    """A name that only a face can judge, such as that of a theme."""

    def __init__(self, wanted: str) -> None:
        self.wanted = wanted

    def read(self, value: object) -> str | None:
        """Any text of a line's length."""
        return value if isinstance(value, str) and 0 < len(value) <= 80 else None


def as_toml(value: Any) -> Any:
    """The plain value that stands for a setting's value in the file."""
    if isinstance(value, time):
        return f"{value:%H:%M}"
    return int(value) if isinstance(value, float) and value.is_integer() else value


def shown(value: object) -> str:
    """A value of TOML in a sentence: short, on one line, without control signs."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return repr(value if len(value) <= 40 else f"{value[:39]}…")
    if isinstance(value, int):
        return str(value) if abs(value) < 10**12 else "so large a number"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, time):
        return f"{value:%H:%M}"
    if isinstance(value, dict):
        return "a table"
    return "a list" if isinstance(value, list) else "a date"
