"""The days ahead as bars, each with its number and weekday under it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

from trainer.service.today import DayAhead

WIDE, NARROW, GAP = 4, 3, 1
"""Cells of a bar where there is room for all days, else of a bar, and between two."""

NOTHING = "Nothing is planned yet: what you learn today comes back tomorrow."

_EIGHTHS = " ▁▂▃▄▅▆▇█"


def bar_rows(counts: Sequence[int], height: int, bar: int) -> list[str]:
    """The bars as rows of text, the highest first; the greatest count fills the height.

    Every count above 0 shows at least an eighth of a row.
    """
    most = max(counts, default=0)
    levels = [-(-count * height * 8 // most) if most else 0 for count in counts]
    return [
        (" " * GAP).join(_EIGHTHS[min(8, max(0, level - 8 * row))] * bar for level in levels)
        for row in reversed(range(height))
    ]


class Forecast(Widget):
    """Heading, bars, numbers, weekdays; as many days as fit beside each other."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "forecast--heading",
        "forecast--bar",
        "forecast--day",
    }

    days: reactive[tuple[DayAhead, ...]] = reactive(())

    def render(self) -> Content:
        """The chart."""
        width, height = self.content_size
        bar = WIDE if len(self.days) * (WIDE + GAP) <= width + GAP else NARROW
        days = self.days[: max(0, (width + GAP) // (bar + GAP))]
        if not days:
            return Content()
        counts = [day.due for day in days]
        gap = " " * GAP
        rows = [Content.styled(f"The next {len(days)} days", self._style("heading"))]
        bars = bar_rows(counts, max(1, height - 3), bar)
        rows += [Content.styled(row, self._style("bar")) for row in bars]
        if not any(counts):
            rows[1 + len(bars) // 2] = Content.styled(NOTHING[:width], self._style("day"))
        rows.append(Content(gap.join(f"{count:>3}".ljust(bar) for count in counts)))
        names = gap.join(f"{day.date:%a}"[:2].rjust(3).ljust(bar) for day in days)
        rows.append(Content.styled(names, self._style("day")))
        return Content("\n").join(rows)

    def _style(self, name: str) -> Style:
        return self.get_visual_style(f"forecast--{name}", partial=True)
