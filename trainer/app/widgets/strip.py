"""The strip of a sitting: a bar a prompt, as high as the answer was good."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from trainer.app.telling.blocks import BARS
from trainer.memory.sm2 import PASSED

WIDEST = 22
"""Longer sittings are squeezed into so many cells."""


@dataclass(frozen=True, slots=True)
class Course:
    """How far a sitting has come."""

    qualities: tuple[int, ...] = ()
    """Of the answers so far."""
    asking: bool = False
    """Whether a prompt stands open."""
    left: int = 0
    """Prompts still to come."""
    looking: bool = False
    """Whether a fresh card is looked at, which is no prompt yet."""

    @property
    def total(self) -> int:
        """All prompts, as far as is known now."""
        return len(self.qualities) + self.asking + self.left

    @property
    def place(self) -> int:
        """The number of the prompt in question, from 1."""
        return len(self.qualities) + self.asking


def cells(course: Course, width: int) -> str:
    """The strip as text: bars, `|` for the open prompt, dots for what is to come.

    Where it is squeezed, a cell shows the worst answer in it.
    """
    signs = [BARS[quality] for quality in course.qualities]
    signs += ["|"] * course.asking + ["·"] * course.left
    if len(signs) <= width:
        return "".join(signs)
    edges = [place * len(signs) // width for place in range(width + 1)]
    return "".join(_one(signs[a:b]) for a, b in pairwise(edges))


def _one(signs: Sequence[str]) -> str:
    if "|" in signs:
        return "|"
    bars = [sign for sign in signs if sign in BARS]
    return min(bars) if bars else "·"


class SittingStrip(Widget):
    """The strip as a row."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "strip--right",
        "strip--wrong",
        "strip--open",
        "strip--ahead",
    }

    course: reactive[Course] = reactive(Course())

    def render(self) -> Content:
        """Bars in colour; their height says the same."""
        width = min(WIDEST, self.content_size.width)
        return Content("").join(
            Content.styled(sign, self.get_visual_style(f"strip--{_kind(sign)}", partial=True))
            for sign in cells(self.course, width)
        )


def _kind(sign: str) -> str:
    if sign not in BARS:
        return "open" if sign == "|" else "ahead"
    return "right" if BARS.index(sign) >= PASSED else "wrong"
