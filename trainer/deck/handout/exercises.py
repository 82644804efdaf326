"""Tactics and ideas as exercises: what is asked, and what the answer is.

The letters of choices follow the alphabet of their texts, so they give nothing away and are
the same on every printing.
"""

from __future__ import annotations

import chess

from trainer.deck.handout.pages import Blank, Block, Choices, Diagram, Paragraph
from trainer.deck.handout.telling import diagram_after, own, said, tell
from trainer.lines.idea import Form, Idea
from trainer.lines.in_words import colour_name
from trainer.lines.movetext import numbered, read_movetext
from trainer.lines.position import full_fen
from trainer.lines.tree import GameTree

_WANTED = {
    Form.SQUARES: "Name the square or squares.",
    Form.MOVE: "Find the move.",
    Form.CHOOSE: "Choose one.",
}


def solver_of(tree: GameTree, side: str) -> str:
    """Who solves a tactic: the chapter's side, else the side to move."""
    return side or ("white" if tree.start.turn == chess.WHITE else "black")


def tactic_question(tree: GameTree, side: str) -> tuple[Block, ...]:
    """A tactic from where the solver is to move, with what the author says of it.

    :param side: the chapter's.
    """
    solver = solver_of(tree, side)
    asked: list[Block] = [*_paragraphs(tree.introduction.text), Blank()]
    if (tree.start.turn == chess.WHITE) == (solver == "white") or not tree.children:
        marks = tree.introduction
        fen, to_move = tree.start_fen, f"{colour_name(tree.start.turn)} to move."
        return (Diagram(fen, solver, to_move, marks.squares, marks.arrows), *asked)
    first = tree.children[0]
    drawn = diagram_after(first, chess.Board(tree.start_fen).ply(), solver)
    caption = f"{drawn.caption}. {colour_name(first.after.turn)} to move."
    return (Diagram(drawn.fen, solver, caption), *asked)


def tactic_solution(tree: GameTree, side: str) -> tuple[Block, ...]:
    """The main line and the other defences; what was said before stands at the question."""
    asked = len(_paragraphs(tree.introduction.text))
    return tell(tree, solver_of(tree, side))[asked:]


def idea_question(idea: Idea) -> tuple[Block, ...]:
    """The position of an idea, and what is asked of it."""
    board = _board(idea)
    to_move = f"{colour_name(board.turn)} to move."
    caption = f"After {idea.line}. {to_move}" if idea.line else to_move
    wanted = own(_WANTED[idea.form])
    answer = Choices(_lettered(idea)) if idea.form is Form.CHOOSE else Blank()
    diagram = Diagram(full_fen(board), idea.side, caption)
    return (diagram, *_paragraphs(idea.ask), wanted, answer)


def idea_answer(idea: Idea) -> tuple[Block, ...]:
    """The answer of an idea with its reason."""
    return (*_answer(idea), *_paragraphs(idea.why))


def letter(place: int) -> str:
    """`a` for the first of some choices; after `z` comes `aa`."""
    return (letter(place // 26 - 1) if place >= 26 else "") + chr(ord("a") + place % 26)


def _answer(idea: Idea) -> tuple[Block, ...]:
    if idea.form is Form.SQUARES:
        return (own(", ".join(idea.squares)),)
    if idea.form is Form.MOVE:
        board = _board(idea)
        return (own(numbered(board, board.san(chess.Move.from_uci(idea.move)))),)
    right = idea.choices[0]
    lead = own(f"{letter(_lettered(idea).index(right))})").words
    return (Paragraph((*lead, *said(right).words)),)


def _lettered(idea: Idea) -> tuple[str, ...]:
    return tuple(sorted(idea.choices, key=lambda text: (text.casefold(), text)))


def _board(idea: Idea) -> chess.Board:
    board = chess.Board(idea.start)
    for move in read_movetext(idea.line, board):
        board.push(move)
    return board


def _paragraphs(text: str) -> list[Block]:
    return [said(part) for part in text.split("\n") if part]
