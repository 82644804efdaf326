"""The board's colours are the theme's in every theme, and never wood or grass."""

import colorsys

import pytest
from textual.color import Color
from textual.theme import BUILTIN_THEMES

from trainer.app.colours import contrast, of_256
from trainer.app.widgets.board.colours import board_variables, palette_for

RGB_THEMES = [theme for theme in BUILTIN_THEMES.values() if not theme.ansi]


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_light_and_dark_squares_are_told_apart(theme):
    board = board_variables(theme)
    dark, light = board["board-dark"], board["board-light"]
    # Common practice; no source: pieces on both need room on either side.
    assert contrast(light, dark) >= 1.65
    assert contrast(of_256(light), of_256(dark)) >= 1.5


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_a_note_is_not_white(theme):
    red, _, blue = Color.parse(board_variables(theme)["board-note"]).rgb
    assert red - blue > 20


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_no_theme_yields_a_wooden_or_a_green_board(theme):
    board = board_variables(theme)
    for square in ("board-dark", "board-light"):
        hue, _, saturation = colorsys.rgb_to_hls(*Color.parse(board[square]).normalized)
        # Rounding to whole parts of 255 leaves a grey a saturation of no more than a hundredth.
        assert saturation < 0.01 or not 15 <= 360 * hue <= 165
        assert saturation <= 0.11


@pytest.mark.parametrize(
    ("_name", "primary"),
    [("brown", "#8b5a2b"), ("olive", "#808000"), ("green", "#2e8b57"), ("grey", "#777777")],
)
def test_brown_to_green_turns_grey(_name, primary):
    palette = palette_for(primary, "#ffa62b")
    for colour in (palette.dark, palette.light):
        red, green, blue = Color.parse(colour).rgb
        assert red == green == blue


def test_the_squares_carry_a_breath_of_the_theme():
    red, _, blue = Color.parse(palette_for("#0178D4", "#ffa62b").dark).rgb
    assert blue > red


def test_a_terminal_theme_without_rgb_still_gives_colours():
    board = board_variables(BUILTIN_THEMES["ansi-dark"])
    assert all(Color.parse(value) for value in board.values())
