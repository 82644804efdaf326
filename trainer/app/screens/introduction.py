"""The introduction: a sitting of four moves with a word of advice at each, kept by nobody."""

from __future__ import annotations

from typing import ClassVar

from trainer.app.screens.sitting import SittingScreen
from trainer.app.telling.guide import Guide
from trainer.app.telling.teller import Teller
from trainer.service.first_minute import note_introduced
from trainer.service.introduction import prepare_introduction
from trainer.service.study import Study


class IntroductionScreen(SittingScreen):
    """Esc leaves it at any time."""

    NAME: ClassVar[str] = "Introduction"
    HELP: ClassVar[str] = (
        "A first minute at the board: four moves, each with one thing to try. Nothing is kept. "
        "Esc leaves it; i on Today brings it back."
    )
    TELLER: ClassVar[type[Teller]] = Guide

    def __init__(self, study: Study) -> None:
        """:raises TrainerError: the installation lacks its moves."""
        super().__init__(study, prepare_introduction(study))
        note_introduced(study)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Its moves stand in no deck."""
        return False if action == "in_lines" else super().check_action(action, parameters)

    def action_stop(self) -> None:
        """Leave at once: there is nothing to sum up."""
        self.dismiss()
