"""The colours of the board, derived from the theme so that contrast is the same in each.

One hue, the theme's primary, is set to fixed luminances. Brown to green lose their
saturation, so no theme yields a wooden or a green board. Colours only: no shapes.
"""

from __future__ import annotations

import colorsys
from dataclasses import dataclass

from textual.color import Color, ColorParseError
from textual.theme import Theme

from trainer.app.colours import ink_variables, luminance

DARK, LIGHT = 0.128, 0.25
"""Luminance (WCAG 2) of the squares: pieces and notes keep 3:1 on both, in 256 colours too."""

WHITE, BLACK = 0.97, 0.003
"""Luminance of the pieces and of every mark."""

NOTE = 0.87
"""Luminance of the arrows and squares of a note."""

_SQUARE_SATURATION = 0.10
_PIECE_SATURATION = 0.05
_NOTE_SATURATION = 0.85
_WOOD_TO_GRASS = (15 / 360, 165 / 360)
"""Hues in between are neither squares nor pieces."""


@dataclass(frozen=True)
class Palette:
    """What the painter paints with: `#rrggbb` each."""

    dark: str
    """A dark square."""
    light: str
    """A light square."""
    white: str
    """White's pieces, and every mark that is not on one of them."""
    black: str
    """Black's pieces, and the marks on White's."""
    note: str
    """The arrows and squares that a note draws."""


def palette_for(primary: str, tint: str) -> Palette:
    """The palette of a theme with these two colours; `ansi_...` names count as grey."""
    hue, saturation = _hue_and_saturation(primary)
    if _WOOD_TO_GRASS[0] <= hue <= _WOOD_TO_GRASS[1]:
        saturation = 0.0
    square, piece = min(saturation, _SQUARE_SATURATION), min(saturation, _PIECE_SATURATION)
    note_hue, note = _hue_and_saturation(tint)
    return Palette(
        dark=_at_luminance(hue, square, DARK),
        light=_at_luminance(hue, square, LIGHT),
        white=_at_luminance(hue, piece, WHITE),
        black=_at_luminance(hue, piece, BLACK),
        note=_at_luminance(note_hue, min(note, _NOTE_SATURATION), NOTE),
    )


def board_variables(theme: Theme) -> dict[str, str]:
    """The CSS variables of the board and of what is written on and beside it.

    They are for `App.get_theme_variable_defaults`.
    """
    # A warm tint stays apart from white at this luminance; a blue or violet accent does not.
    palette = palette_for(theme.primary, theme.warning or theme.primary)
    return ink_variables(theme) | {
        "board-dark": palette.dark,
        "board-light": palette.light,
        "board-white": palette.white,
        "board-black": palette.black,
        "board-note": palette.note,
    }


def _hue_and_saturation(colour: str) -> tuple[float, float]:
    try:
        parsed = Color.parse(colour)
    except ColorParseError:
        return 0.0, 0.0
    if parsed.ansi is not None:
        return 0.0, 0.0
    hue, _, saturation = colorsys.rgb_to_hls(*parsed.normalized)
    return hue, saturation


def _at_luminance(hue: float, saturation: float, target: float) -> str:
    """The colour of this hue and saturation whose luminance comes nearest to the target."""
    low, high = 0.0, 1.0
    for _ in range(12):
        middle = (low + high) / 2
        if luminance(_hex(hue, middle, saturation)) < target:
            low = middle
        else:
            high = middle
    return _hex(hue, high, saturation)


def _hex(hue: float, lightness: float, saturation: float) -> str:
    parts = colorsys.hls_to_rgb(hue, lightness, saturation)
    return "#" + "".join(f"{round(255 * part):02x}" for part in parts)
