"""The terminal program: theme, keys that work everywhere, and which screen comes first.

Screens that the first frame does not need are imported when they are opened.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import BindingType
from textual.driver import Driver

from trainer.app.keys import bound
from trainer.app.screens.today import TodayScreen
from trainer.app.widgets.board import board_variables
from trainer.service.study import Study

if TYPE_CHECKING:
    from trainer.service.practice import Practice


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
        self._practice = practice

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The board's colours, derived from the theme."""
        return board_variables(self.current_theme)

    def on_mount(self) -> None:
        """Take the theme of the settings, then open the first screen."""
        problems = list(self.study.problems)
        wanted = self.study.settings.theme
        if wanted in self.available_themes:
            self.theme = wanted
        else:
            problems.append(f"theme = {wanted!r} is not known; {self.theme} holds")
        self.push_screen(TodayScreen(self.study))
        if self._practice is not None:
            from trainer.app.screens.sitting import SittingScreen

            self.push_screen(SittingScreen(self.study, self._practice))
        for problem in problems:
            self.notify(problem, title="Settings", severity="warning", markup=False, timeout=10)

    def action_help(self) -> None:
        """The help of the screen that is in front."""
        from trainer.app.helping import help_blocks
        from trainer.app.screens.help import HelpScreen

        screen = self.screen
        if not isinstance(screen, HelpScreen):
            name = type(screen).__name__.removesuffix("Screen")
            self.push_screen(HelpScreen(f"Help: {name}", help_blocks(screen)))
