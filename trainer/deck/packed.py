"""A packed deck: an ordinary zip of a deck's folder, never unpacked to the disk.

Its list of entries is judged whole before any of them is read: one that is no plain file,
leads elsewhere or could not stand on some system refuses the pack. Sizes in the list are
claims, so what comes out is counted.
"""

from __future__ import annotations

import io
import stat
import struct
import unicodedata
import zipfile
import zlib
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from trainer.deck.limits import NAME_CHARS, PACK_BYTES, PACK_ENTRIES
from trainer.deck.manifest import MANIFEST
from trainer.deck.paths import FileRefused, folded, is_folder, read_plain, why_unsafe

SUFFIX = ".deck.zip"
"""Of a packed deck's name; any zip is tried."""

_ENTRY = b"PK\x01\x02"
"""What each entry of the list begins with."""

_ENCRYPTED = 0x1 | 0x40 | 0x2000
_UTF8 = 0x800

_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)

_DAMAGED = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
)
"""What `zipfile` says of files that are none, or were changed."""


def is_packed(path: Path) -> bool:
    """Whether the name is that of a packed deck; a folder is none, whatever its name."""
    return path.name.lower().endswith(".zip") and not is_folder(path)


class PackedFiles:
    """The files in one packed deck, by their names inside the deck."""

    def __init__(self, path: Path, shown: str) -> None:
        """Read the list of entries.

        :param shown: what messages call the pack.
        :raises FileRefused: it is no pack, or one that must not be opened.
        """
        self._shown = shown
        data = read_plain(path, shown, PACK_BYTES)
        # Each entry costs far more memory than its bytes, so they are counted first.
        if data.count(_ENTRY) > PACK_ENTRIES:
            raise self._refused("too-large", f"holds more than {PACK_ENTRIES} entries")
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
        except _DAMAGED as error:
            raise self._damaged() from error
        self._entries = self._judged(self._zip.infolist())
        self._top = self._found_top()

    def read(self, name: str, most: int) -> bytes:
        """The bytes of a file.

        :raises FileRefused: there is no such file, it is too large, or damaged.
        """
        entry = self._entries.get(self._top + unicodedata.normalize("NFC", name))
        if entry is None:
            raise FileRefused("missing-file", f"there is no file {name}; add it")
        try:
            with self._zip.open(entry) as file:
                data = file.read(most + 1)
        except _DAMAGED as error:
            raise self._damaged(f": {name} does not come out whole") from error
        if len(data) > most:
            raise FileRefused("too-large", f"{name} is larger than {most // 1024} kB")
        return data

    def _judged(self, entries: Iterable[zipfile.ZipInfo]) -> dict[str, zipfile.ZipInfo]:
        """The files by name, once no entry gives a reason to refuse."""
        files: dict[str, zipfile.ZipInfo] = {}
        seen: dict[str, str] = {}
        for entry in entries:
            name = _name_of(entry)
            if len(name) > NAME_CHARS:
                raise self._refused("unsafe-entry", f"holds a name of more than {NAME_CHARS} signs")
            if why := why_unsafe(name) or _why_not_read(entry):
                raise self._refused("unsafe-entry", f'holds "{_short(name)}", which {why}')
            if other := seen.get(folded(name)):
                how = "twice" if other == name else f"and {_short(other)}, one file on some systems"
                raise self._refused("unsafe-entry", f'holds "{_short(name)}" {how}')
            seen[folded(name)] = name
            if not entry.is_dir():
                files[name] = entry
        for name in files:
            if inside := _file_above(name, files):
                why = f'holds "{_short(inside)}" as a file and as a folder'
                raise self._refused("unsafe-entry", why)
        return files

    def _found_top(self) -> str:
        """What stands before the names inside the deck: nothing, or the one folder and `/`."""
        if MANIFEST in self._entries:
            return ""
        ends = (name.partition("/") for name in self._entries)
        tops = [f"{top}/" for top, _, rest in ends if rest == MANIFEST]
        if len(tops) > 1:
            names = " and ".join(sorted(_short(top) for top in tops)[:2])
            raise self._refused("not-a-deck", f"holds several decks ({names}); pack each alone")
        if not tops:
            raise self._refused("not-a-deck", f"holds no {MANIFEST}, at its top or in one folder")
        return tops[0]

    def _refused(self, code: str, why: str) -> FileRefused:
        return FileRefused(code, f"{self._shown} {why}; nothing in it was read")

    def _damaged(self, what: str = "") -> FileRefused:
        message = f"{self._shown} is no zip or is damaged{what}; get it anew, or pack it anew"
        return FileRefused("damaged-pack", message)


def _name_of(entry: zipfile.ZipInfo) -> str:
    """The entry's name as it is written, without the slash at a folder's end.

    Names that are marked as being in the code page of old are often UTF-8 all the same.
    """
    name = entry.orig_filename
    if not entry.flag_bits & _UTF8 and not name.isascii():
        with suppress(UnicodeError):
            name = name.encode("cp437").decode("utf-8")
    return unicodedata.normalize("NFC", name.removesuffix("/"))


def _why_not_read(entry: zipfile.ZipInfo) -> str:
    kind = stat.S_IFMT(entry.external_attr >> 16)
    if kind not in (0, stat.S_IFDIR if entry.is_dir() else stat.S_IFREG):
        return "is a link, a device or no plain file; leave it out"
    if entry.flag_bits & _ENCRYPTED:
        return "is encrypted; pack the deck without a password"
    if entry.compress_type not in _METHODS:
        return "is compressed in an uncommon way; make an ordinary zip"
    return ""


def _file_above(name: str, files: Iterable[str]) -> str:
    """The folder of a name that is said to be a file."""
    while "/" in name:
        name = name.rpartition("/")[0]
        if name in files:
            return name
    return ""


def _short(name: str) -> str:
    """As much of a name as goes into a message; the rest of the cleaning is the faces'."""
    return "".join(sign if sign.isprintable() else "?" for sign in name[:60])
