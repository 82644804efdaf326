"""What a listener can ask of the board in a sitting in words, and the answers.

All of them speak of one position, the one that stands: the position asked, or after the
answer the position that it led to. None says what could be played.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from trainer.lines.facts import position_facts
from trainer.lines.facts_in_words import tell_facts
from trainer.lines.in_words import colour_name
from trainer.lines.movetext import numbered
from trainer.lines.read_out import read_line, read_part, read_position
from trainer.sitting.cards import AskingMove, TurnCard
from trainer.sitting.sitting import Phase, Prompt


@dataclass(frozen=True, slots=True)
class Standing:
    """The position that the student has in mind now."""

    start: chess.Board
    """Where its line begins."""
    moves: tuple[chess.Move, ...]
    """The line, the answer included once it is in."""
    answer: str
    """The answer as a move with its number; empty until it is in, and of a question."""

    @property
    def boards(self) -> tuple[chess.Board, chess.Board]:
        """The position before the last move, and the one that stands."""
        before = after = self.start
        for move in self.moves:
            before, after = after, after.copy(stack=False)
            after.push(move)
        return before, after


def standing(prompt: Prompt, phase: Phase) -> Standing:
    """The position that stands in this phase of a prompt."""
    card = prompt.card
    start = chess.Board(card.start)
    if phase not in (Phase.ANSWERED, Phase.TOLD) or not isinstance(card, AskingMove):
        return Standing(start, card.path, "")
    san = card.move.san if isinstance(card, TurnCard) else prompt.tries[-1].san
    board = card.board
    return Standing(start, (*card.path, board.parse_san(san)), numbered(board, san))


def answer_question(question: str, here: Standing) -> list[str] | None:
    """The answer to a question in small letters; None where the text is none.

    After a student's answer it begins with the position that it speaks of.
    """
    told = _told(question, here)
    if told is None or not here.answer:
        return told
    return [f"The position after {here.answer}.", *told]


def _told(question: str, here: Standing) -> list[str] | None:
    before, board = here.boards
    match question:
        case "board":
            return read_position(board, (before, here.moves[-1]) if here.moves else None)
        case "facts":
            return tell_facts(position_facts(board))
        case "line":
            return [*_way(here), f"{colour_name(board.turn)} to move."]
    return read_part(board, question)


def _way(here: Standing) -> list[str]:
    usual = here.start.fen() == chess.STARTING_FEN
    if not usual:
        return ["The deck has set up where this begins.", *read_line(here.start, here.moves)]
    return read_line(here.start, here.moves) or ["This is the start of the game."]
