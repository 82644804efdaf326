"""What a sitting says in words of questions, tactics and model games."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from trainer.lines.graph import BookMove
from trainer.lines.idea import Form
from trainer.lines.in_words import colour_name
from trainer.lines.movetext import numbered
from trainer.lines.read_out import move_spoken
from trainer.service.words import counted
from trainer.sitting.cards import GuessCard, IdeaCard, TacticCard, TurnCard
from trainer.sitting.events import Guessed, Judged, Reply, RestShown
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import MISSES, Verdict

HOW_TO_ANSWER = {
    Form.SQUARES: "Type the squares with blanks between, such as d4 e5.",
    Form.MOVE: "Type the move.",
    Form.CHOOSE: "Type the number of the answer.",
}


def question(prompt: Prompt) -> Iterator[str]:
    """What an idea asks, its answers to choose from, and how to answer."""
    card = prompt.card
    if isinstance(card, IdeaCard):
        yield card.idea.ask
        yield from (f"{number}: {text}" for number, text in enumerate(prompt.choices, 1))
        yield HOW_TO_ANSWER[card.idea.form]


def task(prompt: Prompt) -> Iterator[str]:
    """What a tactic or a game wants of the student, before the position is told."""
    card = prompt.card
    if isinstance(card, TacticCard):
        yield f"A tactic: {_closed(card.played.title)}" if card.played.title else "A tactic."
        yield from _paragraphs(card.introduction)
        if len(card.played.defences) > 1:
            yield f"{counted(len(card.played.defences), 'defence')} will be played."
    elif isinstance(card, GuessCard):
        yield f"A model game: {game_name(card)}."
        if card.at == 0:
            yield from _paragraphs(card.introduction)
        else:
            found, guesses = prompt.score
            yield f"It goes on where you left it: {found} of {guesses} moves found so far."
        yield f"Guess the moves of {card.side.title()}."


def game_name(card: TurnCard) -> str:
    """`Penrose against Brandreth, Club championship, 2026`, as far as the tags tell."""
    tags = {name: text for name, text in card.played.tags.items() if text.strip("?. ")}
    players = [tags[name] for name in ("White", "Black") if name in tags]
    told = [" against ".join(players), tags.get("Event", ""), tags.get("Date", "")[:4]]
    return ", ".join(part for part in told if part) or "without a name"


def idea_verdict(judged: Judged) -> list[str] | None:
    """The verdict on an answer to a question; None where the rules of chess spoke."""
    judgement = judged.judgement
    said = f"“{judgement.san}”" if judged.prompt.choices else judgement.san
    if judgement.verdict is Verdict.IN_BOOK:
        return [f"Right: {said}."]
    return [f"No, not {said}."] if judgement.verdict in MISSES else None


def rest_of_defence(effect: RestShown) -> list[str]:
    """How a defence goes that was not solved, with the notes of its moves."""
    card = effect.prompt.card
    notes = notes_of_defence(card) if isinstance(card, TacticCard) else []
    return [f"The solution here: {effect.rest}.", *notes]


def notes_of_defence(card: TacticCard) -> list[str]:
    """What is said of the moves of a defence, held back until it is over: it would tell them."""
    return [
        f"{numbered(board, move.san)}: {line}"
        for board, move in card.own_moves
        for line in _paragraphs(move.note)
    ]


def reply(effect: Reply) -> Iterator[str]:
    """The opponent's move, and that the next move is asked."""
    card = effect.prompt.card
    if not isinstance(card, TurnCard) or card.reply is None or card.last_move is None:
        return
    before, move = card.last_move
    played = f"{numbered(before, card.reply.san)}, {move_spoken(before, move)}"
    defence, ply = card.turn
    if defence and ply - 1 == card.played.defences[defence].begins:
        yield ""
        yield "Another defence."
        way = card.played.movetext(defence, 0, ply - 1)
        yield f"After {way}, {played}." if way else f"{played}."
    else:
        yield f"{colour_name(before.turn)} replies {played}."
    yield "Your move."


def on_reply(prompt: Prompt) -> Iterator[str]:
    """The comment on the opponent's move, told once the answer to it is in."""
    card = prompt.card
    if isinstance(card, TurnCard) and card.reply and card.reply.note and card.last_move:
        before, _ = card.last_move
        yield f"On {numbered(before, card.reply.san)}:"
        yield from _paragraphs(card.reply.note)


def guessed(effect: Guessed) -> Iterator[str]:
    """Whether a guess was the game's move, what is said of either, and the score."""
    card = effect.prompt.card
    if not isinstance(card, TurnCard):
        return
    board = card.board
    move = chess.Move.from_uci(card.move.uci)
    played = f"{numbered(board, card.move.san)}, {move_spoken(board, move)}"
    judgement = effect.judgement
    if effect.right:
        yield f"Found: {played}."
    elif judgement is None:
        yield f"The game went {played}."
    else:
        yield f"Not {judgement.san}. The game went {played}."
        if judgement.book_move is not None and (said := note_lines(judgement.book_move)):
            yield f"The author on {judgement.san}:"
            yield from said
            yield from [f"And on {card.move.san}:"] * bool(card.move.note)
    yield from note_lines(card.move)
    yield from on_reply(effect.prompt)
    tried = judgement.san if judgement else ""
    yield from (f"Instead: {text}" for text in card.beside(but=tried))
    found, guesses = effect.prompt.score
    if not card.next_turn():
        if card.closing:
            yield f"It ended with {card.closing}."
        result = card.played.tags.get("Result", "*")
        if result != "*":
            yield f"The result was {result}."
        yield f"You found {found} of {counted(guesses, 'move')}."


def missed_exercise(card: IdeaCard | TurnCard, answer: str) -> str:
    """A question or a tactic that was not answered right, for the summary."""
    if isinstance(card, IdeaCard):
        told = f"“{answer}”" if card.idea.choices else answer
        return f"Missed: {card.idea.ask} The answer is {told}."
    title = card.played.title or "without a title"
    return f"Missed: the tactic {title}; the solution is {card.played.movetext(0, 0)}."


def note_lines(move: BookMove) -> list[str]:
    """What the deck says of a move, and what follows it where that explains it."""
    lines = _paragraphs(move.note)
    if move.explanation:
        lines.append(f"It goes on: {move.explanation}")
    return lines


def _closed(title: str) -> str:
    """A title as the end of a sentence."""
    return title if title.endswith(("?", "!", ".")) else f"{title}."


def _paragraphs(text: str) -> list[str]:
    return [line for line in text.splitlines() if line]
