"""The position of a card in views and words, before and after a move."""

from __future__ import annotations

import chess

from trainer.app.telling.moment import Stage
from trainer.app.widgets.board import BoardView
from trainer.lines.facts import position_facts
from trainer.lines.facts_in_words import tell_facts
from trainer.lines.graph import BookMove
from trainer.lines.in_words import colour_name, move_in_words
from trainer.lines.read_out import read_position
from trainer.sitting.cards import AskingMove, Card


def resting(card: Card, arrows: tuple[str, ...] = ()) -> BoardView:
    """The position asked, at rest."""
    return BoardView(card.fen, last_move=card.path[-1] if card.path else None, arrows=arrows)


def arriving(card: Card, arrows: tuple[str, ...] = ()) -> Stage:
    """The position asked, reached by the opponent's last move."""
    last = card.last_move
    if last is None:
        return Stage(resting(card, arrows))
    board, move = last
    earlier = card.path[-2] if len(card.path) > 1 else None
    return Stage(resting(card, arrows), BoardView(board.fen(), last_move=earlier), move)


def after_try(card: Card, move: chess.Move, said: BookMove | None) -> BoardView:
    """The position after a try, with what the deck draws there."""
    board = card.board
    board.push(move)
    squares, arrows = (said.squares, said.arrows) if said else ((), ())
    return BoardView(board.fen(), last_move=move, squares=squares, arrows=arrows)


def after_move(card: Card, said: BookMove) -> BoardView:
    """The position after a move of the deck, with what it draws there."""
    return after_try(card, chess.Move.from_uci(said.uci), said)


def taken_back(card: AskingMove, move: chess.Move, said: BookMove | None, shown: bool) -> Stage:
    """A try stays in view for a moment, then the position stands there as it was.

    :param shown: whether the move asked for was shown before.
    """
    arrows = arrow_of_move(card) if shown else ()
    return Stage(resting(card, arrows), after_try(card, move, said))


def arrow_of_move(card: AskingMove) -> tuple[str, ...]:
    """The deck's move as an arrow."""
    return arrow_of(card.move.uci)


def arrow_of(uci: str) -> tuple[str, ...]:
    """A move as an arrow; none where there is no move."""
    return (f"G{uci[:4]}",) if uci else ()


def last_move_in_words(card: Card) -> str:
    """`White: knight c3 takes on e4. Check.`, or how the line begins."""
    last, check = card.last_move, check_in_words(card.board)
    if last is None:
        return f"The line begins here.{check}"
    board, move = last
    return f"{colour_name(board.turn)}: {move_in_words(board, move)}.{check}"


def check_in_words(board: chess.Board) -> str:
    """` Check.`, ` Checkmate.`, or nothing."""
    if board.is_checkmate():
        return " Checkmate."
    return " Check." if board.is_check() else ""


def caption(card: Card, view: BoardView) -> str:
    """What stands under the board: the last move in words, who moves, whether it is check."""
    if view.fen == card.fen or view.last_move is None:
        return f"{last_move_in_words(card)} {mover(card)}"
    before, after = card.board, chess.Board(view.fen)
    told = f"{colour_name(before.turn)}: {move_in_words(before, view.last_move)}."
    if after.is_checkmate():
        return f"{told} Checkmate."
    return f"{told}{check_in_words(after)} {colour_name(after.turn)} to move."


def read_out(card: Card, view: BoardView) -> list[str]:
    """The position on the board in sentences, the last move first."""
    if view.fen == card.fen or view.last_move is None:
        return read_position(card.board, card.last_move)
    return read_position(chess.Board(view.fen), (card.board, view.last_move))


def facts(view: BoardView) -> list[str]:
    """What can be counted in the position on the board, in sentences."""
    return tell_facts(position_facts(chess.Board(view.fen)))


def deck_move_in_words(card: AskingMove) -> str:
    """`Bishop c8 to f5.`"""
    words = move_in_words(card.board, chess.Move.from_uci(card.move.uci))
    return f"{words[:1].upper()}{words[1:]}."


def mover(card: Card) -> str:
    """`White to move.`"""
    return f"{colour_name(card.board.turn)} to move."


def drawn_in_words(said: BookMove) -> tuple[tuple[str, str], ...]:
    """The arrows and squares of a note as labelled rows: `arrows`, `G c8 to f5`."""
    arrows = [f"{a[0]} {a[1:3]} to {a[3:5]}" for a in said.arrows]
    squares = [f"{s[0]} {s[1:3]}" for s in said.squares]
    found = (("arrows", ", ".join(arrows)), ("squares", ", ".join(squares)))
    return tuple((label, text) for label, text in found if text)
