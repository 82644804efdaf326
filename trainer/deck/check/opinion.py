"""What an engine makes of a deck's moves: which it dislikes, which mistakes hold, which
tactics have more than one solution.

Asks through a function, so that neither the engine's process nor what is kept of its answers
is known here. Scores are centipawns for the side to move; the margins are this project's own
choice, about what a search of some hundred thousand nodes tells apart.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import chess

from trainer.deck.check.played_out import Tactic
from trainer.deck.check.spots import after, after_line
from trainer.deck.check.written import Written
from trainer.deck.findings import Finding
from trainer.lines.graph import BookMove, BookPosition, Standing
from trainer.lines.movetext import numbered
from trainer.lines.played_out import Turn
from trainer.lines.position import position_key

DISLIKED = 70
"""The deck's move may be worse than the engine's best by so much."""

HOLDS = 30
"""A known mistake is worse than the best move by at least this."""

CLEAR = 100
"""A tactic's move is better than every other by at least this."""

MATE = 100_000
"""Mate in no move; each move to it takes one off."""

_WON = 1_000
"""Beyond ten pawns a difference tells nothing of an opening."""

_MATES = 2_000
"""A mate counts so much where mates are looked for; a slower one is no worse."""


@dataclass(frozen=True, slots=True)
class Question:
    """What the engine is asked: the best move, and what it is worth."""

    position: str
    """A position key."""
    moves: tuple[str, ...] = ()
    """The moves (UCI) among which it chooses; empty for all."""


@dataclass(frozen=True, slots=True)
class Scored:
    """A move with what the engine thinks of it."""

    uci: str
    score: int
    """Centipawns for the side to move, mates counted down from `MATE`."""


Ask = Callable[[Question], Scored]

Step = Callable[[], None]
"""Called after each position: one more is done."""


def positions_to_ask(sides: Sequence[Written], tactics: Sequence[Tactic]) -> int:
    """How many positions `engine_findings` goes through."""
    lines = sum(1 for written in sides for _ in _with_moves(written))
    return lines + sum(len(tactic.played.turns) for tactic in tactics)


def engine_findings(
    sides: Sequence[Written], tactics: Sequence[Tactic], ask: Ask, step: Step
) -> Iterator[Finding]:
    """Everything in which the engine and the deck differ."""
    for written in sides:
        for position in _with_moves(written):
            yield from _moves_of(written, position, ask)
            step()
    for tactic in tactics:
        for turn in tactic.played.turns:
            yield from _solution(tactic, turn, ask)
            step()


def _with_moves(written: Written) -> Iterator[BookPosition]:
    return (p for p in written.to_move(written.student) if any(_is_judged(m) for m in p.moves))


def _is_judged(move: BookMove) -> bool:
    return move.standing is not Standing.ASIDE


def _moves_of(written: Written, position: BookPosition, ask: Ask) -> Iterator[Finding]:
    best = ask(Question(position.key))
    for move in filter(_is_judged, position.moves):
        scored = best
        if move.uci != best.uci:
            scored = ask(Question(position.key, (move.uci,)))
        loss = _capped(best.score) - _capped(scored.score)
        spot = written.moves[position.key, move.uci]
        against = f"{_pawns(scored.score)} against {_pawns(best.score)} for {_san(position, best)}"
        if move.standing is Standing.MISTAKE and loss < HOLDS:
            message = (
                f"{move.san} {after(position)} is marked as a mistake, but the engine finds "
                f"little wrong with it ({against}); look again"
            )
            yield spot.warning("mistake-holds", message)
        elif move.standing is not Standing.MISTAKE and loss > DISLIKED:
            message = (
                f"the engine prefers {_san(position, best)} to {move.san} {after(position)} "
                f"({against}); look again"
            )
            yield spot.warning("engine-dislikes", message)


def _solution(tactic: Tactic, turn: Turn, ask: Ask) -> Iterator[Finding]:
    board = tactic.board(*turn)
    step = tactic.played.defences[turn.defence].moves[turn.ply]
    right = {step.move.uci} | {m.uci for m in step.others if m.standing is Standing.ACCEPTED}
    rest = tuple(sorted(move.uci() for move in board.legal_moves if move.uci() not in right))
    if not rest:
        return
    key = position_key(board)
    best = ask(Question(key))
    solves = best if best.uci in right else ask(Question(key, tuple(sorted(right))))
    other = best if best.uci not in right else ask(Question(key, rest))
    if _with_mates(solves.score) - _with_mates(other.score) >= CLEAR:
        return
    line = tactic.line(turn)
    message = (
        f"{numbered(board, step.move.san)} is not clearly the only solution"
        f"{' ' + after_line(line) if line else ''}: the engine gives "
        f"{board.san(chess.Move.from_uci(other.uci))} {_pawns(other.score)} against "
        f"{_pawns(solves.score)}; give it as a variation if it solves too, or set another position"
    )
    yield tactic.spot_of(*turn).warning("tactic-unclear", message)


def _capped(score: int) -> int:
    return max(-_WON, min(_WON, score))


def _with_mates(score: int) -> int:
    if abs(score) > MATE // 2:
        return _MATES if score > 0 else -_MATES
    return _capped(score)


def _pawns(score: int) -> str:
    """`+0.35`, `-1.20`, `mate in 3`, `mated in 2`."""
    if abs(score) > MATE // 2:
        return f"{'mate' if score > 0 else 'mated'} in {MATE - abs(score)}"
    return f"{score / 100:+.2f}"


def _san(position: BookPosition, scored: Scored) -> str:
    board = chess.Board(f"{position.key} 0 1")
    return board.san(chess.Move.from_uci(scored.uci))
