"""All steps of the program, by the moments at which they wait for their keys.

Taken from the `BINDINGS` of the app, its screens and the widgets that can have the focus.
Loads every screen: only who has keys of their own, or looks at the keys, needs it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

from textual.app import App
from textual.binding import Binding
from textual.dom import DOMNode
from textual.screen import Screen
from textual.widget import Widget

from trainer.app import screens
from trainer.app.key_clashes import Scope, Step
from trainer.app.screens.lines import LinesScreen
from trainer.app.screens.sitting import SittingScreen
from trainer.app.widgets.board import Board
from trainer.app.widgets.find_box import FindBox
from trainer.app.widgets.move_box import MoveBox

FOCUSED: Mapping[type[Screen[Any]], tuple[type[Widget], ...]] = {
    SittingScreen: (MoveBox, Board),
    LinesScreen: (FindBox, Board),
}
"""Screens on which moves are typed, wherever the focus is, and the widgets that can have it."""


def bindings_of(node: type[DOMNode]) -> Iterator[Binding]:
    """The bindings with an id of a class and those it derives from, its own first."""
    seen = set()
    for kind in node.__mro__:
        for binding in vars(kind).get("BINDINGS", ()):
            if isinstance(binding, Binding) and binding.id and binding.id not in seen:
                seen.add(binding.id)
                yield binding


def scopes_of(app: type[App[None]]) -> tuple[Scope, ...]:
    """The moments, one for each screen and each widget that can have the focus there."""
    return tuple(_scopes(app))


def _scopes(app: type[App[None]]) -> Iterator[Scope]:
    for screen in sorted(_screens(), key=lambda screen: (len(screen.__mro__), screen.__name__)):
        focused = [widgets for base, widgets in FOCUSED.items() if issubclass(screen, base)]
        for widget in focused[0] if focused else (None,):
            nodes: list[type[DOMNode]] = [screen, app, *([widget] if widget else [])]
            steps = [_step(binding) for node in nodes for binding in bindings_of(node)]
            name = screen.__name__.removesuffix("Screen")
            yield Scope(name, tuple(steps), typing=bool(focused))


def _step(binding: Binding) -> Step:
    assert binding.id is not None
    keys = tuple(binding.key.split(","))
    return Step(binding.id, keys, binding.description, binding.tooltip)


def _screens() -> Iterator[type[Screen[Any]]]:
    """The screens that have steps: each module of the package defines its own."""
    for found in iter_modules(screens.__path__):
        module = import_module(f"{screens.__name__}.{found.name}")
        for kind in vars(module).values():
            if (
                isinstance(kind, type)
                and issubclass(kind, Screen)
                and kind.__module__ == module.__name__
                and any(bindings_of(kind))
            ):
                yield kind
