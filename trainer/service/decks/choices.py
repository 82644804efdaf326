"""Where a deck has several right moves, and which of them the student keeps.

The deck's own lines count, behind moves set aside as well. Nothing is changed here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from trainer.errors import TrainerError
from trainer.lines.graph import BookPosition
from trainer.lines.letters import ENGLISH, LANGUAGES
from trainer.lines.movetext import BadLine, read_movetext
from trainer.lines.position import BadPosition, board_from_fen, full_fen, position_key
from trainer.lines.preferred import right_moves
from trainer.lines.reading import LegalMove
from trainer.lines.typed import printable, read_move
from trainer.service.books import boards_after
from trainer.service.decks.cards import Contents


@dataclass(frozen=True, slots=True)
class Choice:
    """What is right in one position in which the student moves."""

    side: str
    line: str
    """Movetext that leads there; empty where lines start, and where the deck has it no more."""
    fen: str
    """Six fields."""
    moves: tuple[str, ...]
    """The right moves as SAN, the deck's first."""
    kept: str
    """The one that the student keeps, as SAN; empty for none."""
    sleeps: bool
    """The kept move is not among the right ones now, and does nothing."""

    @property
    def key(self) -> str:
        """The position key."""
        return position_key(chess.Board(self.fen))

    @property
    def at(self) -> tuple[str, str]:
        """Side and position: what a preference is for."""
        return self.side, self.key


def every_choice(contents: Contents) -> list[Choice]:
    """All positions with several right moves or a kept one, those with a kept one first."""
    found = [
        _choice(contents, side, position)
        for side, graph in contents.graphs.items()
        for position in graph.cards
        if len(right_moves(position)) > 1 or position.key in contents.preferred.get(side, {})
    ]
    return sorted([*found, *_lost(contents)], key=lambda choice: not choice.kept)


def find_choice(contents: Contents, place: str) -> Choice:
    """What is right after a line or in the position of a FEN.

    :raises TrainerError: the deck does not ask for a move there.
    """
    keys = _keys(contents, place)
    for side, graph in contents.graphs.items():
        for key in keys:
            position = graph.get(key)
            if position is not None and position.deck_move is not None:
                return _choice(contents, side, position)
    if any(graph.get(key) for graph in contents.graphs.values() for key in keys):
        raise TrainerError(
            f"the deck {contents.deck!r} asks for no move of yours {_named(place)}: there the "
            "other side moves, or the line ends"
        )
    raise TrainerError(f"the deck {contents.deck!r} does not have the position {_named(place)}")


def find_kept(contents: Contents, place: str) -> Choice:
    """The position after a line, or of a FEN, in which a move is kept, awake or not.

    :raises TrainerError: none is.
    """
    keys = _keys(contents, place)
    for choice in every_choice(contents):
        if choice.kept and choice.key in keys:
            return choice
    raise TrainerError(f"you keep no move of the deck {contents.deck!r} {_named(place)}")


def right_move(choice: Choice, typed: str, letters: str) -> str:
    """The right move (UCI) that a text names.

    :param letters: the language of the reader's piece letters.
    :raises TrainerError: it names none, or there is nothing to choose.
    """
    board = chess.Board(choice.fen)
    there = f"the right moves there are {' and '.join(choice.moves)}"
    read = read_move(board, typed, LANGUAGES.get(letters, ENGLISH))
    if not isinstance(read, LegalMove):
        raise TrainerError(f"{printable(typed)!r} cannot be kept: {read.reason}; {there}")
    if len(choice.moves) < 2:
        raise TrainerError(
            f"there is nothing to choose: {choice.moves[0]} is the only right move there"
        )
    if read.san not in choice.moves:
        raise TrainerError(f"{read.san} is not a move of the deck there; {there}")
    return read.move.uci()


def _choice(contents: Contents, side: str, position: BookPosition) -> Choice:
    place = position.places[0]
    board = chess.Board(place.start)
    for move in read_movetext(place.line, board):
        board.push(move)
    right = right_moves(position)
    uci = contents.preferred.get(side, {}).get(position.key, "")
    kept = next((move.san for move in right if move.uci == uci), "")
    return Choice(
        side=side,
        line=place.line,
        fen=full_fen(board),
        moves=tuple(move.san for move in right),
        kept=kept or (_san(board, uci) if uci else ""),
        sleeps=bool(uci) and not kept,
    )


def _lost(contents: Contents) -> Iterator[Choice]:
    """Moves kept in positions in which the deck no longer asks for one."""
    for side, preferred in contents.preferred.items():
        graph = contents.graphs.get(side)
        for key, uci in preferred.items():
            if not right_moves(graph.get(key) if graph else None):
                board = chess.Board(f"{key} 0 1")
                yield Choice(side, "", board.fen(), (), _san(board, uci), sleeps=True)


def _san(board: chess.Board, uci: str) -> str:
    return board.san(chess.Move.from_uci(uci))


def _keys(contents: Contents, place: str) -> list[str]:
    """The positions that a text can mean.

    :raises TrainerError: it is neither a FEN nor a line.
    """
    if "/" in place:
        try:
            return [position_key(board_from_fen(place))]
        except BadPosition as error:
            raise TrainerError(f"{place!r} is no position: {error}") from error
    try:
        return [position_key(board) for board in boards_after(place, contents.graphs.values())]
    except BadLine as error:
        raise TrainerError(f"neither a FEN nor a line: {error}") from error


def _named(place: str) -> str:
    return f"after {place}" if place and "/" not in place else "there"
