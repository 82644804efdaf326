"""Whether a move from square to square is legal, and if not, why.

The reasons are those of FIDE's Laws of Chess (2023), articles 3.1 to 3.10, each with
the pieces and squares that make it so. Legality itself is `chess`'s word, except that
castling is a move of the king by two squares and never "king takes rook".
"""

from __future__ import annotations

import chess

from trainer.lines.castling_reasons import tries_castling, why_no_castling
from trainer.lines.in_words import colour_name, piece_name, piece_on, pieces_on
from trainer.lines.reading import Illegal, LegalMove, Unclear

PROMOTED = (chess.BISHOP, chess.KNIGHT, chess.QUEEN, chess.ROOK)
"""What a pawn may become, in the order of the words: none is named first by merit."""

PROMOTION_WANTED = "say what the pawn becomes: a bishop, a knight, a queen or a rook"


def judge_move(
    board: chess.Board,
    from_square: chess.Square,
    to_square: chess.Square,
    promotion: chess.PieceType | None = None,
) -> LegalMove | Unclear | Illegal:
    """Judge a move given by its squares, as mouse, cursor and UCI give it."""
    move = chess.Move(from_square, to_square, promotion)
    if is_playable(board, move):
        return LegalMove(move, board.san(move))
    if promotion is None and lacks_promotion(board, move):
        return Unclear(PROMOTION_WANTED)
    return Illegal(why_illegal(board, move))


def is_playable(board: chess.Board, move: chess.Move) -> bool:
    """Whether the move is legal as standard chess writes it."""
    takes_own = board.occupied_co[board.turn] & chess.BB_SQUARES[move.to_square]
    return not takes_own and board.is_legal(move)


def lacks_promotion(board: chess.Board, move: chess.Move) -> bool:
    """Whether only the piece that the pawn becomes is missing."""
    return board.is_legal(chess.Move(move.from_square, move.to_square, chess.QUEEN))


def why_illegal(board: chess.Board, move: chess.Move) -> str:
    """Why the side to move may not make this move.

    :raises ValueError: the move is legal.
    """
    piece = board.piece_at(move.from_square)
    if piece is None:
        return f"there is no piece on {chess.square_name(move.from_square)}"
    if piece.color != board.turn:
        return f"{piece_on(board, move.from_square)} is {colour_name(piece.color)}'s"
    if tries_castling(board, move):
        reason = why_no_castling(board, kingside=move.to_square > move.from_square)
    else:
        reason = (
            why_not_onto(board, move)
            or _does_not_move_so(piece, move)
            or _is_in_the_way(board, piece, move)
            or _becomes_no_such_piece(piece, move)
            or _king_in_check_after(board, move)
            or (PROMOTION_WANTED if _reaches_last_rank(piece, move) and not move.promotion else "")
        )
    if not reason:
        raise ValueError(f"{move.uci()} is legal")
    return reason


def why_not_onto(board: chess.Board, move: chess.Move) -> str:
    """Article 3.1: not to a square that a piece of one's own holds; empty if it is free."""
    target = chess.square_name(move.to_square)
    if move.from_square == move.to_square:
        return f"the {piece_name(board, move.to_square)} would stay on {target}"
    if board.color_at(move.to_square) == board.turn:
        return f"{colour_name(board.turn)}'s own {piece_name(board, move.to_square)} is on {target}"
    return ""


def moves_so(piece: chess.Piece, from_square: chess.Square, to_square: chess.Square) -> bool:
    """Whether such a piece ever goes from the one square to the other; castling apart."""
    files = abs(chess.square_file(from_square) - chess.square_file(to_square))
    ranks = abs(chess.square_rank(from_square) - chess.square_rank(to_square))
    match piece.piece_type:
        case chess.PAWN:
            return _pawn_moves_so(piece.color, from_square, to_square)
        case chess.KNIGHT:
            return files * ranks == 2
        case chess.KING:
            return max(files, ranks) == 1
        case chess.BISHOP:
            return files == ranks
        case chess.ROOK:
            return 0 in (files, ranks)
    return files == ranks or 0 in (files, ranks)


def nothing_to_take(square: chess.Square) -> str:
    """What is wrong with a capture on an empty square."""
    return f"there is nothing on {chess.square_name(square)} to take"


