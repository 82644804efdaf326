"""The form of ids, and ids made from file names."""

from __future__ import annotations

import re
import unicodedata

from trainer.deck.limits import ID_CHARS

_ID = re.compile(r"[a-z0-9]+(?:-+[a-z0-9]+)*")


def is_id(text: str) -> bool:
    """Whether a text is lower-case letters, digits and hyphens between them, and not long."""
    return len(text) <= ID_CHARS and _ID.fullmatch(text) is not None


def slug(text: str, most: int = ID_CHARS) -> str:
    """An id that resembles a text; empty where nothing of it can stay."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:most].strip("-")


def chapter_id(file: str) -> str:
    """The id of a chapter that gives none: its file's name without number and suffix."""
    stem = file.rsplit("/", 1)[-1].rsplit(".", 1)[0]
    return slug(re.sub(r"^[0-9]+[-_. ]*", "", stem)) or slug(stem)
