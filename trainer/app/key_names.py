"""Keys by name: as Textual writes them, as they stand on the keyboard, and as people type them."""

from __future__ import annotations

import re
import unicodedata

from textual.keys import KEY_NAME_REPLACEMENTS, Keys, key_to_character

_NAMES = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "space": "Space",
    "home": "Home",
    "end": "End",
    "insert": "Ins",
    "delete": "Del",
    "backspace": "Backspace",
}

_OTHER_NAMES = {
    **{shown.lower(): key for key, shown in _NAMES.items()},
    "return": "enter",
    "page_up": "pageup",
    "page_down": "pagedown",
    "bksp": "backspace",
    "hyphen": "minus",
}

_SAME = {"ctrl+i": "tab", "ctrl+m": "enter", "ctrl+left_square_bracket": "escape"}
"""What a terminal cannot tell apart."""

_MODIFIERS = frozenset({"alt", "ctrl", "hyper", "meta", "shift", "super"})
_UNICODE_NAMES = {short: long for long, short in KEY_NAME_REPLACEMENTS.items()}
_NAMED = frozenset(key.value for key in Keys if "<" not in key.value)


def key_name(key: str) -> str:
    """`Enter`, `Ctrl+Z`, `F4`, `?`: as it stands on the keyboard."""
    *modifiers, last = key.split("+")
    sign = _sign(last)
    if last in _NAMES:
        name = _NAMES[last]
    elif len(last) == 1 and last.isupper():
        name = f"Shift+{last}"
    else:
        name = (sign or last.replace("_", " ")).upper()
    return "+".join([*(modifier.title() for modifier in modifiers), name])


def key_names(keys: str) -> str:
    """`Tab, Shift+Tab`."""
    return ", ".join(map(key_name, keys.split(",")))


def read_key(text: str) -> str | None:
    """The key of a typed name (`ctrl+t`, `F7`, `PgDn`, `?`), as Textual writes it; or None."""
    text = text.strip()
    *before, last = re.sub(r"\+$", "plus", text).split("+")
    modifiers = sorted({modifier.strip().lower() for modifier in before})
    last = last.strip()
    key = _OTHER_NAMES.get(last) or (_of_sign(last) if len(last) == 1 else _of_name(last.lower()))
    if key is None or not _MODIFIERS.issuperset(modifiers):
        return None
    if len(key) == 1 and modifiers:
        key = key.upper() if modifiers == ["shift"] else key.lower()
        modifiers = [] if modifiers == ["shift"] else modifiers
    whole = "+".join([*modifiers, key])
    return _SAME.get(whole, whole)


def is_typed(key: str) -> bool:
    """Whether the key writes a sign into a text."""
    sign = _sign(key)
    return sign is not None and sign.isprintable()


def _of_sign(sign: str) -> str | None:
    if not sign.isprintable():
        return None
    if sign.isalnum():
        return sign
    name = unicodedata.name(sign, "").lower().replace("-", "_").replace(" ", "_")
    return KEY_NAME_REPLACEMENTS.get(name, name) or None


def _of_name(name: str) -> str | None:
    name = _OTHER_NAMES.get(name, name)
    if name in _NAMED or name in _NAMES:
        return name
    sign = _sign(name)
    return _of_sign(sign) if sign else None


def _sign(key: str) -> str | None:
    """The sign that a key without modifiers writes."""
    return key_to_character(_UNICODE_NAMES.get(key, key))
