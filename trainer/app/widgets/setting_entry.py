"""The row in which a value is typed, or a key is pressed, for the setting that is chosen."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Key
from textual.message import Message
from textual.widgets import Input

from trainer.app.widgets.fixed_text import FixedText


class KeyCatcher(FixedText, can_focus=True):
    """With the focus it takes every key, even that which leaves the program."""

    @dataclass
    class Caught(Message):
        """A key was pressed."""

        key: str

    def check_consume_key(self, _key: str, _character: str | None) -> bool:
        """Nothing stays bound meanwhile."""
        return True

    def on_key(self, event: Key) -> None:
        """It goes nowhere else."""
        event.stop()
        event.prevent_default()
        self.post_message(self.Caught(event.key))


class SettingEntry(Horizontal):
    """Empty until something is asked for."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")

    @dataclass
    class Typed(Message):
        """Enter was pressed over a text."""

        text: str

    def compose(self) -> ComposeResult:
        """What is asked, and one of two ways to say it."""
        yield FixedText(id="asked")
        yield Input(id="typed", compact=True, max_length=20)
        yield KeyCatcher(Content("Press the new key; Esc leaves it as it is."), id="catcher")

    def on_mount(self) -> None:
        """Nothing is asked for."""
        self._box.cursor_blink = False  # a blinking cursor costs 260 bytes a second
        self.close()

    @property
    def typing(self) -> bool:
        """Whether a text is awaited."""
        return bool(self._box.display)

    @property
    def catching(self) -> bool:
        """Whether a key is awaited."""
        return bool(self._catcher.display)

    def ask_text(self, asked: str, present: str) -> None:
        """Let a text be typed over the present one."""
        self.query_one("#asked", FixedText).content = Content(asked)
        self._show(text=True)
        self._box.value = present
        self._box.focus()  # and what stands there is selected

    def ask_key(self) -> None:
        """Wait for a key."""
        self._show(key=True)
        self._catcher.focus()

    def close(self) -> None:
        """Ask for nothing any more."""
        self._show()
        self.screen.set_focus(None)

    def _show(self, *, text: bool = False, key: bool = False) -> None:
        self.query_one("#asked").display = self._box.display = text
        self._catcher.display = key

    @property
    def _box(self) -> Input:
        return self.query_one("#typed", Input)

    @property
    def _catcher(self) -> KeyCatcher:
        return self.query_one(KeyCatcher)

    @on(Input.Submitted)
    def _typed(self, event: Input.Submitted) -> None:
        event.stop()
        self.post_message(self.Typed(event.value))
