"""Settings: what can be set, what it is for, and which key takes which step.

The screen draws the file and writes it; a change is in the file, and holds, at once.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.screen import Screen

from trainer.app.key_clashes import Step, sort_out
from trainer.app.key_scopes import scopes_of
from trainer.app.keys import HELP_KEY, bound
from trainer.app.screens.settings_rows import (
    Entry,
    choices_of,
    key_entries,
    problem_entries,
    setting_entries,
    stepped,
)
from trainer.app.settings_in_force import judge
from trainer.app.widgets.fixed_text import FixedText
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.page import Page
from trainer.app.widgets.setting_entry import KeyCatcher, SettingEntry
from trainer.app.widgets.setting_list import SettingList, SettingRow
from trainer.app.widgets.two_ends import TwoEnds
from trainer.errors import TrainerError
from trainer.service.settings.declared import Setting
from trainer.service.study import Study

WIDTHS = [(0, "-narrow"), (110, "-wide")]
HEIGHTS = [(0, "-low"), (20, "-high")]


class SettingsScreen(Screen[None]):
    """A list on the left or above, and beside it what the chosen row is about."""

    CSS_PATH = "settings.tcss"
    AUTO_FOCUS = ""
    HORIZONTAL_BREAKPOINTS = WIDTHS
    VERTICAL_BREAKPOINTS = HEIGHTS
    HELP: ClassVar[str] = (
        "↑ and ↓ choose a setting, ← and → go through its values; Enter does so too, or lets "
        "you type a number, or press a new key for a step. Del brings the default back. Every "
        "change is written into settings.toml at once and holds at once; the file can be "
        "edited by hand as well, and its comments are kept. • marks what is not the default."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        bound("enter", "change", "change", "Change what is chosen.", id="settings.change"),
        bound("delete", "restore", "default", "Back to the default.", id="settings.restore"),
        bound("escape", "cancel", "cancel", "Leave it as it was.", id="settings.cancel"),
        bound("escape", "dismiss", "back", "Back; all is saved.", id="settings.back"),
        HELP_KEY,
        bound("up", "move(-1)", "up", "One row up.", id="settings.up", show=False),
        bound("down", "move(1)", "down", "One row down.", id="settings.down", show=False),
        bound(
            "left",
            "step(-1)",
            "previous value",
            "The value before.",
            id="settings.left",
            show=False,
        ),
        bound("right", "step(1)", "next value", "The next value.", id="settings.right", show=False),
        bound("pageup", "turn(-1)", "page up", "A page up.", id="settings.page_up", show=False),
        bound(
            "pagedown", "turn(1)", "page down", "A page down.", id="settings.page_down", show=False
        ),
        bound("home", "move(-999)", "first", "The first row.", id="settings.first", show=False),
        bound("end", "move(999)", "last", "The last row.", id="settings.last", show=False),
    ]

    class Changed(Message):
        """The file was written, or read again: the app lets it hold."""

    def __init__(self, study: Study) -> None:
        super().__init__()
        self._study = study
        self._entries: tuple[Entry, ...] = ()

    def compose(self) -> ComposeResult:
        """Header, list, what the chosen row is about, keys."""
        yield TwoEnds(id="header")
        with Vertical(id="table"):
            yield SettingList(id="list")
            with Vertical(id="side"):
                yield Page(id="about")
                yield SettingEntry(id="entry")
                yield FixedText(id="note")
        yield KeyBar(id="keys")

    def on_mount(self) -> None:
        """The file as it is, its problems first."""
        self.app.clear_notifications()  # the list has them all
        self._study.read_settings_again()
        self.post_message(self.Changed())
        self._scopes = scopes_of(type(self.app))
        self._draw()

    def on_resize(self, _event: Resize) -> None:
        """The file's name at the top; of a long path its end is seen."""
        path = _under_home(self._study.file.path)
        room = max(20, self.size.width - len("Settings") - 6)
        path = path if len(path) <= room else f"…{path[1 - room :]}"
        self.query_one("#header", TwoEnds).left = Content.assemble(
            ("Settings", "bold"), f"   {path}"
        )

    # What is shown

    def _draw(self) -> None:
        """The rows anew; what was chosen stays chosen."""
        file = self._study.file
        judged = judge(file, self.app)
        before = self._chosen.place if self._entries else ()
        self._entries = (
            *problem_entries(file, (*file.problems, *judged.problems)),
            *setting_entries(file, sorted(self.app.available_themes)),
            *key_entries(file, judged.own_keys, self._scopes),
        )
        rows = [SettingRow(it.section, it.label, it.value, it.own) for it in self._entries]
        places = [entry.place for entry in self._entries]
        self._list.rows = tuple(rows)
        self._choose(places.index(before) if before in places else 0)

    @property
    def _list(self) -> SettingList:
        return self.query_one(SettingList)

    @property
    def _chosen(self) -> Entry:
        return self._entries[self._list.chosen]

    def _choose(self, place: int) -> None:
        self._list.chosen = min(max(0, place), len(self._entries) - 1)
        self.query_one("#about", Page).blocks = self._chosen.about
        self.refresh_bindings()

    @property
    def _entry(self) -> SettingEntry:
        return self.query_one(SettingEntry)

    def _note(self, text: str) -> None:
        self.query_one("#note", FixedText).content = Content(text)

    # Choosing

    def action_move(self, rows: int) -> None:
        """So many rows down, or up."""
        self._note("")
        self._choose(self._list.chosen + rows)

    def action_turn(self, pages: int) -> None:
        """By a screenful."""
        self._choose(self._list.chosen + pages * self._list.screenful)

    @on(SettingList.Chosen)
    def _clicked(self, event: SettingList.Chosen) -> None:
        self._entry.close()
        self._choose(event.place)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While something is typed, or a key is awaited, nothing else is done."""
        if not (self.is_mounted and self._entries) or action not in _OWN:
            return super().check_action(action, parameters)
        entry, chosen = self._entry, self._chosen
        match action:
            case "cancel":
                return entry.typing
            case "change":
                return not (entry.typing or entry.catching) and chosen.subject is not None
            case "restore":
                wanted = chosen.own or chosen.written
                return wanted and not (entry.typing or entry.catching)
        return not (entry.typing or entry.catching)

    # Changing

    def action_change(self) -> None:
        """The next value, or a row in which to give one."""
        self.action_step(1)

    def action_step(self, by: int) -> None:
        """Go through the values; where there is no list of them, ask for one."""
        chosen = self._chosen
        self._note("")
        match chosen.subject:
            case Setting() as setting:
                choices = choices_of(setting, sorted(self.app.available_themes))
                if choices:
                    present = getattr(self._study.settings, setting.name)
                    self._write(chosen, stepped(choices, present, by))
                else:
                    self._entry.ask_text(f"{chosen.label}:", chosen.value)
                    self._note("Enter saves it, Esc leaves it as it was.")
            case Step():
                self._entry.ask_key()
        self.refresh_bindings()

    def action_restore(self) -> None:
        """Take it out of the file, so that the default holds."""
        self._write(self._chosen, None)

    def action_cancel(self) -> None:
        """Nothing is typed any more."""
        self._entry.close()
        self._note("")
        self.refresh_bindings()

    @on(SettingEntry.Typed)
    def _typed(self, event: SettingEntry.Typed) -> None:
        chosen = self._chosen
        if isinstance(setting := chosen.subject, Setting):
            value = setting.kind.typed(event.text)
            if value is None:
                self._note(f"× wanted: {setting.kind.wanted}")
            else:
                self._entry.close()
                self._write(chosen, value)

    @on(KeyCatcher.Caught)
    def _caught(self, event: KeyCatcher.Caught) -> None:
        chosen, key = self._chosen, event.key
        if key == "escape":
            self.action_cancel()
        elif isinstance(step := chosen.subject, Step):
            wanted = dict(self._study.settings.keys)
            wanted.pop(step.id, None)
            outcome = sort_out({**wanted, step.id: key}, self._scopes)
            refused = [it.reason for it in outcome.refused if it.id == step.id]
            if refused:
                self._note(f"× {refused[0]}; press another, or Esc")
            else:
                self._entry.close()
                self._write(chosen, key)

    def _write(self, entry: Entry, value: Any | None) -> None:
        """Into the file; the app lets it hold."""
        try:
            self._study.change(*entry.place, value=value)
        except TrainerError as error:
            self._note(f"× not saved: {error}")
            return
        self.post_message(self.Changed())
        self.call_after_refresh(self._written, value is None)

    def _written(self, restored: bool) -> None:
        self._draw()
        chosen = self._chosen
        what = "default again" if restored else "saved"
        self._note(f"● {what} · {chosen.label}: {chosen.value}")


_OWN = frozenset({"cancel", "change", "restore", "step", "move", "turn", "dismiss"})
"""Actions that wait while a value is given."""


def _under_home(path: Path) -> str:
    """The path, the user's folder as `~`."""
    home = Path.home()
    return str(Path("~") / path.relative_to(home)) if path.is_relative_to(home) else str(path)
