"""The terminal program: theme, keys that work everywhere, and which screen comes first.

Screens that the first frame does not need are imported when they are opened.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import BindingType
from textual.driver import Driver
from textual.filter import LineFilter

from trainer.app.colours import colour_filters
from trainer.app.keys import bound
from trainer.app.screens.today import TodayScreen
from trainer.app.settings_in_force import judge
from trainer.app.widgets.board import board_variables
from trainer.service.study import Study

if TYPE_CHECKING:
    from trainer.service.practice import Practice

TOLD = 4
"""Problems with the settings that are told at start, one notification each."""


class TrainerApp(App[None]):
    """One study on the screen."""

    TITLE = "Opening line trainer"
    CSS_PATH = Path(__file__).with_suffix(".tcss")
    ENABLE_COMMAND_PALETTE = False
    """Every step has its key, and the help lists them; the theme is a setting."""
    BINDINGS: ClassVar[list[BindingType]] = [
        bound(
            "ctrl+q,ctrl+c",
            "quit",
            "quit",
            "Leave the program; every answer is saved.",
            id="app.quit",
            priority=True,
        ),
    ]

    def __init__(
        self,
        study: Study,
        practice: Practice | None = None,
        driver_class: type[Driver] | None = None,
    ) -> None:
        """
        :param practice: a sitting to open at once; Today comes after it.
        :param driver_class: the driver of a test or a measurement; None for the terminal's.
        """
        super().__init__(driver_class=driver_class)
        self.study = study
        self.keys_in_force: Mapping[str, str] = {}
        """Of every step, by the ids of their bindings; empty where none is remapped."""
        self._practice = practice

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The board's colours, derived from the theme."""
        return board_variables(self.current_theme)

    def get_line_filters(self) -> Sequence[LineFilter]:
        """NO_COLOR as the theme of the moment needs it."""
        return colour_filters(super().get_line_filters(), self.native_ansi_color)

    def on_mount(self) -> None:
        """Take theme and keys of the settings, then open the first screen."""
        problems = [*self.study.problems, *self._apply()]
        self.push_screen(TodayScreen(self.study, introduces=self._practice is None))
        if self._practice is not None:
            from trainer.app.screens.sitting import SittingScreen

            self.push_screen(SittingScreen(self.study, self._practice))
        self._tell(problems)

    def _apply(self) -> tuple[str, ...]:
        """Let the settings hold on the screen; a sentence for each thing that cannot."""
        judged = judge(self.study.file, self)
        self.theme = judged.theme
        if judged.keymap != self.keys_in_force:
            self.keys_in_force = judged.keymap
            self.set_keymap(dict(judged.keymap))
        return judged.problems

    def on_settings_screen_changed(self) -> None:
        """A setting was changed on its screen, which says itself what is wrong."""
        self._apply()

    def _tell(self, problems: Sequence[str]) -> None:
        """Say what is wrong with the file, as far as there is room; Settings has it all."""
        told = list(problems[:TOLD])
        if more := len(problems) - len(told):
            told.append(f"{more} more: see Settings")
        for problem in told:
            short = problem.replace(str(self.study.file.path), self.study.file.path.name)
            self.notify(short, title="Settings", severity="warning", markup=False, timeout=10)

    def action_help(self) -> None:
        """The help of the screen that is in front."""
        from trainer.app.helping import help_blocks
        from trainer.app.screens.help import HelpScreen

        screen = self.screen
        if not isinstance(screen, HelpScreen):
            name = type(screen).__name__.removesuffix("Screen")
            self.push_screen(HelpScreen(f"Help: {name}", help_blocks(screen)))
