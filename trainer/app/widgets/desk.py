"""The desk right of the board: rows with fixed places, so that nothing jumps.

It draws a moment and how far the sitting has come. The box is the one thing to type in;
what is typed there goes to the screen.
"""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.reactive import var
from textual.style import Style
from textual.theme import Theme
from textual.widget import Widget

from trainer.app.telling.blocks import Paragraph
from trainer.app.telling.heading import title as title_of
from trainer.app.telling.moment import NOTHING_YET, Moment, Wants
from trainer.app.telling.sheet import EMPTY, Sheet, sheet
from trainer.app.widgets.fixed_text import FixedText
from trainer.app.widgets.key_bar import KeyBar
from trainer.app.widgets.move_box import MoveBox
from trainer.app.widgets.page import Page
from trainer.app.widgets.sheet_rows import SheetRows
from trainer.app.widgets.strip import Course, SittingStrip
from trainer.app.widgets.two_ends import TwoEnds

_NUMBER, _SAN = 3, 8
"""Columns of the scoresheet: number, two blanks, White's move, a blank, Black's."""


class Desk(Widget):
    """Title, strip, scoresheet with the box, prompt, page and keys."""

    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text(encoding="utf-8")
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "desk--plain",
        "desk--good",
        "desk--bad",
        "desk--help",
        "desk--quiet",
        "desk--struck",
        "desk--headline",
    }

    moment: var[Moment] = var(NOTHING_YET, init=False)
    """What is said."""
    course: var[Course] = var(Course(), init=False)
    """How far the sitting has come."""
    read_back: var[str] = var("", init=False)
    """What the typed text means, in words."""

    def compose(self) -> ComposeResult:
        """The rows from top to bottom."""
        yield TwoEnds(id="title")
        yield SittingStrip(id="strip")
        yield SheetRows(id="sheet")
        with Horizontal(id="open-row"):
            yield FixedText(id="beside")
            yield MoveBox(id="box")
            yield FixedText(id="missed")
        yield FixedText(id="read-back")
        yield FixedText(id="prompt")
        yield Page(id="page")
        yield KeyBar(id="desk-keys")

    def on_mount(self) -> None:
        """Follow the theme: styled text has its colours in it."""
        self.app.theme_changed_signal.subscribe(self, self._redraw)

    def _redraw(self, _theme: Theme) -> None:
        self.call_after_refresh(self._draw_all)

    @property
    def box(self) -> MoveBox:
        """Where moves are typed."""
        return self.query_one(MoveBox)

    @property
    def page(self) -> Page:
        """Where the why stands."""
        return self.query_one(Page)

    def watch_course(self, course: Course) -> None:
        """The strip, and the count in the title."""
        self.query_one(SittingStrip).course = course
        self._draw_title()

    def watch_read_back(self, words: str) -> None:
        """The row under the box."""
        text = Content.styled(words, self._style("quiet"))
        self.query_one("#read-back", FixedText).content = text

    def watch_moment(self, old: Moment, new: Moment) -> None:
        """Everything that belongs to the moment."""
        self._draw_title()
        if old.card is not new.card:
            self._draw_sheet()
        self._draw_box(new)
        self._draw_said(new)

    def on_resize(self) -> None:
        """Whether the headline fits may have changed."""
        self._draw_all()

    def _draw_all(self) -> None:
        self._draw_title()
        self._draw_sheet()
        self._draw_box(self.moment)
        self._draw_said(self.moment)
        self.watch_read_back(self.read_back)

    def _draw_title(self) -> None:
        title = self.query_one("#title", TwoEnds)
        card, course = self.moment.card, self.course
        name = title_of(card, bool(self.moment.answer)) if card is not None else ""
        title.left = Content.styled(name, self._style("headline"))
        counted = course.total and not course.looking
        count = f"{course.place}/{course.total}" if counted else ""
        title.right = Content.styled(count, self._style("quiet"))

    def _draw_sheet(self) -> None:
        card, wants = self.moment.card, self.moment.wants
        shown = sheet(card, move=wants is Wants.MOVE) if card is not None else EMPTY
        self.set_class(not shown.number, "-alone")
        self.set_class(wants is Wants.NUMBER, "-choices")
        self._draw_rows(shown)

    def _draw_rows(self, shown: Sheet) -> None:
        quiet = self._style("quiet")
        self.query_one(SheetRows).rows = tuple(
            Content.assemble(
                (f"{row.number:>{_NUMBER}}", quiet), f"  {row.white:<{_SAN}} {row.black}"
            )
            for row in shown.rows
        )
        beside = Content.assemble((f"{shown.number or '':>{_NUMBER}}", quiet))
        if not shown.white_asked:
            beside += Content(f"  {shown.white:<{_SAN}}")
        self.query_one("#beside", FixedText).content = beside
        self.set_class(shown.white_asked, "-white")

    def _draw_box(self, moment: Moment) -> None:
        box = self.box
        box.set_class(bool(moment.answer) or not moment.asks, "-answered")
        box.set_class(not (moment.answer or moment.asks), "-over")
        box.placeholder = moment.answer or (moment.wants if moment.asks else "")
        missed = Content(" ").join(
            Content.styled(san, self._style("struck")) for san in reversed(moment.missed)
        )
        self.query_one("#missed", FixedText).content = missed

    def _draw_said(self, moment: Moment) -> None:
        prompt = self.query_one("#prompt", FixedText)
        width, height = prompt.content_size
        shown, page = self._prompt(moment, moment.headline), moment.page
        if moment.brief and len(shown.wrap(max(2, width))) > height:
            shown = self._prompt(moment, moment.brief)
            page = (Paragraph(moment.headline), *page)
        prompt.content = shown
        self.page.lead = int(len(shown.wrap(max(2, width))) >= height)
        self.page.blocks = page

    def _prompt(self, moment: Moment, sentence: str) -> Content:
        headline = Content.styled(sentence, self._style("headline"))
        if not moment.sign:
            return headline
        return Content.styled(moment.sign, self._style(moment.tone)) + " " + headline

    def _style(self, name: str) -> Style:
        return self.get_visual_style(f"desk--{name}", partial=True)
