"""What a sitting says in words: its effects as plain sentences, one idea a line."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import chess

from trainer.cli.exercise_sentences import (
    guessed,
    idea_verdict,
    missed_exercise,
    note_lines,
    notes_of_defence,
    question,
    reply,
    rest_of_defence,
    task,
)
from trainer.lines.graph import Standing
from trainer.lines.idea import Form
from trainer.lines.in_words import colour_name
from trainer.lines.movetext import numbered
from trainer.lines.read_out import move_spoken
from trainer.memory.sm2 import PASSED, REPEATED_BELOW
from trainer.service.words import counted, next_time_spoken
from trainer.sitting.cards import (
    AskingMove,
    Card,
    GuessCard,
    IdeaCard,
    MoveCard,
    TacticCard,
    TurnCard,
)
from trainer.sitting.events import (
    Ask,
    Effect,
    Graded,
    Guessed,
    Hinted,
    Judged,
    Reply,
    RestShown,
    Show,
    Shown,
    Undone,
)
from trainer.sitting.sitting import Phase, Prompt, Sitting
from trainer.sitting.verdict import JUDGED_BY_DECK, Verdict

VERDICTS = {
    Verdict.IN_BOOK: "In book: {move}.",
    Verdict.TRANSPOSES: "Neither right nor wrong: {move}.",
    Verdict.OTHER_DECK: "Neither right nor wrong: {move}.",
    Verdict.KNOWN_MISTAKE: "A known mistake: {move}.",
    Verdict.OUT_OF_BOOK: "Out of book: {move}.",
    Verdict.UNREADABLE: "Not understood.",
    Verdict.UNCLEAR: "Not clear.",
    Verdict.ILLEGAL: "Not legal.",
}

QUALITIES = {
    5: "at once, at the first try",
    4: "at the first try, after some thought",
    3: "at the first try, with a hint",
    2: "after a miss",
    1: "after a miss and with a hint",
    0: "the move was shown",
}


OTHER_QUALITIES = {0: "the answer was shown"}
"""What is said of cards that ask for more, or for other things, than a move."""


def spoken(effect: Effect, sitting: Sitting, today: date) -> list[str]:
    """The sentences for one effect, its note included; none where nothing is to be said."""
    match effect:
        case Ask(prompt):
            return ["", *_heading(prompt, sitting), *asked(prompt), *_given_away(prompt)]
        case Show(prompt, card):
            return ["", *_look_heading(prompt, sitting), *_first_look(card), *note_of(effect)]
        case Judged(judgement) if sitting.phase is Phase.LOOKING:
            return [judgement.reason]
        case Judged(judgement) if judgement.verdict in JUDGED_BY_DECK:
            return [*_verdict(effect), *note_of(effect), *_what_now(effect)]
        case Judged():
            return [*_verdict(effect), *_what_now(effect)]
        case Hinted(square, piece):
            return [f"The {piece} on {square} moves.", *_price_of_hint(sitting.current)]
        case Shown(prompt):
            return _shown(prompt)
        case RestShown():
            return rest_of_defence(effect)
        case Reply():
            return list(reply(effect))
        case Guessed():
            return list(guessed(effect))
        case Graded():
            return list(_grade(effect, today))
        case Undone(None):
            return ["There is nothing to take back."]
        case Undone():
            return ["The last answer is taken back. It is asked again."]
    return []


def note_of(effect: Effect) -> list[str]:
    """What the deck says of the move that an effect tells of."""
    match effect:
        case Show(_, card):
            return note_lines(card.move)
        case Judged(judgement, Prompt(card=TacticCard() as card)) if (
            judgement.verdict is Verdict.IN_BOOK
        ):
            said = judgement.book_move
            other = said is not None and said.standing is Standing.ACCEPTED
            told = note_lines(said) if said is not None and other else []
            return [*told, *(notes_of_defence(card) if card.ends_defence else [])]
        case Judged(judgement) if judgement.book_move is not None:
            return note_lines(judgement.book_move)
        case Judged(judgement):
            return [line for line in judgement.note.splitlines() if line]
        case RestShown(Prompt(card=TacticCard() as card)):
            return notes_of_defence(card)
        case Guessed(Prompt(card=TurnCard() as turn)):
            return note_lines(turn.move)
    return []


def asked(prompt: Prompt) -> list[str]:
    """What is asked: where it stands, and of a question its words."""
    return [*task(prompt), *place(prompt.card), *question(prompt)]


def place(card: Card) -> list[str]:
    """The way to the position and whose move it is."""
    board = card.board
    mover = f"{colour_name(board.turn)} to move{', in check' if board.is_check() else ''}."
    told = [f"{_way(card)}. {mover}"]
    if card.start != chess.STARTING_FEN:
        told.append("The deck has set this position up; type board to hear it.")
    return told


def missed(prompt: Prompt) -> str:
    """A card that was not answered right, with its answer, for the summary."""
    card = prompt.card
    if isinstance(card, IdeaCard | TurnCard):
        return missed_exercise(card, prompt.answer)
    way = _way(card)
    return f"Missed: {way[:1].lower()}{way[1:]} the move is {_answer(prompt)}."


def _way(card: Card) -> str:
    if card.line:
        return f"After {card.line}"
    usual = card.start == chess.STARTING_FEN
    return "At the start of the game" if usual else "In the position set up by the deck"


def _heading(prompt: Prompt, sitting: Sitting) -> Iterator[str]:
    """Without the chapter's title, which may name the move that is asked for."""
    again = " This one comes again." if prompt.repeat else ""
    if not isinstance(prompt.card, GuessCard):
        yield f"{counted(sitting.left + 1, 'position')} to go.{again}"
    yield f"{prompt.card.deck_title}."


