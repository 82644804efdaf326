"""How this program writes its key bindings: each with an id, a description and a tooltip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol, runtime_checkable

from textual.binding import ActiveBinding, Binding
from textual.dom import DOMNode
from textual.screen import Screen

from trainer.app.key_names import key_name, key_names


@runtime_checkable
class Remapped(Protocol):
    """An app in which steps may have other keys than their bindings say."""

    keys_in_force: Mapping[str, str]
    """Id to `key` or `key,key`, of every step, where any has other keys; else empty.

    Textual does not tell what its keymap is.
    """


def bound(
    keys: str,
    action: str,
    description: str,
    tooltip: str,
    *,
    id: str,
    show: bool = True,
    priority: bool = False,
) -> Binding:
    """A binding whose key is shown by the name that stands on it."""
    return Binding(
        keys,
        action,
        description,
        show=show,
        key_display=key_name(keys.split(",")[0]),
        priority=priority,
        tooltip=tooltip,
        id=id,
    )


def in_order(screen: Screen[object]) -> list[Binding]:
    """The bindings that belong to this moment: focused widget's, screen's in its order, app's.

    One whose action is disabled for a moment (`check_action` gives None) keeps its place.
    """
    order = [binding.id for binding in screen.BINDINGS if isinstance(binding, Binding)]

    def place(active: ActiveBinding) -> int:
        if active.node is screen.app:
            return len(order)
        return order.index(active.binding.id) if active.binding.id in order else -1

    working = sorted(screen.active_bindings.values(), key=place)
    found: dict[str | None, Binding] = {}
    for active in working:
        found.setdefault(active.binding.id, active.binding)
    return [_with_first_key(screen, binding) for binding in found.values()]


def _with_first_key(node: DOMNode, binding: Binding) -> Binding:
    """A remapped binding, shown by the first of its keys as the others are."""
    keys = keys_in_force(node).get(binding.id or "")
    first = key_name(keys.split(",")[0]) if keys else binding.key_display
    return binding if first == binding.key_display else binding.with_key(binding.key, first)


def as_remapped(node: DOMNode, bindings: Iterable[Binding]) -> Iterator[Binding]:
    """Bindings of a class with the keys that they have in the app of this node."""
    for binding in bindings:
        keys = keys_in_force(node).get(binding.id or "", binding.key)
        same = keys == binding.key
        yield binding if same else binding.with_key(keys, key_names(keys))


def keys_in_force(node: DOMNode) -> Mapping[str, str]:
    """The keys of every step in the app of this node; empty where all have their own."""
    return node.app.keys_in_force if isinstance(node.app, Remapped) else {}


def shown_key(binding: Binding) -> str:
    """The key of a binding as it is shown."""
    return binding.key_display or key_name(binding.key)


HELP_KEY = bound(
    "f4", "app.help", "help", "Show all keys of this screen, and what it is for.", id="app.help"
)
"""On every screen; there, and not on the app, so that it has its place among the others."""
