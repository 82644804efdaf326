"""The text of `settings.toml`: read with its faults named, and put back in one step.

It knows files and TOML's syntax, and no setting.
"""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path
from typing import Any

from trainer.errors import TrainerError

LARGEST = 1 << 20
"""Bytes; what is larger is no file of settings."""

BOM = "\ufeff"


class SettingsFileError(TrainerError):
    """The file cannot be read or written: where, and why."""


def load_text(path: Path) -> str:
    """The text of the file, its byte-order mark and line ends as they are.

    :raises FileNotFoundError: there is none.
    :raises SettingsFileError: it is no readable text.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise SettingsFileError(f"{path}: this is no file")
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise
    except OSError as error:
        raise SettingsFileError(f"{path}: cannot be read ({error.strerror})") from error
    if len(data) > LARGEST:
        raise SettingsFileError(f"{path}: larger than {LARGEST >> 20} MB")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise SettingsFileError(f"{path}, line {line}: not UTF-8; save it as UTF-8") from error


def parse(path: Path, text: str) -> dict[str, Any]:
    """What the text holds.

    :raises SettingsFileError: it is no TOML; with line and column.
    """
    import tomllib

    try:
        return tomllib.loads(text.removeprefix(BOM))
    except tomllib.TOMLDecodeError as error:
        where, what = _place_and_reason(str(error), text)
        raise SettingsFileError(f"{path}, {where}: {what}") from error
    except RecursionError as error:
        raise SettingsFileError(f"{path}: nested too deeply") from error
    except ValueError as error:  # a whole number of thousands of digits
        where = _position(text, re.search(r"[0-9_]{4000}", text))
        raise SettingsFileError(f"{path}, {where}: a number that is too long") from error


def replace_text(path: Path, text: str) -> None:
    """Put a text in the place of the file; it is there whole, or not at all.

    A link stays a link, and the file keeps its mode.

    :raises SettingsFileError: it cannot be written.
    """
    import tempfile  # which only who writes has to wait for

    target = Path(os.path.realpath(path))
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        mode = target.stat().st_mode & 0o7777 if target.exists() else None
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        temporary = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(text.encode("utf-8"))
                file.flush()
                os.fsync(file.fileno())
            temporary.chmod(_new_mode() if mode is None else mode)
            temporary.replace(target)
        except BaseException:
            temporary.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise SettingsFileError(f"{path}: cannot be written ({error.strerror})") from error


def _new_mode() -> int:
    """What a new file is allowed; `mkstemp` allows less."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _place_and_reason(message: str, text: str) -> tuple[str, str]:
    """`line 3, column 5` and the reason without it."""
    found = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", message)
    what = message[: found.start()] if found else message
    reason = f"{what[:1].lower()}{what[1:100]}"
    if found and found[1]:
        return f"line {found[1]}, column {found[2]}", reason
    return _position(text, re.search(r"\Z", text)), reason


def _position(text: str, found: re.Match[str] | None) -> str:
    start = found.start() if found else 0
    before = text[:start]
    return f"line {before.count(chr(10)) + 1}, column {start - before.rfind(chr(10))}"
