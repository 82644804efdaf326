"""The keys that do something now, taken from the bindings of the screen. They can be clicked."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual.binding import Binding
from textual.content import Content
from textual.events import Click
from textual.reactive import reactive
from textual.screen import Screen
from textual.style import Style
from textual.widget import Widget

from trainer.app.keys import in_order, shown_key

GAP = 2
"""Cells between two keys."""

ALWAYS = frozenset({"enter", "escape"})
"""Keys that have their place before any other takes one."""

CRAMPED = 29
"""In fewer cells a single one stands between them."""


class KeyBar(Widget):
    """Keys with what they do, in the order of the bindings, as many as fit whole."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"keys--key", "keys--does"}

    shown: reactive[tuple[Binding, ...]] = reactive(())

    def on_mount(self) -> None:
        """Follow the bindings."""
        self.screen.bindings_updated_signal.subscribe(self, self._follow)
        self._follow(self.screen)

    def _follow(self, screen: Screen[object]) -> None:
        if screen.is_attached:
            self.shown = tuple(binding for binding in in_order(screen) if binding.show)

    def render(self) -> Content:
        """The rows of keys."""
        width, height = self.content_size
        gap = GAP if width >= CRAMPED else 1
        entries = [(self._entry(binding), binding.key in ALWAYS) for binding in self.shown]
        return Content("\n").join(_fitting(entries, width, max(1, height), gap))

    def _entry(self, binding: Binding) -> Content:
        pressed = Style.from_meta({"key": binding.key})
        key = self.get_visual_style("keys--key", partial=True)
        does = self.get_visual_style("keys--does", partial=True)
        return Content.assemble(
            (shown_key(binding), key + pressed),
            (f" {binding.description}", does + pressed),
        )

    def on_click(self, event: Click) -> None:
        """A click on a key is the key."""
        if key := event.style.meta.get("key"):
            event.stop()
            self.app.simulate_key(key)


def _fitting(
    entries: list[tuple[Content, bool]], width: int, height: int, gap: int
) -> list[Content]:
    """The rows of those that must stand there and of as many others as leave room for them."""
    chosen = {place for place, (_, always) in enumerate(entries) if always}
    rows = _rows([entries[place][0] for place in sorted(chosen)], width, gap)
    for place, (entry, _) in enumerate(entries):
        more = [entries[other][0] for other in sorted(chosen | {place})]
        if entry.cell_length <= width and len(_rows(more, width, gap)) <= height:
            chosen.add(place)
            rows = _rows(more, width, gap)
    return rows[:height]


def _rows(entries: list[Content], width: int, gap: int) -> list[Content]:
    rows: list[Content] = []
    for entry in entries:
        if rows and rows[-1].cell_length + gap + entry.cell_length <= width:
            rows[-1] = rows[-1] + " " * gap + entry
        else:
            rows.append(entry)
    return rows
