"""A driver that notes what an app sends to the terminal, and when."""

from __future__ import annotations

from statistics import median
from time import perf_counter

from textual.drivers.headless_driver import HeadlessDriver


class Recorder(HeadlessDriver):
    """Keeps the time and the length of everything that is sent; make a subclass a run."""

    written: list[tuple[float, int]]

    @property
    def is_headless(self) -> bool:
        """Textual writes nothing to a driver that says it is headless."""
        return False

    def write(self, data: str) -> None:
        """Note what would be sent."""
        self.written.append((perf_counter(), len(data.encode())))


def medians(figures: list[tuple[float, int]]) -> tuple[float, float]:
    """The median time and the median number of bytes."""
    times, sizes = zip(*figures, strict=True)
    return median(times), median(sizes)