def _pawn_moves_so(colour: chess.Color, from_square: int, to_square: int) -> bool:
    """Article 3.7: one ahead, two on the first move, or diagonally to take."""
    if chess.BB_PAWN_ATTACKS[colour][from_square] & chess.BB_SQUARES[to_square]:
        return True
    ahead, first_rank = (8, 1) if colour == chess.WHITE else (-8, 6)
    advance = to_square - from_square
    return advance == ahead or (
        advance == 2 * ahead and chess.square_rank(from_square) == first_rank
    )


def _does_not_move_so(piece: chess.Piece, move: chess.Move) -> str:
    """Articles 3.2 to 3.8: how each piece moves."""
    if moves_so(piece, move.from_square, move.to_square):
        return ""
    if piece.piece_type == chess.KING:
        return "a king moves one square"
    ahead = 16 if piece.color == chess.WHITE else -16
    if piece.piece_type == chess.PAWN and move.to_square - move.from_square == ahead:
        return "a pawn goes two squares only on its first move"
    origin, target = chess.square_name(move.from_square), chess.square_name(move.to_square)
    return f"a {chess.piece_name(piece.piece_type)} does not move from {origin} to {target}"


def _is_in_the_way(board: chess.Board, piece: chess.Piece, move: chess.Move) -> str:
    """Article 3.5: no piece moves over another, the knight apart; 3.7: the pawn's way."""
    on_the_way = chess.between(move.from_square, move.to_square)
    if piece.piece_type == chess.PAWN:
        if chess.square_file(move.from_square) != chess.square_file(move.to_square):
            return _pawn_takes_nothing(board, move)
        on_the_way |= chess.BB_SQUARES[move.to_square]
    blockers = chess.SquareSet(on_the_way & board.occupied)
    if not blockers:
        return ""
    nearest = min(blockers, key=lambda square: chess.square_distance(square, move.from_square))
    return f"{piece_on(board, nearest)} is in the way of {piece_on(board, move.from_square)}"


def _pawn_takes_nothing(board: chess.Board, move: chess.Move) -> str:
    """Article 3.7.3: a pawn moves diagonally only to take, en passant only at once."""
    if board.piece_type_at(move.to_square) is not None or board.is_en_passant(move):
        return ""
    beside = chess.square(chess.square_file(move.to_square), chess.square_rank(move.from_square))
    fifth_rank = 4 if board.turn == chess.WHITE else 3
    passed = chess.square_rank(beside) == fifth_rank and board.piece_at(beside) == chess.Piece(
        chess.PAWN, not board.turn
    )
    if passed:
        return "en passant is allowed only at once, in the move after the pawn's double step"
    return nothing_to_take(move.to_square)


def _reaches_last_rank(piece: chess.Piece, move: chess.Move) -> bool:
    return piece.piece_type == chess.PAWN and chess.square_rank(move.to_square) in (0, 7)


def _becomes_no_such_piece(piece: chess.Piece, move: chess.Move) -> str:
    """Article 3.7.5: what a pawn becomes, and where."""
    if move.promotion is None:
        return ""
    if not _reaches_last_rank(piece, move):
        return "only a pawn that reaches the last rank becomes another piece"
    if move.promotion not in PROMOTED:
        return "a pawn becomes a bishop, a knight, a queen or a rook"
    return ""


def _king_in_check_after(board: chess.Board, move: chess.Move) -> str:
    """Article 3.9: no move may leave or put the mover's own king in check."""
    after = board.copy(stack=False)
    after.push(move)
    king = after.king(board.turn)
    attackers = chess.SquareSet() if king is None else after.attackers(after.turn, king)
    if not attackers:
        return ""
    if king == move.to_square:
        return f"the king would stand in check from {pieces_on(board, attackers)}"
    checkers = board.checkers()
    if checkers & attackers:
        given = f"the king is in check from {pieces_on(board, checkers)}"
        return f"{given}, and this move does not answer {'both' if len(checkers) > 1 else 'it'}"
    if board.is_pinned(board.turn, move.from_square):
        pinned = piece_on(board, move.from_square)
        return f"{pinned} is pinned to the king by {pieces_on(board, attackers)}"
    return f"taking en passant would leave the king in check from {pieces_on(board, attackers)}"
