"""Lines that stop short: of an answer, of a reason, of a refutation."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.deck.check.spots import after
from trainer.deck.check.written import Written
from trainer.deck.findings import Finding


def positions_without_move(written: Written) -> Iterator[Finding]:
    """Lines that end at the student's turn, where no other line goes on."""
    for position in written.to_move(written.student):
        board = written.positions[position.key].board
        if position.moves or not position.places[0].line or not any(board.legal_moves):
            continue
        message = (
            f"the line ends {after(position)} with the student to move; "
            "add the move to play, or end the line one move earlier"
        )
        yield written.arrivals[position.key].note("position-without-move", message)


def cards_without_reason(written: Written) -> Iterator[Finding]:
    """Cards whose move has no comment at any of its places."""
    for position in written.graph.cards:
        move = position.deck_move
        if move is not None and not move.note:
            message = f"nothing says why {move.san} is played {after(position)}; add a comment"
            spot = written.moves[position.key, move.uci]
            yield spot.note("card-without-reason", message)


def mistakes_without_refutation(written: Written) -> Iterator[Finding]:
    """Known mistakes after which no move shows what is wrong with them."""
    for position, move in written.mistakes():
        if not move.explanation and _can_be_answered(written, position.key, move.uci):
            message = (
                f"no move shows what is wrong with {move.san} {after(position)}; "
                "write the refutation after it, in its variation"
            )
            spot = written.moves[position.key, move.uci]
            yield spot.warning("mistake-without-refutation", message)


def _can_be_answered(written: Written, key: str, uci: str) -> bool:
    """Whether the game goes on after a move; a stalemate, say, needs no refutation."""
    board = written.positions[key].board.copy(stack=False)
    board.push_uci(uci)
    return any(board.legal_moves)
