"""When two positions are the same, and how a position is built, named and interned.

The identity of a position is FIDE's (Laws of Chess 2023, article 9.2): same mover, same
pieces on the same squares, same possible moves. Nothing here knows decks or cards.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import chess

START_KEY = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq -"

MOST_MOVE_NUMBER = 9_000
"""In a FEN. By FIDE's article 9.6 no game lasts 8,850 moves (from memory; no source)."""

Identity = tuple[int, int, int, int, int, int, int, bool, int, int | None]


class BadPosition(ValueError):
    """A FEN that names no legal position of standard chess; the text says why."""


def board_from_fen(fen: str) -> chess.Board:
    """The board of a FEN with four to six fields, its castling rights cleaned.

    :raises BadPosition: the text is no FEN, or the position cannot stand on a board.
    """
    if not fen.isascii():
        raise BadPosition("a FEN has plain ASCII letters and digits only")
    if not 4 <= len(fen.split()) <= 6:
        raise BadPosition(f"a FEN has four to six fields, this one has {len(fen.split())}")
    try:
        board = chess.Board(fen)
    except ValueError as error:
        raise BadPosition(str(error)) from error
    if not 1 <= board.fullmove_number <= MOST_MOVE_NUMBER:
        raise BadPosition(f"the move number must be one from 1 to {MOST_MOVE_NUMBER}")
    board.castling_rights = board.clean_castling_rights()
    # FENs name an en-passant square after every double step, some where no pawn made one;
    # `chess` then also finds checks impossible that the square alone makes so.
    if board.status() & (chess.STATUS_INVALID_EP_SQUARE | chess.STATUS_IMPOSSIBLE_CHECK):
        board.ep_square = None
    status = board.status()
    if status:
        raise BadPosition(_WHY_IMPOSSIBLE.get(_lowest_bit(status), "no such position can arise"))
    return board


def position_key(board: chess.Board) -> str:
    """The first four FEN fields; en passant and castling only where they are real.

    What `board.epd(en_passant="legal")` gives, three times as quick: every position of a
    deck gets its key when the deck is added.
    """
    passant = board.has_legal_en_passant() and board.ep_square
    return " ".join(
        (
            _placement(board),
            "w" if board.turn == chess.WHITE else "b",
            _CASTLING[board.clean_castling_rights()],
            chess.SQUARE_NAMES[passant] if passant else "-",
        )
    )


def full_fen(board: chess.Board) -> str:
    """All six FEN fields, the en-passant square only where a legal capture exists."""
    return board.fen(en_passant="legal")


def identity(board: chess.Board) -> Identity:
    """What `position_key` says, seventy times as quick, good as a dictionary key only."""
    return (
        board.pawns,
        board.knights,
        board.bishops,
        board.rooks,
        board.queens,
        board.kings,
        board.occupied_co[chess.WHITE],
        board.turn,
        board.clean_castling_rights(),
        board.ep_square if board.has_legal_en_passant() else None,
    )


class Position:
    """One position, held once however many lines reach it. Compared by identity.

    Its board is that of the first way it was reached (move counters included) and is
    never changed.
    """

    __slots__ = ("_key", "board")

    def __init__(self, board: chess.Board) -> None:
        self.board = board
        self._key: str | None = None

    @property
    def key(self) -> str:
        """The position key (made once, when first asked for)."""
        if self._key is None:
            self._key = position_key(self.board)
        return self._key

    @property
    def turn(self) -> chess.Color:
        """Whose move it is."""
        return self.board.turn


class PositionPool:
    """Interns positions, so that two move orders into one position give one object."""

    def __init__(self) -> None:
        self._positions: dict[Identity, Position] = {}

    def __len__(self) -> int:
        return len(self._positions)

    def __iter__(self) -> Iterator[Position]:
        return iter(self._positions.values())

    def at(self, board: chess.Board) -> Position:
        """The position on this board. The board is copied, not kept."""
        found = self._positions.get(key := identity(board))
        if found is None:
            found = self._positions[key] = Position(board.copy(stack=False))
        return found

    def after(self, position: Position, move: chess.Move) -> Position:
        """The position after a legal move."""
        board = position.board.copy(stack=False)
        board.push(move)
        board.clear_stack()
        return self._positions.setdefault(identity(board), Position(board))


def _placement(board: chess.Board) -> str:
    """The first FEN field."""
    signs = ["1"] * 64
    white = board.occupied_co[chess.WHITE]
    for piece_type, pieces in (
        ("p", board.pawns),
        ("n", board.knights),
        ("b", board.bishops),
        ("r", board.rooks),
        ("q", board.queens),
        ("k", board.kings),
    ):
        for square in chess.scan_forward(pieces & white):
            signs[square] = piece_type.upper()
        for square in chess.scan_forward(pieces & ~white):
            signs[square] = piece_type
    text = "/".join("".join(signs[rank : rank + 8]) for rank in range(56, -8, -8))
    for run in range(8, 1, -1):
        text = text.replace("1" * run, str(run))
    return text


_CASTLING = {
    sum(right for _, right in chosen): "".join(sign for sign, _ in chosen) or "-"
    for count in range(5)
    for chosen in combinations(
        (("K", chess.BB_H1), ("Q", chess.BB_A1), ("k", chess.BB_H8), ("q", chess.BB_A8)), count
    )
}
"""The third FEN field by the rooks that may still castle, in standard chess."""


def _lowest_bit(status: chess.Status) -> int:
    return int(status) & -int(status)


_WHY_IMPOSSIBLE = {
    int(chess.STATUS_NO_WHITE_KING): "White has no king",
    int(chess.STATUS_NO_BLACK_KING): "Black has no king",
    int(chess.STATUS_TOO_MANY_KINGS): "a side has more than one king",
    int(chess.STATUS_TOO_MANY_WHITE_PAWNS): "White has more than eight pawns",
    int(chess.STATUS_TOO_MANY_BLACK_PAWNS): "Black has more than eight pawns",
    int(chess.STATUS_PAWNS_ON_BACKRANK): "a pawn stands on the first or the last rank",
    int(chess.STATUS_TOO_MANY_WHITE_PIECES): "White has more than sixteen pieces",
    int(chess.STATUS_TOO_MANY_BLACK_PIECES): "Black has more than sixteen pieces",
    int(chess.STATUS_OPPOSITE_CHECK): "the side that is not to move stands in check",
    int(chess.STATUS_EMPTY): "the board is empty",
    int(chess.STATUS_TOO_MANY_CHECKERS): "no move can give this many checks at once",
    int(chess.STATUS_IMPOSSIBLE_CHECK): "no move can give these checks at once",
}
