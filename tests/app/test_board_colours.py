"""The board's colours keep their contrast in every theme, and are never wood or grass."""

import colorsys

import pytest
from rich.color import Color as RichColor
from rich.color import ColorSystem
from textual.color import Color
from textual.theme import BUILTIN_THEMES

from trainer.app.widgets.board.colours import board_variables, luminance, palette_for

RGB_THEMES = [theme for theme in BUILTIN_THEMES.values() if not theme.ansi]


def contrast(one: str, other: str) -> float:
    """Source: WCAG 2.2, definition of contrast ratio."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_every_piece_stands_out_on_every_square(theme):
    # Source: WCAG 2.2, success criterion 1.4.11: 3:1 for what a graphic must show.
    board = board_variables(theme)
    for square in ("board-dark", "board-light"):
        for piece in ("board-white", "board-black"):
            assert contrast(board[square], board[piece]) >= 3
    assert contrast(board["board-light"], board["board-dark"]) >= 1.75


def with_256(colour: str) -> str:
    """Agrees with rich 15.0, run live: what a terminal with 256 colours is sent."""
    sent = RichColor.parse(colour).downgrade(ColorSystem.EIGHT_BIT)
    return sent.get_truecolor().hex


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_pieces_stand_out_with_256_colours_too(theme):
    board = {name: with_256(colour) for name, colour in board_variables(theme).items()}
    for square in ("board-dark", "board-light"):
        for piece in ("board-white", "board-black"):
            assert contrast(board[square], board[piece]) >= 3
    assert board["board-dark"] != board["board-light"]


@pytest.mark.parametrize("theme", RGB_THEMES, ids=lambda theme: theme.name)
def test_a_note_is_seen_on_both_squares_and_is_not_white(theme):
    board = board_variables(theme)
    assert contrast(board["board-note"], board["board-light"]) >= 2.6
    assert contrast(board["board-note"], board["board-dark"]) >= 4.7
    red, _, blue = Color.parse(board["board-note"]).rgb
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


def test_luminance_is_that_of_the_standard():
    # Source: WCAG 2.2, relative luminance: white 1, black 0; #777777 is 0.184 (worked by hand).
    assert luminance("#ffffff") == pytest.approx(1)
    assert luminance("#000000") == 0
    assert luminance("#777777") == pytest.approx(0.184, abs=0.0005)


def test_a_terminal_theme_without_rgb_still_gives_colours():
    board = board_variables(BUILTIN_THEMES["ansi-dark"])
    assert all(Color.parse(value) for value in board.values())
