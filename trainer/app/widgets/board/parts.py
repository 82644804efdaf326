"""The widgets that the board is composed of: rank digits, eight file columns, a notice.

Columns are narrow because Textual repaints a changed region from its widget's left edge:
eight of them send a third of the bytes of one. They paint, and know no keys and no rules.
"""

from __future__ import annotations

from functools import lru_cache
from typing import ClassVar

import chess
from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.geometry import Region
from textual.geometry import Size as CellSize
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Static

from trainer.app.widgets.board.colours import Palette
from trainer.app.widgets.board.geometry import SMALLEST_TERMINAL, Size, rows_of
from trainer.app.widgets.board.painter import Line, paint, paint_seam
from trainer.app.widgets.board.scene import Scene

NOTICE_WIDTH = 36
"""Cells of the sentence that stands in the place of a board."""


@lru_cache(maxsize=4096)
def _strip(line: Line, ground: Style) -> Strip:
    """A line, its open colours filled with those of the desk."""
    return Strip(line).apply_style(ground)


class BoardPart(Widget):
    """A part that paints from the scene, as large as the terminal allows."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "board--dark",
        "board--light",
        "board--white",
        "board--black",
        "board--note",
        "board--coordinate",
    }

    def __init__(self, scene: Scene) -> None:
        super().__init__()
        self.scene = scene
        self._palette: Palette | None = None
        self._ground: Style | None = None

    @property
    def square_size(self) -> Size | None:
        """The size of the board's squares now, None where there is no room for them."""
        return self.scene.fit(self.screen.size)

    def get_content_height(self, _container: CellSize, viewport: CellSize, _width: int) -> int:
        """As high as the board with its coordinates."""
        size = self.scene.fit(viewport)
        return size.board_height if size else 0

    def render_line(self, y: int) -> Strip:
        """One line of the part."""
        size = self.square_size
        line = self.line(y, size) if size else ()
        if self._ground is None:  # worked out line by line it is half of what a board costs
            self._ground = self.rich_style
        return _strip(line, self._ground)

    def line(self, y: int, size: Size) -> Line:
        """What stands in a line, for a board of this size."""
        raise NotImplementedError

    def coordinate(self, text: str, width: int) -> Line:
        """A coordinate in the middle of so many cells, in the style of the desk."""
        style = self.get_component_rich_style("board--coordinate")
        return (Segment(text.center(width), style),)

    def palette(self) -> Palette:
        """The colours of the board under the theme of the moment."""
        if self._palette is None:
            dark, light, white, black, note = (
                self.get_component_styles(f"board--{name}").background.hex6
                for name in ("dark", "light", "white", "black", "note")
            )
            self._palette = Palette(dark, light, white, black, note)
        return self._palette

    def notify_style_update(self) -> None:
        """Another theme: other colours."""
        super().notify_style_update()
        self._palette = self._ground = None


class RankDigits(BoardPart):
    """The digits left of the board, where they do not stand in the squares."""

    def get_content_width(self, _container: CellSize, viewport: CellSize) -> int:
        """The board's margin."""
        size = self.scene.fit(viewport)
        return size.margin if size else 0

    def line(self, y: int, size: Size) -> Line:
        """A digit at the middle of each rank."""
        row = min(y // size.height, 7)
        rows = rows_of(row, size)
        if y != rows[(len(rows) - 1) // 2]:
            return self.coordinate("", size.margin)
        name = chess.square_name(self.scene.square(0, row))
        return self.coordinate(name[1], size.margin)


class FileColumn(BoardPart):
    """One file of the board, with its letter below."""

    def __init__(self, scene: Scene, column: int) -> None:
        super().__init__(scene)
        self.column = column
        """Its place on the board, from 0 at the left."""

    def get_content_width(self, _container: CellSize, viewport: CellSize) -> int:
        """The width of a square."""
        size = self.scene.fit(viewport)
        return size.width if size else 0

    def repaint_row(self, row: int, size: Size) -> None:
        """Have one square painted again, and nothing else."""
        lines = rows_of(row, size)
        self.refresh(Region(0, lines.start, size.width, len(lines)))

    def line(self, y: int, size: Size) -> Line:
        """A line of a square, a seam between two, or the file's letter."""
        if y >= size.files_height:
            return self.coordinate(
                chess.square_name(self.scene.square(self.column, 7))[0], size.width
            )
        row = min(y // size.height, 7)
        if y not in rows_of(row, size):
            return self._seam(y // size.height, size)
        look = self.scene.look(self.column, row, size)
        return paint(look, size, self.palette())[y - rows_of(row, size).start]

    def _seam(self, row: int, size: Size) -> Line:
        """The line above a row of a halved board; row 8 is the lower edge."""
        above, below = (
            self.scene.look(self.column, place, size).light if 0 <= place < 8 else None
            for place in (row - 1, row)
        )
        return paint_seam(above, below, size.width, self.palette())


class Notice(Static):
    """Says what is needed where the terminal has no room for a board."""

    def __init__(self, scene: Scene) -> None:
        columns, rows = SMALLEST_TERMINAL
        super().__init__(
            Content(
                f"The board needs {columns} columns and {rows} rows. "
                "In words, trainer practice --plain works at any size."
            )
        )
        self.scene = scene

    def get_content_width(self, _container: CellSize, viewport: CellSize) -> int:
        """Enough for a few words a line, or nothing where the board stands."""
        return 0 if self.scene.fit(viewport) else min(viewport.width, NOTICE_WIDTH)

    def get_content_height(self, container: CellSize, viewport: CellSize, width: int) -> int:
        """As many rows as the sentence takes, or none."""
        if self.scene.fit(viewport):
            return 0
        return super().get_content_height(container, viewport, width)
