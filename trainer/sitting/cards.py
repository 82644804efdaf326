"""What a sitting asks: a card of each kind in the name of one deck, or a game to guess.

All know where the position comes from; each kind knows what answers it. Nothing of a
prompt stands here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from typing import Any

import chess

from trainer.lines.graph import BookMove, BookPosition
from trainer.lines.idea import Idea
from trainer.lines.movetext import read_movetext
from trainer.lines.played_out import PlayedOut, Turn
from trainer.lines.position import full_fen, position_key


class Kind(StrEnum):
    """What is asked for."""

    MOVE = "move"
    """The deck's move in a position of its lines."""
    TACTIC = "tactic"
    """A solution, played out move by move against every defence."""
    IDEA = "idea"
    GUESS = "guess"
    """The next move of a model game; scored, not scheduled."""


@dataclass(frozen=True)
class Card:
    """What is asked, in the name of one deck and chapter."""

    key: str
    deck: str
    deck_title: str
    edition: int
    chapter: str
    chapter_title: str
    side: str
    """`white` or `black`: the student's."""
    line: str
    """Movetext that leads to the position."""
    start: str
    """Six FEN fields of the position in which the line starts."""

    @property
    def kind(self) -> Kind:
        """What is asked for."""
        raise NotImplementedError

    @cached_property
    def path(self) -> tuple[chess.Move, ...]:
        """The moves of the line."""
        return tuple(read_movetext(self.line, chess.Board(self.start)))

    @cached_property
    def fen(self) -> str:
        """Six FEN fields of the position asked."""
        board = chess.Board(self.start)
        for move in self.path:
            board.push(move)
        return full_fen(board)

    @property
    def board(self) -> chess.Board:
        """A new board with the position asked."""
        return chess.Board(self.fen)

    @property
    def last_move(self) -> tuple[chess.Board, chess.Move] | None:
        """The opponent's last move, with the board it was made on; None where the line begins."""
        if not self.path:
            return None
        board = chess.Board(self.start)
        for move in self.path[:-1]:
            board.push(move)
        return board, self.path[-1]


@dataclass(frozen=True)
class AskingMove(Card):
    """A card that is answered on the board, with what the deck says of each move."""

    introduction: str
    """What the game that brings this card says before its first move; mostly empty."""
    position: BookPosition

    @property
    def move(self) -> BookMove:
        """The deck's move."""
        move = self.position.deck_move
        if move is None:
            raise ValueError(f"no card asks for a move in {self.position.key}")
        return move


@dataclass(frozen=True)
class MoveCard(AskingMove):
    """The deck's move in a position of its lines."""

    other_decks: Mapping[str, str]
    """Moves (UCI) that other added decks play here, with the decks' titles."""

    @property
    def kind(self) -> Kind:
        """A move."""
        return Kind.MOVE


@dataclass(frozen=True)
class TurnCard(AskingMove):
    """A tactic or a model game, at the move that is asked now; `turn_card` makes it.

    `line`, `position` and all that follows from them are those of the present turn.
    """

    played: PlayedOut
    at: int
    """The turn, from 0."""

    @property
    def turn(self) -> Turn:
        """Which move is asked."""
        return self.played.turns[self.at]

    @property
    def reply(self) -> BookMove | None:
        """The opponent's move before it; None where the student begins."""
        defence, ply = self.turn
        return self.played.defences[defence].moves[ply - 1].move if ply else None

    def beside(self, but: str = "") -> tuple[str, ...]:
        """What the author gives in place of the reply, and then of the move asked.

        :param but: a move (SAN) in place of the one asked, of which the author is heard anyway.
        """
        defence, ply = self.turn
        before = self.played.beside(defence, ply - 1) if ply else ()
        moves = self.played.defences[defence].moves[ply].others
        texts = zip(moves, self.played.beside(defence, ply), strict=True)
        return (*before, *(text for move, text in texts if move.san != but))

    @property
    def ends_defence(self) -> bool:
        """Whether no later move of this defence is asked."""
        following = self.next_turn()
        return following is None or following.turn.defence != self.turn.defence

    @property
    def own_moves(self) -> tuple[tuple[chess.Board, BookMove], ...]:
        """The moves of this defence that no earlier one has played, each with the board before."""
        defence = self.played.defences[self.turn.defence]
        board = chess.Board(self.start)
        found = []
        for place, step in enumerate(defence.moves):
            if place >= defence.begins:
                found.append((board.copy(stack=False), step.move))
            board.push(chess.Move.from_uci(step.move.uci))
        return tuple(found)

    @property
    def rest(self) -> str:
        """Movetext from the move asked to the end of this defence."""
        return self.played.movetext(*self.turn)

    @property
    def closing(self) -> str:
        """Movetext behind the move asked, where it is the last of its defence; else empty."""
        defence, ply = self.turn
        return self.played.movetext(defence, ply + 1) if self.ends_defence else ""

    def next_turn(self) -> TurnCard | None:
        """The same at its next turn; None behind the last."""
        return self._moved(self.at + 1)

    def next_defence(self) -> TurnCard | None:
        """The same at the first turn of the next defence; None where there is none."""
        turns = self.played.turns
        later = (n for n in range(self.at, len(turns)) if turns[n].defence > self.turn.defence)
        return self._moved(next(later, len(turns)))

    def _moved(self, at: int) -> TurnCard | None:
        if at >= len(self.played.turns):
            return None
        line, position = _where(self.played, at)
        return replace(self, at=at, line=line, position=position)


@dataclass(frozen=True)
class TacticCard(TurnCard):
    """A tactic; the whole solution is one card."""

    @property
    def kind(self) -> Kind:
        """A tactic."""
        return Kind.TACTIC


@dataclass(frozen=True)
class GuessCard(TurnCard):
    """A model game whose moves are guessed; it is no card of the schedule."""

    round: int
    """Which time through the game this is, from 1."""
    guessed: tuple[bool, ...]
    """What was guessed in this round before the sitting: whether each guess was right."""

    @property
    def kind(self) -> Kind:
        """A guess."""
        return Kind.GUESS


@dataclass(frozen=True)
class IdeaCard(Card):
    """A question about a position."""

    idea: Idea

    @property
    def kind(self) -> Kind:
        """An idea."""
        return Kind.IDEA


def from_the_start(card: Card) -> Card:
    """The card as it is asked at first: a tactic from its first turn."""
    return replace(card, **at_turn(card.played, 0)) if isinstance(card, TurnCard) else card


def _where(played: PlayedOut, at: int) -> tuple[str, BookPosition]:
    """The line to a turn, and what is said of the moves there."""
    defence, ply = played.turns[at]
    line = played.movetext(defence, 0, ply)
    board = chess.Board(played.start)
    for move in read_movetext(line, board):
        board.push(move)
    asked = played.defences[defence].moves[ply]
    return line, BookPosition(position_key(board), (asked.move, *asked.others), ())


def at_turn(played: PlayedOut, at: int) -> dict[str, Any]:
    """The fields of a turn's card that depend on where it stands."""
    line, position = _where(played, at)
    return {
        "key": played.key,
        "side": played.side,
        "line": line,
        "start": played.start,
        "introduction": played.introduction,
        "position": position,
        "played": played,
        "at": at,
    }
