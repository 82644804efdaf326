"""A file that is there whole, or not at all: written beside its place, then moved there."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Put these bytes in the place of the file, with the mode of any new file.

    :raises OSError: they cannot be written; what was there is as it was.
    """
    handle, name = tempfile.mkstemp(prefix=".writing-", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(_new_mode())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def _new_mode() -> int:
    """What a new file is allowed; `mkstemp` allows less."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
