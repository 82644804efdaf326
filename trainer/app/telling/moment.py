"""One moment of a sitting: what stands on the board and what the desk says beside it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import chess

from trainer.app.telling.blocks import Block
from trainer.app.widgets.board import BoardView
from trainer.sitting.cards import Card


class Tone(StrEnum):
    """The colour of the sign; the sign's shape says the same."""

    PLAIN = "plain"
    GOOD = "good"
    BAD = "bad"
    HELP = "help"


class Wants(StrEnum):
    """What the box waits for."""

    MOVE = "move"
    SQUARES = "squares"
    NUMBER = "number"
    """One of the answers on the page."""


@dataclass(frozen=True, slots=True)
class Stage:
    """What the board shows, seen by White; the screen turns it."""

    view: BoardView
    """Where it comes to rest."""
    before: BoardView | None = None
    """What it shows first."""
    arriving: chess.Move | None = None
    """The move that leads from there to `view`; None where a try is taken back."""


@dataclass(frozen=True, slots=True)
class Moment:
    """What is shown until the next event."""

    stage: Stage
    card: Card | None = None
    """The card in question; None where there is none."""
    sign: str = ""
    tone: Tone = Tone.PLAIN
    headline: str = ""
    """One sentence."""
    brief: str = ""
    """Stands in its place where it is too long, and the sentence begins the page."""
    page: tuple[Block, ...] = ()
    answer: str = ""
    """What stands in the box once the prompt is answered."""
    asks: bool = True
    """Whether the box waits for an answer, unless it has one."""
    wants: Wants = Wants.MOVE
    offered: bool = False
    """Whether help asked for once more shows the answer, although no hint was given."""
    missed: tuple[str, ...] = ()
    """Wrong tries, as SAN, squares or numbers."""


NOTHING_YET = Moment(Stage(BoardView()))
