"""One value of a TOML text set or taken out, everything else left as its writer had it.

A line is added or taken away as text, so that no comment loses the table it stands over;
a value that is there, and what is written in other forms, is changed through `tomlkit`.
What comes out is read again: a text that does not say what it should is never handed out.
"""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from trainer.service.settings.places import Place, lines_of_places

_LONGEST_VALUE = 200
"""Lines; a longer value is left to `tomlkit`."""

_UNABLE = (TOMLKitError, ValueError, TypeError, LookupError, AttributeError, RecursionError)
"""What goes wrong in `tomlkit` where a text is written in a way it cannot change."""


class CannotEdit(Exception):
    """The text is written in a way that cannot be changed safely."""


def with_value(text: str, place: Place, value: Any, comment: str = "") -> str:
    """The text with a value at a place; a line that is new ends with the comment.

    :raises CannotEdit: something else than a table stands on the way there, for one.
    """
    values = _load(text)
    wanted = deepcopy(values)
    known = _holds_value(values, place)
    _set(wanted, place, _load(_statement(place[-1], value))[place[-1]])
    if not known:
        added = _with_line(text, values, place, _statement(place[-1], value, comment))
        if added and _says(added, wanted, place):
            return added
    return _checked(_changed(text, place, value), wanted, place)


def without_value(text: str, place: Place, own_comment: str = "") -> str:
    """The text without the value at a place. Its comment stays, unless it is our own.

    :raises CannotEdit: the place is a part of something that cannot be changed.
    """
    values = _load(text)
    wanted = deepcopy(values)
    if not _holds_value(values, place):
        return text
    del _table(wanted, place[:-1])[place[-1]]
    taken = _without_line(text, values, place, own_comment)
    if taken is not None and _says(taken, wanted, place):
        return taken
    return _checked(_changed(text, place, None), wanted, place)


# Lines


def _with_line(text: str, values: dict[str, Any], place: Place, line: str) -> str | None:
    """The text with a line more, after the last value of its table; None where none is seen."""
    ending = "\r" if "\r\n" in text else ""
    if text and not text.endswith("\n"):
        text += f"{ending}\n"
    lines = text.split("\n")
    at = _room(lines, lines_of_places(text, values), place[:-1])
    if at is None:
        return None
    lines.insert(at, line + ending)
    return "\n".join(lines)


def _room(lines: list[str], known: dict[Place, int], table: Place) -> int | None:
    """Before which line of the list one more of the table can stand."""
    heads = {at - 1 for at in known.values() if lines[at - 1].lstrip().startswith("[")}
    own = {at - 1 for place, at in known.items() if place[:-1] == table and place != table}
    if keys := own - heads:
        length = _length(lines, max(keys))
        return max(keys) + length if length else None
    if table:
        return known.get(table)
    first = min(heads, default=len(lines) - 1)
    while heads and first and lines[first - 1].lstrip().startswith("#"):
        first -= 1
    return first


def _length(lines: list[str], start: int) -> int | None:
    """Over how many lines the value of the key goes that stands in one; None for too many."""
    for length in range(1, min(_LONGEST_VALUE, len(lines) - start) + 1):
        try:
            _load("\n".join(lines[start : start + length]) + "\n")
        except ValueError:
            continue
        return length
    return None


def _without_line(text: str, values: dict[str, Any], place: Place, own_comment: str) -> str | None:
    """The text without the lines of a value; None where it has none to itself."""
    lines = text.split("\n")
    at = lines_of_places(text, values).get(place)
    if at is None or lines[at - 1].lstrip().startswith("["):
        return None
    if (length := _length(lines, at - 1)) is None:
        return None
    statement = lines[at - 1 : at - 1 + length]
    comment = _comment("\n".join(statement).rstrip("\r"))
    ending = "\r" if statement[-1].endswith("\r") else ""
    keep = comment and comment != f"# {own_comment}"
    lines[at - 1 : at - 1 + length] = [comment + ending] if keep else []
    return "\n".join(lines)


def _comment(statement: str) -> str:
    """The comment that ends a statement."""
    at, whole = statement.find("#"), _load(statement)
    while at >= 0:
        try:
            if _load(statement[:at]) == whole:
                return statement[at:]
        except ValueError:
            pass
        at = statement.find("#", at + 1)
    return ""


def _statement(key: str, value: Any, comment: str = "") -> str:
    line = tomlkit.dumps({key: value}).rstrip("\n")
    return f"{line}  # {comment}" if comment else line


# Values


def _changed(text: str, place: Place, value: Any | None) -> str:
    """The text as `tomlkit` changes it; None takes the value out."""
    try:
        document = tomlkit.parse(text)
        table: Any = document
        for part in place[:-1]:
            if part not in table:
                table[part] = tomlkit.table()
            table = table[part]
        if value is None:
            del table[place[-1]]
        else:
            table[place[-1]] = value
        changed = tomlkit.dumps(document)
    except _UNABLE as error:
        raise CannotEdit from error
    lone = "\n" in text.replace("\r\n", "")
    return (
        changed
        if lone or "\r\n" not in text
        else changed.replace("\r\n", "\n").replace("\n", "\r\n")
    )


def _checked(text: str, wanted: dict[str, Any], place: Place) -> str:
    if not _says(text, wanted, place):
        raise CannotEdit
    return text


def _says(text: str, wanted: dict[str, Any], place: Place) -> bool:
    """Whether a text holds what is wanted, be a table on the way to the place empty or away."""
    try:
        return _pruned(_load(text), place) == _pruned(deepcopy(wanted), place)
    except ValueError:
        return False


def _load(text: str) -> dict[str, Any]:
    """The values; a fraction as it is written, for what is no number is unlike itself."""
    return tomllib.loads(text, parse_float=lambda written: ("fraction", written))


def _pruned(values: dict[str, Any], place: Place) -> dict[str, Any]:
    for depth in range(len(place) - 1, 0, -1):
        if _is_there(values, place[:depth]) and _table(values, place[:depth]) == {}:
            del _table(values, place[: depth - 1])[place[depth - 1]]
    return values


def _holds_value(values: dict[str, Any], place: Place) -> bool:
    """Whether a value stands at a place.

    :raises CannotEdit: it is a table, and may have comments of its own.
    """
    there = _is_there(values, place)
    if there and isinstance(_table(values, place[:-1])[place[-1]], dict):
        raise CannotEdit
    return there


def _is_there(values: dict[str, Any], place: Place) -> bool:
    for part in place:
        if not isinstance(values, dict) or part not in values:
            return False
        values = values[part]
    return True


def _table(values: dict[str, Any], place: Place) -> dict[str, Any]:
    for part in place:
        values = values.setdefault(part, {})
        if not isinstance(values, dict):
            raise CannotEdit
    return values


def _set(values: dict[str, Any], place: Place, value: Any) -> None:
    _table(values, place[:-1])[place[-1]] = value
