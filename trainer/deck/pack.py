"""A deck as the bytes of an ordinary zip: the same deck gives the same bytes on any machine.

Times, modes and order are fixed, and nothing is compressed, because deflate's output differs
from one library to the next. Which files belong to a deck, and where the zip goes, is not
decided here.
"""

from __future__ import annotations

import io
import stat
import zipfile
from collections.abc import Mapping

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest time that a zip can name."""

_UNIX = 3
_MODE = stat.S_IFREG | 0o644


def packed_bytes(folder: str, files: Mapping[str, bytes]) -> bytes:
    """The zip of these files, in their order.

    :param folder: what all of them lie in once it is unpacked.
    """
    pack = io.BytesIO()
    with zipfile.ZipFile(pack, "w", zipfile.ZIP_STORED) as archive:
        for name, data in files.items():
            entry = zipfile.ZipInfo(f"{folder}/{name}", _FIRST_DAY)
            entry.create_system = _UNIX
            entry.external_attr = _MODE << 16
            archive.writestr(entry, data)
    return pack.getvalue()
