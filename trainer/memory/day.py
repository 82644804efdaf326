"""The local day that an instant belongs to."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

DAY_STARTS = time(4, 0)
"""The default wall-clock time at which a day begins."""


def local_day(instant: datetime, starts: time = DAY_STARTS) -> date:
    """The day of an instant, on the wall clock of the instant's own offset.

    The wall clock is moved back, not the instant: a day on which the clocks change still
    begins at its hour.
    """
    wall_clock = instant.replace(tzinfo=None)
    return (wall_clock - timedelta(hours=starts.hour, minutes=starts.minute)).date()
