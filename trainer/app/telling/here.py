"""The place where one stands in the tree of lines, and the card that it is about."""

from __future__ import annotations

from functools import cached_property

import chess

from trainer.app.widgets.board import BoardView
from trainer.lines.graph import BookMove, BookPosition, Place, Standing
from trainer.lines.in_words import colour_name, move_in_words
from trainer.lines.read_out import read_position
from trainer.lines.stretches import Spot
from trainer.memory.card_state import CardState
from trainer.service.lines_report import Counts, LinesReport
from trainer.service.lines_search import board_at
from trainer.service.preparation import Wish
from trainer.service.words import short_day


class Here:
    """One place of the tree; to be read only."""

    def __init__(self, report: LinesReport, spot: Spot) -> None:
        self.report = report
        self.spot = spot
        self.board = board_at(report, spot)
        """The position, without earlier moves."""
        self.position: BookPosition = report.book.positions[report.tree.key(spot)]
        self.move: BookMove | None = report.tree.move(spot)
        """The move that led here; None where games start."""
        self._before = report.tree.back(spot)

    @property
    def wish(self) -> Wish:
        """A sitting with the position and all that can follow it."""
        return Wish(deck=self.report.deck, side=self.report.side, at=self.position.key)

    # The board

    @property
    def view(self) -> BoardView:
        """The position with what the move draws."""
        move = self.move
        if move is None:
            return BoardView(self.board.fen())
        return BoardView(
            self.board.fen(),
            last_move=chess.Move.from_uci(move.uci),
            squares=move.squares,
            arrows=move.arrows,
        )

    @property
    def caption(self) -> str:
        """The last move in words, check, and who moves."""
        mover = f"{colour_name(self.board.turn)} to move."
        if (last := self._last()) is None:
            return f"The line begins here. {mover}"
        before, move = last
        check = " Check." if self.board.is_check() else ""
        return f"{colour_name(before.turn)}: {move_in_words(before, move)}.{check} {mover}"

    def read_out(self) -> list[str]:
        """The position in sentences."""
        return read_position(self.board, self._last())

    def _last(self) -> tuple[chess.Board, chess.Move] | None:
        if self.move is None or self._before is None:
            return None
        return board_at(self.report, self._before), chess.Move.from_uci(self.move.uci)

    # The card

    @cached_property
    def asked(self) -> BookPosition:
        """The position whose card is told of: before the student's own move, else this one."""
        ours = self.move is not None and self.move.standing is not Standing.REPLY
        if ours and self._before is not None:
            return self.report.book.positions[self.report.tree.key(self._before)]
        return self.position

    @property
    def card(self) -> str:
        """The key of that card; empty where none is asked."""
        return self.asked.card

    @property
    def state(self) -> CardState:
        """How that card stands."""
        return self.report.state(self.asked)

    @cached_property
    def counts(self) -> Counts:
        """Of the cards that stand here and below."""
        return self.report.tally.of(self.report.tree.branch(self.spot))

    @cached_property
    def joins_elsewhere(self) -> bool:
        """Whether lines below lead into others."""
        return self.report.tree.joins_elsewhere(self.spot)

    @property
    def joins(self) -> int | None:
        """The number of the position, where it has its place elsewhere."""
        stretch = self.report.tree.stretches[self.spot.stretch]
        return stretch.join if self.spot.step == len(stretch.moves) else None

    # The names

    @property
    def name(self) -> str:
        """The move that led here with its number."""
        return f"{self.number} {self.move.san}" if self.move else "Start"

    @property
    def number(self) -> str:
        """`4.` or `4...`: the number of the move that led here."""
        return _numeral(self.report.tree.ply(self.spot) - 1)

    @property
    def number_of_asked(self) -> str:
        """The number of the move that the card asks for."""
        return _numeral(self.report.tree.ply(self.spot) - (self.asked is not self.position))

    @property
    def standing(self) -> str:
        """How the card stands, in a word or two."""
        if not self.card:
            return ""
        state, today = self.state, self.report.today
        if state.fresh or state.due is None:
            return "fresh"
        when = "due today" if state.is_due(today) else f"next {short_day(state.due)}"
        return when if state.known else f"shaky, {when}"

    @property
    def title(self) -> str:
        """The chapter in which it stands; where more than one passes, the deck."""
        titles = self.chapters
        return titles[0] if len(titles) == 1 and self.move else self.report.title

    @property
    def chapters(self) -> list[str]:
        """The titles of the open chapters that pass here."""
        return [self.report.chapter(place.chapter).title for place in self.places]

    @property
    def places(self) -> list[Place]:
        """The places of the position in open chapters."""
        opened = {chapter.id for chapter in self.report.chapters if chapter.open}
        return [place for place in self.position.places if place.chapter in opened]


def _numeral(ply: int) -> str:
    return f"{ply // 2 + 1}{'...' if ply % 2 else '.'}"
