"""Today: what is due and why, and one key to start.

What the first frame does not need is imported when it is needed.
"""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Resize
from textual.screen import Screen

from trainer.app.keys import HELP_KEY, bound
from trainer.app.telling.day import Offer, decks, offer, reasons
from trainer.app.widgets.band import Band
from trainer.app.widgets.forecast import Forecast
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.page import Page
from trainer.app.widgets.reasons import Reasons
from trainer.app.widgets.two_ends import TwoEnds
from trainer.errors import TrainerError
from trainer.service.first_minute import was_introduced
from trainer.service.study import Study
from trainer.service.today import Today, report_today
from trainer.service.words import day_name

ROOM_FOR_A_BOARD = (110, 30)
"""From this terminal size on a board stands beside the day."""

WIDTHS = [(0, "-narrow"), (ROOM_FOR_A_BOARD[0], "-wide")]
HEIGHTS = [(0, "-short"), (ROOM_FOR_A_BOARD[1], "-high")]


class TodayScreen(Screen[None]):
    """The first screen."""

    CSS_PATH = "today.tcss"
    HORIZONTAL_BREAKPOINTS = WIDTHS
    VERTICAL_BREAKPOINTS = HEIGHTS
    HELP: ClassVar[str] = (
        "Today says what is due and how long it will take. Due positions are those you are "
        "about to forget; fresh ones you have not met yet; once more means that an answer of "
        "today was not right at once. A deck holds a position when your last answer to it was "
        "right at the first try."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        bound("enter", "start", "start", "Begin the sitting that is offered.", id="today.start"),
        bound("l", "lines", "lines", "Look through the lines of the decks.", id="today.lines"),
        bound("s", "settings", "settings", "Change the settings.", id="today.settings"),
        bound(
            "i",
            "introduction",
            "introduction",
            "Play through the first-minute introduction.",
            id="today.introduction",
        ),
        bound("pagedown", "turn(1)", "on", "More decks.", id="today.on", show=False),
        bound("pageup", "turn(-1)", "back", "Back to the first decks.", id="today.up", show=False),
        HELP_KEY,
    ]

    def __init__(self, study: Study, introduces: bool = True) -> None:
        """:param introduces: whether a new student is shown the introduction first."""
        super().__init__()
        self._study = study
        self._offer = Offer("")
        self._introduces = introduces

    def compose(self) -> ComposeResult:
        """The day on the left, the shakiest position on the right."""
        yield TwoEnds(id="header")
        with Horizontal(id="table"):
            with Vertical(id="day"):
                yield Band("today.start", id="band")
                yield Reasons(id="reasons")
                yield Forecast(id="forecast")
                yield Page(id="decks")
            yield Vertical(id="beside")
        yield KeyBar(id="keys")

    def on_screen_resume(self) -> None:
        """The day as it stands now; without a deck the welcome comes first."""
        report = report_today(self._study)
        if report.decks:
            self._draw(report)
            self.call_after_refresh(self._draw_shakiest)
            if self._introduces and not was_introduced(self._study):
                self.action_introduction()
        else:
            from trainer.app.screens.welcome import WelcomeScreen

            self.app.push_screen(WelcomeScreen(self._study))

    def _draw(self, report: Today) -> None:
        header = Content.assemble(("Today", "bold"), f"   {day_name(report.date)}")
        self.query_one("#header", TwoEnds).left = header
        self._offer = offer(report)
        band = self.query_one(Band)
        band.sentence, band.step = self._offer.sentence, self._offer.step
        self.query_one(Reasons).rows = reasons(report)
        self.query_one(Forecast).days = report.days_ahead
        self.query_one("#decks", Page).blocks = decks(report)
        self.refresh_bindings()

    async def _draw_shakiest(self) -> None:
        """The shakiest position, after the first frame and where there is room for it."""
        beside = self.query_one("#beside", Vertical)
        beside.display = self._has_room()
        if not beside.display:
            return
        from trainer.app.taste import taste_of
        from trainer.app.widgets.shaky_position import ShakyPosition
        from trainer.service.preparation import Wish, prepare_practice
        from trainer.service.shakiest import shakiest_due

        taste = taste_of(self._study.settings)
        if not beside.children:
            await beside.mount(ShakyPosition(taste=taste))
        shaky = beside.query_one(ShakyPosition)
        shaky.taste = taste
        shaky.fit()
        try:
            practice = prepare_practice(self._study, Wish())
        except TrainerError:  # starting says why; here is only a picture less
            beside.display = False
        else:
            shaky.shaky = shakiest_due(self._study, practice)

    def _has_room(self) -> bool:
        wide, high = ROOM_FOR_A_BOARD
        return self.size.width >= wide and self.size.height >= high

    def on_resize(self, _event: Resize) -> None:
        """A board where there is room for it now, as large as there is room."""
        beside = self.query_one("#beside")
        if self._has_room() is not beside.display:
            self.call_after_refresh(self._draw_shakiest)
        elif beside.children:
            from trainer.app.widgets.shaky_position import ShakyPosition

            beside.query_one(ShakyPosition).fit()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing to start, nothing to press."""
        if action == "start" and not self._offer.step:
            return False
        return super().check_action(action, parameters)

    @on(Band.Taken)
    def action_start(self) -> None:
        """Open the sitting that is offered."""
        if not self._offer.step:
            return
        from trainer.app.screens.sitting import SittingScreen
        from trainer.service.preparation import Wish, prepare_practice

        try:
            practice = prepare_practice(self._study, Wish(fresh=self._offer.fresh))
        except TrainerError as error:
            self.notify(str(error), severity="error", markup=False)
        else:
            self.app.push_screen(SittingScreen(self._study, practice))

    def action_lines(self) -> None:
        """Look through the lines."""
        from trainer.app.screens.lines import LinesScreen

        self.app.push_screen(LinesScreen(self._study))

    def action_settings(self) -> None:
        """Change the settings."""
        from trainer.app.screens.settings import SettingsScreen

        self.app.push_screen(SettingsScreen(self._study))

    def action_introduction(self) -> None:
        """Play through the introduction."""
        from trainer.app.screens.introduction import IntroductionScreen

        self._introduces = False  # once is enough, even where the home cannot keep it
        try:
            self.app.push_screen(IntroductionScreen(self._study))
        except TrainerError as error:
            self.notify(str(error), severity="error", markup=False)

    def action_turn(self, pages: int) -> None:
        """Through the decks."""
        self.query_one("#decks", Page).turn(pages)
