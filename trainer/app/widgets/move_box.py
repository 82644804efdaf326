"""The open box of the scoresheet, in which a move or a word is typed.

It knows letters and no chess: nothing is completed, ranked or coloured by merit. Keys may come
faster than the screen answers, so a text is cut off here, at its Enter, and sent whole.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.events import Key, Paste
from textual.message import Message
from textual.reactive import var
from textual.widgets import Input

from trainer.app.keys import keys_in_force

_EDITING = (
    ("left", "cursor_left", "back a letter"),
    ("right", "cursor_right", "on a letter"),
    ("home,ctrl+a", "home", "to the start"),
    ("end,ctrl+e", "end", "to the end"),
    ("backspace", "delete_left", "rub out a letter"),
    ("delete,ctrl+d", "delete_right", "rub out the next letter"),
    ("ctrl+u", "delete_left_all", "empty the box"),
    ("ctrl+v", "paste", "paste"),
)


class MoveBox(Input, inherit_bindings=False):
    """A box of one row. What an entered text means is for the screen to say."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    BINDING_GROUP_TITLE = "box"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            keys,
            action,
            description,
            show=False,
            id=f"box.{action}",
            tooltip=f"{description[:1].upper()}{description[1:]}.",
        )
        for keys, action, description in _EDITING
    ]

    SENT_BY: ClassVar[Mapping[str, str]] = {"sitting.play": "enter", "sitting.next": "enter"}
    """Steps of the screen, with their default keys, that send what is written.

    Their keys are met here, so that a text is cut off where they were pressed.
    """
    HINTED_BY: ClassVar[Mapping[str, str]] = {"sitting.hint": "question_mark"}
    """Steps that ask for a hint while the box is empty."""

    choosing: var[bool] = var(False)
    """Whether a single letter or digit is awaited instead of a move."""
    closed: var[bool] = var(False)
    """Whether nothing can be written."""

    @dataclass
    class Entered(Message):
        """Enter was pressed, or in the empty box the hint's key, which is said as `?`."""

        text: str

    @dataclass
    class LetterChosen(Message):
        """A letter or digit was typed that is a choice."""

        letter: str

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(
            id=id, compact=True, select_on_focus=False, max_length=200, validate_on=["submitted"]
        )
        self.cursor_blink = False  # a blinking cursor costs 260 bytes a second

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """The question mark is the screen's while the box is empty, so it stays bound.

        Where the hint has another key, too: of a consumed key Textual drops the binding
        before it looks for the key that the student gave it.
        """
        return key != "question_mark" and super().check_consume_key(key, character)

    def validate_value(self, value: str) -> str:
        """Pasted text may hold signs that a terminal would obey."""
        return "".join(sign for sign in value if sign.isprintable())

    def put(self, letter: str) -> None:
        """A letter typed here, or elsewhere on the screen. No text begins with a blank."""
        if self.closed:
            return
        if self.choosing:
            self.post_message(self.LetterChosen(letter))
        elif self.value or not letter.isspace():
            self.replace(letter, *self.selection)

    def enter(self) -> None:
        """Send what is written, be it nothing, and be empty for the next text."""
        text, self.value = self.value, ""
        self.post_message(self.Entered(text.strip()))

    def on_key(self, event: Key) -> None:
        """Enter, the hint's key and letters.

        Where going on has another key than playing, the bindings of the screen tell the two
        apart: this box does not know which of them is due.
        """
        if event.key in self._keys(self.SENT_BY):
            event.stop()
            self.enter()
        elif event.key in self._keys(self.HINTED_BY) and not (self.value or self.choosing):
            event.stop()
            event.prevent_default()
            if not self.closed:
                self.post_message(self.Entered("?"))
        elif event.is_printable and event.character:
            event.stop()
            event.prevent_default()
            self.put(event.character)

    def _keys(self, steps: Mapping[str, str]) -> set[str]:
        """The keys that all of these steps have now."""
        now = keys_in_force(self)
        keys = [set(now.get(step, default).split(",")) for step, default in steps.items()]
        return set.intersection(*keys) if keys else set()

    def on_paste(self, event: Paste) -> None:
        """Only a text may be pasted."""
        if self.closed or self.choosing:
            event.stop()
            event.prevent_default()
