"""The help of a screen, made from its bindings and the short text beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import ClassVar, Protocol, runtime_checkable

from textual.binding import Binding
from textual.screen import Screen
from textual.widget import Widget

from trainer.app.key_names import key_names
from trainer.app.keys import as_remapped, in_order
from trainer.app.telling.blocks import Block, Paragraph, Rows

WITHOUT_A_SCREEN = (
    "For people who do not see a screen: `trainer practice --plain` is the same sitting in "
    "plain sentences, at any terminal size, with typed moves."
)
REST = (
    "In a long sitting look at something far away now and then, and stand up once an hour: "
    "it is good for the eyes and the back, and nothing here is lost meanwhile."
)


@runtime_checkable
class Helpful(Protocol):
    """A screen with a text beside it that says what it is for."""

    HELP: ClassVar[str]


def help_blocks(screen: Screen[object]) -> tuple[Block, ...]:
    """What the help says of this screen as it stands now."""
    text = screen.HELP if isinstance(screen, Helpful) else ""
    said = [Paragraph(part) for part in text.split("\n\n") if part]
    return (Paragraph(WITHOUT_A_SCREEN), *_keys(screen), *said, Paragraph(REST))


def _keys(screen: Screen[object]) -> Iterator[Block]:
    """The keys of screen and app, then those of each widget that can have the focus."""
    own = {b.id for widget in screen.focus_chain for b in _bindings(widget)}
    yield Rows(tuple(_rows(b for b in in_order(screen) if b.id not in own)), "Keys")
    for widget in screen.focus_chain:
        if rows := tuple(_rows(_bindings(widget))):
            yield Rows(rows, f"Keys while the {_name(widget)} has the focus")


def _name(widget: Widget) -> str:
    return widget.BINDING_GROUP_TITLE or type(widget).__name__.lower()


def _bindings(widget: Widget) -> Iterable[Binding]:
    return as_remapped(widget, (each for each in widget.BINDINGS if isinstance(each, Binding)))


def _rows(bindings: Iterable[Binding]) -> Iterator[tuple[str, str]]:
    """Keys and what they do; Textual's own bindings have no id and are left out."""
    seen = set()
    for binding in bindings:
        if binding.id and binding.id not in seen:
            seen.add(binding.id)
            keys = binding.key_display or key_names(binding.key)
            yield keys, binding.tooltip or binding.description
