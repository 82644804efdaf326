"""File names that a deck gives: none may lead out of its folder, on any system.

Reads files whole and within a limit; what stands in them is the reader's business.
"""

from __future__ import annotations

import os
import stat
import unicodedata
from pathlib import Path

_DEVICES = {"con", "prn", "aux", "nul", "conin$", "conout$", "clock$"}
_DEVICES |= {port + sign for port in ("com", "lpt") for sign in "0123456789¹²³"}
"""Names that Windows gives to devices, in every folder and with every suffix."""

_NOT_ON_EVERY_SYSTEM = frozenset('<>"|?*')

_UNBLOCKED = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""A pipe that has taken the place of a file since it was looked at is not waited for."""


class FileRefused(Exception):
    """A file of a deck cannot be read."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message


def is_folder(path: Path) -> bool:
    """Whether there is a folder; a name that no system can have is none."""
    try:
        return path.is_dir()
    except OSError:
        return False


def why_unsafe(name: str) -> str:
    """Why a name in a deck cannot be that of one of its files; empty if it can."""
    if not name.isprintable():
        return "holds signs that cannot be shown"
    if "\\" in name or ":" in name:
        return "holds a backslash or a colon; write folders with /, inside the deck only"
    if name.startswith("/"):
        return "leads out of the deck; write the name inside the deck's folder"
    parts = name.split("/")
    if any(part in ("", ".", "..") for part in parts):
        return "leads out of the deck or is no file name; write the name inside the deck's folder"
    return next((why for part in parts if (why := _why_not_everywhere(part))), "")


def _why_not_everywhere(part: str) -> str:
    """Why some system cannot have a file or a folder of this name."""
    if wrong := sorted(_NOT_ON_EVERY_SYSTEM.intersection(part)):
        return f"holds {wrong[0]}, which no file has on some systems; rename the file"
    if part.endswith((".", " ")) or part.startswith(" "):
        return "has a part with a dot or a blank at its end; rename the file"
    if part.split(".", 1)[0].rstrip().casefold() in _DEVICES:
        return f"is the name of a device on some systems ({part[:20]}); rename the file"
    return ""


def folded(name: str) -> str:
    """What two names share that some systems take for one: those that differ by case alone."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def read_inside(folder: Path, name: str, most: int) -> bytes:
    """The bytes of a file of a deck.

    :param name: a name that `why_unsafe` lets pass.
    :param most: the largest size that is read.
    :raises FileRefused: there is no such file, it is none, it lies elsewhere, it is too large.
    """
    try:
        target = (folder / name).resolve()
        if not target.is_relative_to(folder.resolve()):
            raise FileRefused("outside-deck", f"{name} is a link that leads out of the deck")
        return read_plain(target, name, most)
    except (OSError, RuntimeError) as error:
        raise FileRefused("unreadable-file", f"{name} cannot be read: {_words(error)}") from error


def read_plain(path: Path, name: str, most: int) -> bytes:
    """The bytes of a plain file, called by this name in messages.

    :raises FileRefused: as `read_inside`.
    """
    try:
        facts = path.stat()
        if not stat.S_ISREG(facts.st_mode):
            raise FileRefused("not-a-file", f"{name} is not a plain file")
        with open(path, "rb", opener=_unblocked) as file:
            data = file.read(most + 1)
    except FileNotFoundError as error:
        raise FileRefused("missing-file", f"there is no file {name}; add it") from error
    except (OSError, ValueError) as error:
        raise FileRefused("unreadable-file", f"{name} cannot be read: {_words(error)}") from error
    if len(data) > most:
        raise FileRefused("too-large", f"{name} is larger than {most // 1024} kB")
    return data


def _unblocked(path: str, flags: int) -> int:
    return os.open(path, flags | _UNBLOCKED)


def _words(error: Exception) -> str:
    """What the system says, without its number and the whole path."""
    return (getattr(error, "strerror", None) or str(error)).lower()
