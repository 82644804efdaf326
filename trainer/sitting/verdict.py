"""What the rules and the deck say of one try.

The rules of chess judge first, then the deck in whose name the card is asked. Nothing is
counted here; `step` does that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import chess

from trainer.lines.graph import BookMove, BookPosition, LineGraph, Standing
from trainer.lines.position import position_key
from trainer.lines.reading import Illegal, LegalMove, Reading, Unclear, Unreadable


class Verdict(StrEnum):
    """The verdicts of one try."""

    UNREADABLE = "unreadable"
    UNCLEAR = "unclear"
    ILLEGAL = "illegal"
    IN_BOOK = "in book"
    TRANSPOSES = "transposes"
    OTHER_DECK = "other deck"
    """The move of another added deck: neither right nor wrong in this one."""
    KNOWN_MISTAKE = "known mistake"
    OUT_OF_BOOK = "out of book"


MISSES = frozenset({Verdict.KNOWN_MISTAKE, Verdict.OUT_OF_BOOK})
SPARED_ONCE = frozenset({Verdict.TRANSPOSES, Verdict.OTHER_DECK})
"""Counted as neither right nor wrong, once a prompt; a second such try is out of book."""
JUDGED_BY_DECK = MISSES | SPARED_ONCE | {Verdict.IN_BOOK}


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict and what there is to say with it."""

    verdict: Verdict
    reason: str = ""
    """One sentence; empty where the verdict says it all."""
    move: chess.Move | None = None
    """The move tried; None where the text was none."""
    san: str = ""
    book_move: BookMove | None = None
    """What the deck says of the move, if it says anything."""
    why: str = ""
    """The reason of an idea's right answer."""

    @property
    def note(self) -> str:
        """What the deck says of the answer; empty where it says nothing."""
        return self.book_move.note if self.book_move else self.why


def judge(
    reading: Reading,
    board: chess.Board,
    position: BookPosition,
    book: LineGraph,
    other_decks: Mapping[str, str],
) -> Judgement:
    """The verdict on one try.

    :param board: the position asked, in which the try was read.
    :param position: the same position in the book of the deck that asks.
    :param other_decks: moves (UCI) that other added decks play here, with their titles.
    """
    if not isinstance(reading, LegalMove):
        return judge_by_rules(reading)
    move, san = reading.move, reading.san
    said = position.move(move.uci())
    if said is not None and said.standing in (Standing.DECK, Standing.ACCEPTED):
        return Judgement(Verdict.IN_BOOK, _why_right(position, said), move, san, said)
    if said is not None and said.standing is Standing.MISTAKE:
        return Judgement(Verdict.KNOWN_MISTAKE, "", move, san, said)
    reached = None if said else book.get(_key_after(board, move))
    if reached is not None:
        where = reached.places[0].line or "the position that a line starts from"
        reason = f"This transposes to {where}, but the line asked for plays another move here."
        return Judgement(Verdict.TRANSPOSES, reason, move, san)
    if title := other_decks.get(move.uci()):
        reason = f"{san} is the move of another deck, “{title}”; this one plays another."
        return Judgement(Verdict.OTHER_DECK, reason, move, san, said)
    reason = "Sound, but not asked for here." if said else "Not a move of this deck."
    return Judgement(Verdict.OUT_OF_BOOK, reason, move, san, said)


def judge_by_rules(reading: Unreadable | Unclear | Illegal) -> Judgement:
    """The verdict on a try that is no legal move."""
    verdict = Verdict.UNREADABLE
    if isinstance(reading, Unclear):
        verdict = Verdict.UNCLEAR
    elif isinstance(reading, Illegal):
        verdict = Verdict.ILLEGAL
    return Judgement(verdict, _sentence(reading.reason))


def _sentence(clause: str) -> str:
    return f"{clause[:1].upper()}{clause[1:]}."


def judge_solution(reading: Reading, position: BookPosition) -> Judgement:
    """The verdict on one try at a tactic's move; no lines lead into a tactic.

    :param position: what the solution says of the moves here, its own first.
    """
    if not isinstance(reading, LegalMove):
        return judge_by_rules(reading)
    move, san = reading.move, reading.san
    said = position.move(move.uci())
    if said is None:
        return Judgement(Verdict.OUT_OF_BOOK, "Not the solution.", move, san)
    if said.standing is Standing.MISTAKE:
        return Judgement(Verdict.KNOWN_MISTAKE, "", move, san, said)
    if said.standing is Standing.ASIDE:
        return Judgement(Verdict.OUT_OF_BOOK, "Sound, but not the solution.", move, san, said)
    first = position.deck_move
    reason = ""
    if said.standing is Standing.ACCEPTED and first is not None:
        reason = f"Right too; the solution goes on with {first.san}."
    return Judgement(Verdict.IN_BOOK, reason, move, san, said)


def _why_right(position: BookPosition, said: BookMove) -> str:
    deck_move = position.deck_move
    if said.standing is Standing.ACCEPTED and deck_move is not None:
        return f"Right too; the deck's first choice is {deck_move.san}."
    return ""


def _key_after(board: chess.Board, move: chess.Move) -> str:
    after = board.copy(stack=False)
    after.push(move)
    return position_key(after)
