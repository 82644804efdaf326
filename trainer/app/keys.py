"""How this program writes its key bindings: each with an id, a description and a tooltip."""

from __future__ import annotations

from textual.binding import ActiveBinding, Binding
from textual.screen import Screen

_NAMES = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "question_mark": "?",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "space": "Space",
    "home": "Home",
    "end": "End",
    "delete": "Del",
    "backspace": "Backspace",
}


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


def key_name(key: str) -> str:
    """`Enter`, `Ctrl+Z`, `F4`, `?`."""
    if key in _NAMES:
        return _NAMES[key]
    *modifiers, last = key.split("+")
    name = _NAMES.get(last, last.upper())
    return "+".join([*(modifier.title() for modifier in modifiers), name])


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
    return list(found.values())


def shown_key(binding: Binding) -> str:
    """The key of a binding as it is shown."""
    return binding.key_display or key_name(binding.key)


HELP_KEY = bound(
    "f4", "app.help", "help", "Show all keys of this screen, and what it is for.", id="app.help"
)
"""On every screen; there, and not on the app, so that it has its place among the others."""