def _look_heading(prompt: Prompt, sitting: Sitting) -> Iterator[str]:
    now, total = sitting.looks
    yield f"A first look at a fresh position, {now} of {total}."
    yield f"{prompt.card.deck_title}, chapter {prompt.card.chapter_title}."


def _first_look(card: MoveCard) -> list[str]:
    return [
        *(line for line in card.introduction.splitlines() if line),
        *place(card),
        f"The move is {_spoken_move(card.board, card.move.uci)}.",
    ]


def _given_away(prompt: Prompt) -> list[str]:
    """What help this prompt has had: an undo had pushed it aside."""
    if prompt.shown:
        return _shown(prompt)
    return ["You have had a hint."] if prompt.hint else []


def _shown(prompt: Prompt) -> list[str]:
    card = prompt.card
    if isinstance(card, IdeaCard) and card.idea.form is not Form.MOVE:
        number = f"{prompt.order.index(0) + 1}, " if prompt.order else ""
        return [f"The answer is {number}{prompt.answer}.", "Give it to go on."]
    return [f"The move is {_answer(prompt)}.", "Play it to go on."]


def _price_of_hint(prompt: Prompt | None) -> list[str]:
    if prompt is None or prompt.shown:
        return []
    if isinstance(prompt.card, GuessCard):
        return ["The guess is kept as one with a hint."]
    best = 1 if prompt.misses else 3
    return [f"The answer now counts as {best} at most.", "To hear the move, type show."]


def _answer(prompt: Prompt) -> str:
    """The answer, moves in words as well."""
    card = prompt.card
    if isinstance(card, AskingMove):
        return _spoken_move(card.board, card.move.uci)
    if isinstance(card, IdeaCard) and card.idea.form is Form.MOVE:
        return _spoken_move(card.board, card.idea.move)
    return prompt.answer


def _spoken_move(board: chess.Board, uci: str) -> str:
    return _named(board, chess.Move.from_uci(uci))


def _named(board: chess.Board, move: chess.Move) -> str:
    return f"{numbered(board, board.san(move))}, {move_spoken(board, move)}"


def _verdict(judged: Judged) -> list[str]:
    judgement = judged.judgement
    if isinstance(judged.prompt.card, IdeaCard) and (told := idea_verdict(judged)):
        return told
    move = _named(judged.prompt.card.board, judgement.move) if judgement.move else ""
    told = [VERDICTS[judgement.verdict].format(move=move)]
    return [*told, judgement.reason] if judgement.reason else told


def _what_now(judged: Judged) -> list[str]:
    match judged.judgement.verdict:
        case Verdict.IN_BOOK:
            return []
        case Verdict.KNOWN_MISTAKE | Verdict.OUT_OF_BOOK if isinstance(
            judged.prompt.card, TacticCard
        ):
            return []
        case Verdict.UNREADABLE:
            return ["Type help to hear what can be typed."]
    return ["Try again."]


def _grade(graded: Graded, today: date) -> Iterator[str]:
    how = QUALITIES[graded.quality]
    if not isinstance(graded.prompt.card, MoveCard):
        how = OTHER_QUALITIES.get(graded.quality, how)
    yield f"Quality {graded.quality}: {how}."
    due = graded.state.due
    if due is not None:
        yield f"Next {next_time_spoken(due, today)}."
    if graded.quality < REPEATED_BELOW:
        yield "It comes again in this sitting."


def summary(sitting: Sitting) -> Iterator[str]:
    """What was asked, what was right at the first try, and what was missed."""
    answered = sitting.answered
    if guesses := sitting.guesses:
        yield f"You found {sum(guesses)} of {counted(len(guesses), 'move')} in model games."
        if not answered:
            return
    if not answered:
        yield "Nothing was answered."
        return
    yield f"{counted(len(answered), 'position')} answered."
    yield f"{sitting.right} right at the first try."
    prompts = {a.prompt.card.key: a.prompt for a in answered if a.quality < PASSED}
    for prompt in prompts.values():
        yield missed(prompt)
