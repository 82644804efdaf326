"""The colours of text, boxes and bars, derived from the theme with a contrast that is promised.

Textual's own fall short in many themes: quiet text has 1.8:1 in one of them. The ones here begin
with the theme's and are moved towards white or black as far as they need be. Style sheets use
these and the three backgrounds `$background`, `$surface` and `$panel`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from rich.color import Color as RichColor
from rich.color import ColorSystem
from textual.color import Color
from textual.filter import LineFilter, Monochrome, NoColor
from textual.theme import Theme

TEXT = 4.5
"""Source: WCAG 2.2, success criterion 1.4.3: the contrast that text must have."""

GRAPHIC = 3.0
"""Source: WCAG 2.2, success criterion 1.4.11: that of bars and gauges."""

PAPERS = ("background", "surface", "panel")
"""What text stands on, apart from boxes."""

_INKS = {
    "ink": ("foreground", TEXT),
    "ink-good": ("text-success", TEXT),
    "ink-bad": ("text-error", TEXT),
    "ink-help": ("text-warning", TEXT),
    "ink-cue": ("text-accent", TEXT),
    "ink-bar": ("text-primary", GRAPHIC),
}
"""Our variables, the theme's that each begins with, and the contrast it must have."""

WHITE, BLACK = "#ffffff", "#000000"
_GREY, _NO_COLOUR = Monochrome(), NoColor()
_STEPS = 40
_QUIET = 0.6
"""How much of the foreground is in quiet text."""


def ink_variables(theme: Theme) -> dict[str, str]:
    """The CSS variables for text, boxes and bars, for `App.get_theme_variable_defaults`."""
    theirs = {**theme.to_color_system().generate(), **theme.variables}
    return _plain_inks(theirs) if theme.ansi else _inks(theirs)


def colour_filters(filters: Sequence[LineFilter], ansi: bool) -> list[LineFilter]:
    """An app's filters, NO_COLOR kept as the theme of the moment needs it.

    Textual decides that once, for the theme it starts with: greys for one in red, green and
    blue. A terminal's own colours, switched to later, would all turn out black.

    :param ansi: whether the theme has the terminal's own colours.
    """
    wanted = _NO_COLOUR if ansi else _GREY
    return [wanted if isinstance(known, Monochrome | NoColor) else known for known in filters]


@cache
def luminance(colour: str) -> float:
    """Relative luminance of a colour, as WCAG 2 defines it."""
    red, green, blue = (_linear(part) for part in Color.parse(colour).normalized)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, as WCAG 2 defines it: from 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def readable(colour: str, papers: Sequence[str], least: float) -> str:
    """The colour nearest to this one that has at least this contrast with all the papers."""
    if (white := _least(WHITE, papers)) > (black := _least(BLACK, papers)):
        end, most = Color.parse(WHITE), white
    else:
        end, most = Color.parse(BLACK), black
    start = Color.parse(colour)
    for step in range(_STEPS):
        moved = start.blend(end, step / _STEPS, 1.0).hex6
        if _least(moved, papers) >= min(least, most):
            return moved
    return end.hex6


def _least(colour: str, papers: Sequence[str]) -> float:
    """The worst contrast, on a terminal with all colours or with 256."""
    full = min(contrast(colour, paper) for paper in papers)
    return min(full, *(contrast(of_256(colour), of_256(paper)) for paper in papers))


@cache
def of_256(colour: str) -> str:
    """What a terminal with 256 colours is sent for a colour."""
    sent = RichColor.parse(colour).downgrade(ColorSystem.EIGHT_BIT)
    return sent.get_truecolor().hex


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4


def _inks(theirs: Mapping[str, str]) -> dict[str, str]:
    """For a theme in red, green and blue."""
    ground = Color.parse(theirs["background"])
    papers = [_opaque(theirs[name], ground) for name in PAPERS]
    box = _opaque(theirs["primary-muted"], ground)
    inks = {
        ours: readable(
            _opaque(theirs[name], ground), [*papers, box] if ours == "ink" else papers, least
        )
        for ours, (name, least) in _INKS.items()
    }
    quiet = ground.blend(Color.parse(inks["ink"]), _QUIET, 1.0).hex6
    return inks | {
        "ink-quiet": readable(quiet, papers, TEXT),
        "box": box,
        "box-quiet": readable(quiet, [box], TEXT),
    }


def _opaque(colour: str, ground: Color) -> str:
    parsed = Color.parse(colour)
    return ground.blend(parsed, parsed.a, 1.0).hex6


def _plain_inks(theirs: Mapping[str, str]) -> dict[str, str]:
    """For a theme of the terminal's own colours, of which nothing can be promised.

    Only signs have a colour, for their shape says the same; boxes are told by an underline.
    """
    signs = {ours: theirs[_INKS[ours][0]] for ours in ("ink-good", "ink-bad", "ink-help")}
    others = ("ink", "ink-cue", "ink-bar", "ink-quiet", "box", "box-quiet")
    return dict.fromkeys(others, "ansi_default") | signs
