"""Every text, sign and bar can be read in every theme, with all colours and with 256."""

import re
from pathlib import Path

import pytest
from textual.app import App
from textual.color import Color
from textual.filter import Monochrome, NoColor
from textual.theme import BUILTIN_THEMES, Theme

import trainer.app
from trainer.app.colours import (
    GRAPHIC,
    TEXT,
    colour_filters,
    contrast,
    luminance,
    of_256,
    readable,
)
from trainer.app.widgets.board import BoardPicture, Face, board_variables

RGB_THEMES = [theme for theme in BUILTIN_THEMES.values() if not theme.ansi]
EVERY_THEME = pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)

SHEETS = sorted(Path(trainer.app.__file__).parent.rglob("*.tcss"))

PAPERS = ("background", "surface", "panel")
TEXTS = ("ink", "ink-quiet", "ink-good", "ink-bad", "ink-help", "ink-cue")
PAIRS = [
    *((ink, paper, TEXT) for ink in TEXTS for paper in PAPERS),
    *(("ink-bar", paper, GRAPHIC) for paper in PAPERS),
    ("ink", "box", TEXT),
    ("box-quiet", "box", TEXT),
    ("background", "ink", TEXT),
    *(
        (piece, square, GRAPHIC)
        for piece in ("board-white", "board-black")
        for square in ("board-dark", "board-light")
    ),
    *(("board-note", square, GRAPHIC) for square in ("board-dark", "board-light")),
    ("board-white", "board-dark", TEXT),
    ("board-black", "board-light", TEXT),
    ("board-white", "board-black", TEXT),
]
"""What stands on what, and the contrast it must have: the last three are letters on squares."""

INKS = {ink for ink, _, _ in PAIRS}
GROUNDS = {ground for _, ground, _ in PAIRS}


def variables(theme):
    """What a style sheet finds: ours, and Textual's, which win where both have one."""
    theirs = {**theme.to_color_system().generate(), **theme.variables}
    return {**board_variables(theme), **theirs}


@EVERY_THEME
def test_everything_can_be_read(theme):
    found = variables(theme)
    for one, other, least in PAIRS:
        pair = [Color.parse(found[name]) for name in (one, other)]
        assert all(colour.a == 1 for colour in pair), (one, other)
        ink, paper = (colour.hex6 for colour in pair)
        assert contrast(ink, paper) >= least, (one, other)
        assert contrast(of_256(ink), of_256(paper)) >= least, (one, other, "256 colours")


@EVERY_THEME
def test_greys_of_no_color_can_be_told_too(theme):
    found = variables(theme)
    for one, other, least in PAIRS:
        ink, paper = (Color.parse(found[name]).monochrome.hex6 for name in (one, other))
        # The greys are Textual's, weighed otherwise than contrast is: a tenth may be lost.
        assert contrast(ink, paper) >= 0.9 * least, (one, other)


@EVERY_THEME
def test_a_box_is_seen_on_the_desk(theme):
    found = variables(theme)
    # Common practice; no source: WCAG asks no contrast of a filling behind text.
    assert contrast(found["box"], Color.parse(found["background"]).hex6) >= 1.2


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.stem)
def test_style_sheets_use_no_other_colours(sheet):
    text = sheet.read_text(encoding="utf-8")
    for name, value in re.findall(r"(?<![\w-])(color|background): *([^;]+);", text):
        known = INKS if name == "color" else GROUNDS | INKS
        assert value.split()[0].removeprefix("$") in known, (name, value)


def test_the_contrast_is_that_of_the_standard():
    # Source: WCAG 2.2, definition of contrast ratio: white on black is 21 to 1.
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)
    # Source: the same, relative luminance; #777777 worked by hand.
    assert luminance("#777777") == pytest.approx(0.184, abs=0.0005)


def test_a_colour_that_can_be_read_stays_and_another_moves_away_from_its_paper():
    assert readable("#e0e0e0", ["#121212"], TEXT).lower() == "#e0e0e0"
    assert luminance(readable("#ee9999", ["#ffffff"], TEXT)) < luminance("#ee9999")
    assert luminance(readable("#552222", ["#121212"], TEXT)) > luminance("#552222")
    # No colour has that much on a middle grey: black has the most. Worked by hand.
    assert luminance(readable("#777777", ["#777777"], 10)) < luminance("#111111")


def test_a_colour_keeps_its_hue_while_it_is_moved():
    moved = Color.parse(readable("#883333", ["#121212"], 4.5))
    assert moved.r > moved.g == moved.b


class Table(App[None]):
    """A board under NO_COLOR."""

    def get_theme_variable_defaults(self):
        return board_variables(self.current_theme)

    def get_line_filters(self):
        return colour_filters(super().get_line_filters(), self.native_ansi_color)

    def compose(self):
        yield BoardPicture()


async def test_no_color_follows_a_live_switch_of_the_theme(monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    app = Table()
    async with app.run_test() as pilot:
        for theme, filtered, face in [
            ("ansi-dark", NoColor, Face.PLAIN),
            ("nord", Monochrome, Face.DRAWN),
        ]:
            app.theme = theme
            await pilot.pause()
            assert isinstance(app.get_line_filters()[-1], filtered)
            picture = app.query_one(BoardPicture)
            assert picture.square_size.face is face


def test_a_theme_of_ones_own_is_derived_as_well():
    own = Theme("own", primary="#886600", background="#333333", foreground="#444444")
    found = variables(own)
    assert contrast(found["ink"], "#333333") >= TEXT
