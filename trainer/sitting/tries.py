"""What a try, a hint and a shown answer come to, for each kind of card.

Changes a prompt and nothing else: what is asked next, and what is logged, `step` decides.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum, auto

import chess

from trainer.lines.graph import LineGraph
from trainer.lines.idea import Form
from trainer.lines.legality import judge_move
from trainer.lines.reading import LegalMove, Reading
from trainer.lines.typed import read_move
from trainer.memory.quality import quality
from trainer.sitting.cards import AskingMove, Card, GuessCard, IdeaCard, MoveCard, TacticCard
from trainer.sitting.events import (
    AnswerChosen,
    Effect,
    Guessed,
    Hinted,
    Judged,
    LogGuess,
    MoveMade,
    MoveTyped,
    Reply,
    RestShown,
    Shown,
    SquaresChosen,
)
from trainer.sitting.sitting import Done, Prompt, Rules, Try
from trainer.sitting.verdict import (
    JUDGED_BY_DECK,
    SPARED_ONCE,
    Judgement,
    Verdict,
    judge,
    judge_by_rules,
    judge_solution,
)

AnswerEvent = MoveTyped | MoveMade | SquaresChosen | AnswerChosen


class Then(Enum):
    """How it goes on after a try."""

    STAY = auto()
    """The prompt is still asked, or its next turn."""
    TOLD = auto()
    """Something is told before the next turn."""
    FINISHED = auto()
    """The card is answered."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a try, or a request for help, came to."""

    prompt: Prompt
    effects: tuple[Effect, ...]
    then: Then = Then.STAY


def answer(
    rules: Rules, books: Mapping[tuple[str, str], LineGraph], prompt: Prompt, event: AnswerEvent
) -> Outcome:
    """What a try comes to."""
    card = prompt.card
    if isinstance(card, IdeaCard):
        return _settled(prompt, _judged_idea(rules, prompt, card, event))
    if not isinstance(event, MoveTyped | MoveMade):
        other = "squares" if isinstance(event, SquaresChosen) else "a choice"
        return _unreadable(prompt, f"A move is asked here, not {other}.")
    if isinstance(card, MoveCard):
        return _settled(prompt, judge_in_lines(rules, books, card, event))
    reading = read_try(rules, card.board, event)
    if isinstance(card, TacticCard):
        return _solve(rules, prompt, card, judge_solution(reading, card.position))
    if isinstance(card, GuessCard):
        return _guess(prompt, card, reading)
    raise TypeError(f"a {card.kind} is asked by nobody")


def judge_in_lines(
    rules: Rules,
    books: Mapping[tuple[str, str], LineGraph],
    card: MoveCard,
    event: MoveTyped | MoveMade,
) -> Judgement:
    """The verdict on a try at a move of the lines."""
    board = card.board
    reading = read_try(rules, board, event)
    return judge(reading, board, card.position, books[card.deck, card.side], card.other_decks)


def read_try(rules: Rules, board: chess.Board, event: MoveTyped | MoveMade) -> Reading:
    """The move that was typed or made, read by the rules of chess alone."""
    if isinstance(event, MoveTyped):
        return read_move(board, event.text, rules.letters)
    return judge_move(board, event.from_square, event.to_square, event.promotion)


def hint(prompt: Prompt) -> Outcome:
    """Which piece moves; a question has no piece to name."""
    card = prompt.card
    if not isinstance(card, AskingMove):
        return _unreadable(prompt, "A question has no hint; you can let the answer be shown.")
    move = chess.Move.from_uci(card.move.uci)
    piece_type = card.board.piece_type_at(move.from_square)
    if piece_type is None:
        raise RuntimeError(f"the deck moves a piece that is not there: {card.key}")
    hinted = Hinted(chess.square_name(move.from_square), chess.piece_name(piece_type))
    return Outcome(replace(prompt, hint=True), (hinted,))


def show(prompt: Prompt) -> Outcome:
    """The answer, which must then be given; in a model game it is a guess given up."""
    prompt = replace(prompt, shown=True)
    if isinstance(prompt.card, GuessCard):
        return _guessed(prompt, None, right=False)
    return Outcome(prompt, (Shown(prompt),))


def grade(rules: Rules, prompt: Prompt) -> int:
    """The quality of an answered prompt; of a tactic that of its worst move."""
    if prompt.done:
        return min(turn.quality for turn in prompt.done)
    return _turn_quality(rules, prompt)


def moved_on(prompt: Prompt) -> Prompt | None:
    """The prompt at the turn that follows what was told; None where nothing does."""
    card = prompt.card
    following = None
    if isinstance(card, TacticCard):
        following = card.next_defence()
    elif isinstance(card, GuessCard):
        following = card.next_turn()
    return _at(prompt, following) if following else None


# --- Lines and ideas: one answer


def _settled(prompt: Prompt, judgement: Judgement) -> Outcome:
    if judgement.verdict in SPARED_ONCE and prompt.has_tried(judgement.verdict):
        judgement = replace(judgement, verdict=Verdict.OUT_OF_BOOK)
    prompt = _counted(prompt, judgement)
    then = Then.FINISHED if judgement.verdict is Verdict.IN_BOOK else Then.STAY
    return Outcome(prompt, (Judged(judgement, prompt),), then)


