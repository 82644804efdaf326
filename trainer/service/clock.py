"""What time it is. `TRAINER_NOW` makes it stand still, for tests and demos."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime

from trainer.errors import TrainerError


@dataclass(frozen=True, slots=True)
class Clock:
    """Gives instants; durations are measured by the faces with a monotonic clock."""

    now: Callable[[], datetime]
    """The present instant with the local offset."""


def read_clock() -> Clock:
    """The clock that `TRAINER_NOW` sets, else the machine's.

    :raises TrainerError: `TRAINER_NOW` is no ISO 8601 instant with an offset.
    """
    text = os.environ.get("TRAINER_NOW")
    if not text:
        return Clock(lambda: datetime.now().astimezone())
    try:
        instant = datetime.fromisoformat(text)
    except ValueError:
        instant = None
    if instant is None or instant.tzinfo is None or not 1000 <= instant.year <= 9000:
        raise TrainerError(
            f"TRAINER_NOW is {text!r}: write an instant with its offset, "
            "such as 2026-12-01T18:00:00+01:00"
        )
    return Clock(lambda: instant)


def utc_text(instant: datetime) -> str:
    """An instant as it is stored: UTC with milliseconds, `2026-12-01T10:00:00.000Z`."""
    return instant.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
