"""Replies of real opponents to which a deck has no answer, by how often they were played.

Games are followed by position, so a game that comes into the deck by another move order
counts. Each game counts once in each position.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import chess

from trainer.deck.check.played_lines import PlayedLine
from trainer.deck.check.spots import after
from trainer.deck.check.written import Written
from trainer.deck.findings import Finding
from trainer.lines.graph import BookPosition
from trainer.lines.movetext import numbered
from trainer.lines.position import BadPosition, Identity, board_from_fen, identity

FEWEST_GAMES = 2
"""A reply that fewer games have is no finding: every game leaves every book some time."""


DETOUR = 8
"""Moves by which a game may reach the deepest position of the deck later than its lines do."""


@dataclass(frozen=True, slots=True)
class Followed:
    """Games followed through the lines of a deck."""

    games: int
    unreadable: int
    """Games with a move, a start or rules that could not be made sense of."""
    findings: tuple[Finding, ...]
    """Most frequent first."""


def unanswered_replies(sides: Sequence[Written], games: Iterable[PlayedLine]) -> Followed:
    """What the opponents of these games played and no line answers."""
    books = [_Book(written) for written in sides]
    keys = {
        identity(position.board): key
        for written in sides
        for key, position in written.positions.items()
    }
    plies = [position.board.ply() for w in sides for position in w.positions.values()]
    most = max(plies, default=0) + DETOUR
    count = unreadable = 0
    for game in games:
        count += 1
        unreadable += not _follow(game, keys, books, most)
    found = sorted(
        (entry for book in books for entry in book.unanswered()), key=lambda entry: -entry[0]
    )
    return Followed(count, unreadable, tuple(finding for _, finding in found))


def _follow(
    game: PlayedLine, keys: Mapping[Identity, str], books: Sequence[_Book], most: int
) -> bool:
    """Count the replies of one game; false where it holds what cannot be played."""
    if game.variant:
        return False
    try:
        board = board_from_fen(game.fen)
    except BadPosition:
        return False
    seen: set[str] = set()
    for text in game.moves[:most]:
        try:
            move = board.parse_san(text)
        except ValueError:
            return False
        if not move:
            return False
        key = keys.get(identity(board))
        if key is not None and key not in seen:
            seen.add(key)
            for book in books:
                book.note(key, board.turn, move)
        board.push(move)
        board.clear_stack()
    return True


class _Book:
    """The lines of one side, with the replies that were seen in them."""

    def __init__(self, written: Written) -> None:
        self._written = written
        self._answered = {position.key for position in written.graph.cards}
        self._replies: dict[str, Counter[chess.Move]] = {}

    def note(self, key: str, turn: chess.Color, move: chess.Move) -> None:
        """Count a move that was played in a position."""
        if turn != self._written.student and key in self._written.positions:
            self._replies.setdefault(key, Counter())[move] += 1

    def unanswered(self) -> Iterator[tuple[int, Finding]]:
        """Replies without an answer that are seen often enough, with their number."""
        for key, replies in self._replies.items():
            for move, count in replies.items():
                if count >= FEWEST_GAMES and not self._is_answered(key, move):
                    yield count, self._finding(key, move, count, replies.total())

    def _is_answered(self, key: str, move: chess.Move) -> bool:
        ahead = self._written.positions[key].board.copy(stack=False)
        ahead.push(move)
        return ahead.epd() in self._answered or not any(ahead.legal_moves)

    def _finding(self, key: str, move: chess.Move, count: int, games: int) -> Finding:
        position = self._written.graph.positions[key]
        board = self._written.positions[key].board
        share = f"seen in {count} of {games} games ({100 * count / games:.0f} %)"
        message = (
            f"{numbered(board, board.san(move))} {after(position)} was {share}; "
            f"{_what_is_missing(position, move)}"
        )
        spot = self._written.moves.get((key, move.uci())) or self._written.arrivals[key]
        return spot.note("unanswered-reply", message)


def _what_is_missing(position: BookPosition, move: chess.Move) -> str:
    if not position.moves:
        return "the line ends here: add the reply and its answer, if it matters"
    if position.move(move.uci()) is not None:
        return "the deck has the reply but no answer to it: add one"
    return "the deck does not have it: add it with an answer"