def _counted(prompt: Prompt, judgement: Judgement) -> Prompt:
    if judgement.verdict not in JUDGED_BY_DECK:
        return prompt
    hesitated = prompt.hesitated
    if hesitated is None and judgement.verdict not in SPARED_ONCE:
        hesitated = prompt.seconds - prompt.turn_began
    tried = Try(judgement.san, judgement.verdict)
    return replace(prompt, tries=(*prompt.tries, tried), hesitated=hesitated)


def _unreadable(prompt: Prompt, reason: str) -> Outcome:
    return Outcome(prompt, (Judged(Judgement(Verdict.UNREADABLE, reason), prompt),))


_WANTED = {
    Form.SQUARES: "Squares are asked here, such as d4 e5.",
    Form.MOVE: "A move is asked here.",
    Form.CHOOSE: "The number of one of the answers is asked here.",
}


def _judged_idea(rules: Rules, prompt: Prompt, card: IdeaCard, event: AnswerEvent) -> Judgement:
    idea = card.idea
    match idea.form, event:
        case Form.SQUARES, SquaresChosen(squares):
            unknown = [square for square in squares if square not in chess.SQUARE_NAMES]
            if squares and not unknown:
                chosen = tuple(sorted(set(squares)))
                return _judgement(card, chosen == idea.squares, " ".join(chosen))
        case Form.CHOOSE, AnswerChosen(number):
            if 1 <= number <= len(prompt.order):
                place = prompt.order[number - 1]
                return _judgement(card, place == 0, idea.choices[place])
            reason = f"The answers are numbered from 1 to {len(prompt.order)}."
            return Judgement(Verdict.UNREADABLE, reason)
        case Form.MOVE, MoveTyped() | MoveMade():
            reading = read_try(rules, card.board, event)
            if not isinstance(reading, LegalMove):
                return judge_by_rules(reading)
            right = reading.move.uci() == idea.move
            return _judgement(card, right, reading.san, reading.move)
    return Judgement(Verdict.UNREADABLE, _WANTED[idea.form])


def _judgement(card: IdeaCard, right: bool, said: str, move: chess.Move | None = None) -> Judgement:
    if right:
        return Judgement(Verdict.IN_BOOK, "", move, said, why=card.idea.why)
    return Judgement(Verdict.OUT_OF_BOOK, "That is not it.", move, said)


# --- Tactics: every defence, move by move


def _solve(rules: Rules, prompt: Prompt, card: TacticCard, judgement: Judgement) -> Outcome:
    prompt = _counted(prompt, judgement)
    judged = Judged(judgement, prompt)
    if judgement.verdict not in JUDGED_BY_DECK:
        return Outcome(prompt, (judged,))
    prompt = _turn_over(rules, prompt)
    if judgement.verdict is Verdict.IN_BOOK:
        following = card.next_turn()
        if following is None:
            return Outcome(prompt, (judged,), Then.FINISHED)
        if card.ends_defence:
            return Outcome(prompt, (judged,), Then.TOLD)
        prompt = _at(prompt, following)
        return Outcome(prompt, (judged, Reply(prompt)))
    then = Then.TOLD if card.next_defence() else Then.FINISHED
    return Outcome(prompt, (judged, RestShown(prompt, card.rest)), then)


def _turn_over(rules: Rules, prompt: Prompt) -> Prompt:
    turn = Done(prompt.tries, prompt.hint, prompt.shown, _turn_quality(rules, prompt))
    return replace(prompt, done=(*prompt.done, turn))


def _turn_quality(rules: Rules, prompt: Prompt) -> int:
    return quality(
        misses=prompt.misses,
        hint=prompt.hint,
        shown=prompt.shown,
        seconds=prompt.hesitated or 0.0,
        hesitation=rules.hesitation,
    )


def _at(prompt: Prompt, card: Card) -> Prompt:
    """The prompt at another turn, of which nothing is known yet."""
    return replace(
        prompt,
        card=card,
        tries=(),
        hint=False,
        shown=False,
        hesitated=None,
        turn_began=prompt.seconds,
    )


# --- Model games: one guess a move


def _guess(prompt: Prompt, card: GuessCard, reading: Reading) -> Outcome:
    judgement = judge_solution(reading, card.position)
    if not isinstance(reading, LegalMove):
        return Outcome(prompt, (Judged(judgement, prompt),))
    return _guessed(prompt, judgement, right=reading.move.uci() == card.move.uci)


FOUND, NOT_FOUND = 5, 2
"""Marks of a guess in `Done.quality`; a game has no grades between."""


def _guessed(prompt: Prompt, judgement: Judgement | None, right: bool) -> Outcome:
    if judgement is not None:
        prompt = _counted(prompt, judgement)
    mark = FOUND if right else NOT_FOUND
    turn = Done(prompt.tries, prompt.hint, prompt.shown, mark)
    prompt = replace(prompt, done=(*prompt.done, turn))
    log = LogGuess(prompt, judgement.san if judgement else "", right)
    return Outcome(prompt, (log, Guessed(prompt, judgement, right)), Then.TOLD)
