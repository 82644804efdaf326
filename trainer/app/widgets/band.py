"""The one filled band of a screen: what there is to do, and the key that does it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from trainer.app.key_names import key_name
from trainer.app.keys import keys_in_force


class Band(Widget):
    """A sentence and a key; a click anywhere on it is the key."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"band--sentence", "band--key"}

    sentence: reactive[str] = reactive("")
    step: reactive[str] = reactive("")
    """What the key does; empty where there is nothing to do."""

    @dataclass
    class Taken(Message):
        """The band was clicked."""

    def __init__(self, taken_by: str, *, id: str | None = None) -> None:
        """:param taken_by: the id of the binding that does it; by default on Enter."""
        super().__init__(id=id)
        self._taken_by = taken_by

    def render(self) -> Content:
        """Both in one row."""
        style = self.get_visual_style("band--sentence", partial=True)
        sentence = Content.styled(self.sentence, style)
        if not self.step:
            return sentence
        gap = "    " if self.sentence else ""
        keys = keys_in_force(self).get(self._taken_by, "enter")
        key = (f" {key_name(keys.split(',')[0])} ", self.get_visual_style("band--key"))
        return Content.assemble(sentence, gap, key, f" {self.step}")

    def on_click(self, event: Click) -> None:
        """The band is a button."""
        event.stop()
        if self.step:
            self.post_message(self.Taken())
