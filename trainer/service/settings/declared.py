"""Every setting, declared once: its name, default, good values, and what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import time
from typing import Any

from trainer.memory.day import DAY_STARTS
from trainer.memory.quality import HESITATION_SECONDS
from trainer.service.settings.kinds import (
    Choice,
    Count,
    Kind,
    Name,
    Seconds,
    Switch,
    TimeOfDay,
)

LANGUAGES = ("en", "de", "es", "fr", "it", "nl", "pl", "ru")
"""Those of `lines.letters`, which a report on the day need not load."""

KEYS = "keys"
"""The table in which keys are set; its entries are named by the bindings of the screens."""

KEYS_HELP = "A key of your own for a step, by the step's name; Settings lists them all."


@dataclass(frozen=True, slots=True)
class Setting:
    """What is to be known of one setting."""

    name: str
    default: Any
    kind: Kind
    help: str
    """One line: what it changes."""
    table: str = ""
    """The table of the file that it stands in; empty for none."""

    @property
    def place(self) -> tuple[str, ...]:
        """The keys that lead to it in the file."""
        return (self.table, self.name) if self.table else (self.name,)


def _setting(default: Any, kind: Kind, help: str, table: str = "") -> Any:
    return field(default=default, metadata={"kind": kind, "help": help, "table": table})


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings; the defaults hold where the file says nothing."""

    hesitation_seconds: float = _setting(
        HESITATION_SECONDS,
        Seconds(most=3600),
        "A right first try within this many seconds earns a 5, a later one a 4.",
    )
    fresh_per_day: int = _setting(
        10, Count(most=10_000), "How many fresh positions a day brings at most."
    )
    day_starts: time = _setting(  # noqa: RUF009 - it makes a field
        DAY_STARTS, TimeOfDay(), "When a day begins: practice before it counts for the day before."
    )
    first_look: str = _setting(
        "show",
        Choice("show", "ask"),
        "Show a fresh position with its move before it is asked, or ask it at once.",
    )
    piece_letters: str = _setting(
        "en",
        Choice(*LANGUAGES),
        "The language of the piece letters that you type; English ones are read too.",
    )
    pieces: str = _setting(
        "drawn", Choice("drawn", "letters"), "Pieces as drawn shapes, or as their letters."
    )
    board_size: str = _setting(
        "largest",
        Choice("largest", "large", "medium", "small"),
        "The largest board that fits the window, or one no larger than this.",
    )
    show_targets: bool = _setting(
        True, Switch(), "Mark the squares that the piece in hand may go to."
    )
    theme: str = _setting("textual-dark", Name("the name of a theme"), "The colours.")
    motion: bool = _setting(True, Switch(), "Play the opponent's move in two steps.")
    part_credit: bool = _setting(
        True,
        Switch(),
        "A right answer before its day earns part of its interval.",
        table="schedule",
    )
    keys: Mapping[str, str] = field(default_factory=dict)
    """Binding id to `key` or `key,key`; whether they can be used is for the app to say."""


SETTINGS: tuple[Setting, ...] = tuple(
    Setting(found.name, found.default, **found.metadata)
    for found in fields(Settings)
    if found.metadata
)
"""All but the keys, in the order in which they are shown."""

BY_NAME = {setting.name: setting for setting in SETTINGS}
TABLES = tuple(dict.fromkeys(setting.table for setting in SETTINGS if setting.table))
