"""The silhouettes of the six pieces for print, drawn for this project, as SVG paths.

They follow the pieces of the terminal board: the same crowns, merlons and mitre on the same
plinth, in a square of 40 by 40. Nothing here knows squares or boards.
"""

from __future__ import annotations

PIECE = 40
"""The side of the square in which a piece is drawn."""

_PLINTH = "V36H8V31"

OUTLINES = {
    "K": "M18.6 3h2.8v2.8h2.8v2.8h-2.8V20C22 15.5 25 12.5 29 12.5C33 12.5 35.5 15.5 35 19"
    "C34.4 23 30.5 25.5 28.5 29L32 31" + _PLINTH + "L11.5 29C9.5 25.5 5.6 23 5 19"
    "C4.5 15.5 7 12.5 11 12.5C15 12.5 18 15.5 18.6 20V8.6h-2.8V5.8h2.8z",
    "Q": "M11.5 28L4.5 11.5L12 19.5L12.2 7.5L17.4 18L20 4L22.6 18L27.8 7.5L28 19.5L35.5 11.5"
    "L28.5 28L32 31" + _PLINTH + "z",
    "R": "M8.5 6h5.5v4.5h3.2V6h5.6v4.5H26V6h5.5v9.5L27 19v8.5l5 3.5" + _PLINTH + "l5-3.5V19"
    "L8.5 15.5z",
    "B": "M20 3.2a2.4 2.4 0 0 1 1.5 4.3C26 11 28.6 14.8 28 18.6C27.7 20.8 26.4 22.6 24.6 23.8"
    "H27V26.6H24.2L26 29L32 31" + _PLINTH + "L14 29L15.8 26.6H13V23.8H15.4"
    "C13.6 22.6 12.3 20.8 12 18.6C11.4 14.8 14 11 18.5 7.5A2.4 2.4 0 0 1 20 3.2z",
    "N": "M17.5 3.5L21.5 8C29 9.5 33 17.5 32.5 31V36H9.5V31C10.5 27 16 24.5 17.5 20.5"
    "C14.5 21.5 14 23 12 25L6.5 22.5C6.8 18.5 10 15 12.2 11.5C13 9.5 15 8.5 16.5 8z",
    "P": "M20 9.5a5.3 5.3 0 0 1 3.6 9.2H26v2.8h-2.6c.4 4 2 6.6 4.8 9V36H11.8V30.5"
    "c2.8-2.4 4.4-5 4.8-9H14v-2.8h2.4A5.3 5.3 0 0 1 20 9.5z",
}

DETAILS = {
    "K": "M9 31H31M20 20V26",
    "Q": "M9 31H31M12.5 27H27.5",
    "R": "M9 31H31M13 19H27M13 27.5H27",
    "B": "M9 31H31M15.8 25.2H24.2M22.8 11.5L19.6 18.6",
    "N": "M10 31H32M15.6 12.6L17.4 13.6M9.6 21.4L10.6 21.8",
    "P": "M12.5 31H27.5",
}
"""Lines inside the outlines."""
