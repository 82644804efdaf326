"""What can be counted in a position: the facts that a coach points at, side by side.

Every fact follows from the board alone, by the definitions beside the fields. What the
facts mean, and who stands better for them, is the coach's business.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import chess

VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}
"""Common practice. The king has none."""

_STARTS = {
    chess.KNIGHT: chess.BB_B1 | chess.BB_G1 | chess.BB_B8 | chess.BB_G8,
    chess.BISHOP: chess.BB_C1 | chess.BB_F1 | chess.BB_C8 | chess.BB_F8,
}
_HOME_RANK = {chess.WHITE: chess.BB_RANK_1, chess.BLACK: chess.BB_RANK_8}
_FAR_HALF = {
    chess.WHITE: chess.BB_RANK_5 | chess.BB_RANK_6 | chess.BB_RANK_7 | chess.BB_RANK_8,
    chess.BLACK: chess.BB_RANK_1 | chess.BB_RANK_2 | chess.BB_RANK_3 | chess.BB_RANK_4,
}


@dataclass(frozen=True, slots=True)
class Centre:
    """By how many of a side's pieces and pawns each central square is attacked."""

    d4: int
    e4: int
    d5: int
    e5: int


@dataclass(frozen=True, slots=True)
class SideFacts:
    """The facts of one side. Squares are names, sorted; files are letters."""

    material: int
    """Pawn 1, knight 3, bishop 3, rook 5, queen 9."""
    bishop_pair: bool
    """Two bishops or more, standing on squares of both colours."""
    developed: int
    """Knights and bishops not on a starting square of this side's for their kind."""
    castling: str
    """Which castling is still allowed: ``, `O-O`, `O-O-O` or `O-O, O-O-O`."""
    space: int
    """How many squares of the opponent's half the side attacks at least once."""
    doubled: tuple[str, ...]
    """Pawns with another own pawn on their file."""
    isolated: tuple[str, ...]
    """Pawns without an own pawn on a neighbouring file."""
    passed: tuple[str, ...]
    """Pawns without an enemy pawn ahead on their own or a neighbouring file."""
    open_files: tuple[str, ...]
    """Files without any pawn: the same for both sides."""
    half_open_files: tuple[str, ...]
    """Files without an own pawn but with an enemy one."""
    pinned: tuple[str, ...]
    """Own pieces and pawns pinned to the king."""
    hanging: tuple[str, ...]
    """Own pieces and pawns, never the king, that are attacked and not defended.

    Pinned pieces attack and defend all the same, and so does the king.
    """
    checks: tuple[str, ...]
    """The enemy pieces that give check to this side's king."""
    centre: Centre


@dataclass(frozen=True, slots=True)
class PositionFacts:
    """The facts of a position, side by side."""

    white: SideFacts
    black: SideFacts


def position_facts(board: chess.Board) -> PositionFacts:
    """What can be counted on this board."""
    return PositionFacts(_side(board, chess.WHITE), _side(board, chess.BLACK))


def _side(board: chess.Board, colour: chess.Color) -> SideFacts:
    own = board.pieces_mask(chess.PAWN, colour)
    enemy = board.pieces_mask(chess.PAWN, not colour)
    return SideFacts(
        material=sum(
            value * chess.popcount(board.pieces_mask(kind, colour))
            for kind, value in VALUES.items()
        ),
        bishop_pair=_has_bishop_pair(board, colour),
        developed=sum(
            chess.popcount(board.pieces_mask(kind, colour) & ~(starts & _HOME_RANK[colour]))
            for kind, starts in _STARTS.items()
        ),
        castling=_castling(board, colour),
        space=chess.popcount(_attacked(board, colour) & _FAR_HALF[colour]),
        doubled=_names(s for s in chess.scan_forward(own) if _on_file(own, s) > 1),
        isolated=_names(s for s in chess.scan_forward(own) if not own & _neighbours(s)),
        passed=_names(s for s in chess.scan_forward(own) if not enemy & _way_ahead(s, colour)),
        open_files=_files(~(own | enemy)),
        half_open_files=_files(~own, enemy),
        pinned=_names(s for s in _men(board, colour) if board.is_pinned(colour, s)),
        hanging=_names(
            s
            for s in _men(board, colour)
            if board.attackers_mask(not colour, s) and not board.attackers_mask(colour, s)
        ),
        checks=_checks(board, colour),
        centre=Centre(
            *(
                chess.popcount(board.attackers_mask(colour, square))
                for square in (chess.D4, chess.E4, chess.D5, chess.E5)
            )
        ),
    )


def _names(squares: Iterable[chess.Square]) -> tuple[str, ...]:
    return tuple(sorted(map(chess.square_name, squares)))


def _men(board: chess.Board, colour: chess.Color) -> Iterable[chess.Square]:
    """Where the side's pieces and pawns stand, the king left out."""
    return chess.scan_forward(board.occupied_co[colour] & ~board.kings)


def _has_bishop_pair(board: chess.Board, colour: chess.Color) -> bool:
    bishops = board.pieces_mask(chess.BISHOP, colour)
    return bool(bishops & chess.BB_LIGHT_SQUARES and bishops & chess.BB_DARK_SQUARES)


def _castling(board: chess.Board, colour: chess.Color) -> str:
    allowed = (
        ("O-O", board.has_kingside_castling_rights(colour)),
        ("O-O-O", board.has_queenside_castling_rights(colour)),
    )
    return ", ".join(name for name, still in allowed if still)


def _attacked(board: chess.Board, colour: chess.Color) -> chess.Bitboard:
    """All squares that the side attacks, own pieces on them or not."""
    attacked = chess.BB_EMPTY
    for square in chess.scan_forward(board.occupied_co[colour]):
        attacked |= board.attacks_mask(square)
    return attacked


def _checks(board: chess.Board, colour: chess.Color) -> tuple[str, ...]:
    king = board.king(colour)
    if king is None:
        return ()
    return _names(chess.scan_forward(board.attackers_mask(not colour, king)))


def _on_file(pawns: chess.Bitboard, square: chess.Square) -> int:
    return chess.popcount(pawns & chess.BB_FILES[chess.square_file(square)])


def _neighbours(square: chess.Square) -> chess.Bitboard:
    """The files beside the square's."""
    file = chess.square_file(square)
    left = chess.BB_FILES[file - 1] if file > 0 else chess.BB_EMPTY
    right = chess.BB_FILES[file + 1] if file < 7 else chess.BB_EMPTY
    return left | right


def _way_ahead(square: chess.Square, colour: chess.Color) -> chess.Bitboard:
    """The squares in front of a pawn on its own and the neighbouring files."""
    rank = chess.square_rank(square)
    ranks = chess.BB_RANKS[rank + 1 :] if colour == chess.WHITE else chess.BB_RANKS[:rank]
    return sum(ranks) & (chess.BB_FILES[chess.square_file(square)] | _neighbours(square))


def _files(empty: chess.Bitboard, holding: chess.Bitboard | None = None) -> tuple[str, ...]:
    """The files of which every square is in `empty`, and some in `holding` if it is given."""
    return tuple(
        name
        for name, file in zip(chess.FILE_NAMES, chess.BB_FILES, strict=True)
        if not file & ~empty and (holding is None or file & holding)
    )
