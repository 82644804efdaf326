"""The moments of a model game: a move asked, the guess beside the game's own, the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trainer.app.telling.blocks import Block, Paragraph, Room
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.app.telling.notes import named_note, note, quiet_paragraphs
from trainer.app.telling.positions import after_move, after_try, arriving, last_move_in_words, mover
from trainer.app.telling.tactics import reply_told
from trainer.app.widgets.strip import Course
from trainer.lines.movetext import numbered
from trainer.lines.played_out import PlayedOut
from trainer.memory.sm2 import PASSED
from trainer.sitting.cards import GuessCard, TurnCard
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import Judgement

RESULTS = {"1-0": "White won", "0-1": "Black won", "1/2-1/2": "The game was drawn"}


def players(game: PlayedOut) -> str:
    """`Penrose – Brandreth`, else the title; empty where the tags tell neither."""
    names = [_tag(game, name) for name in ("White", "Black")]
    return " – ".join(name or "N. N." for name in names) if any(names) else game.title


def occasion(game: PlayedOut) -> str:
    """`Club championship, 2026`, as far as the tags tell."""
    told = (_tag(game, "Event"), _tag(game, "Date")[:4])
    return ", ".join(part for part in told if part.strip("?"))


def _tag(game: PlayedOut, name: str) -> str:
    return "" if game.tags.get(name, "") in ("?", "????.??.??") else game.tags.get(name, "")


def course(prompt: Prompt, card: GuessCard, told: bool) -> Course:
    """How far the game has come: a high bar for a move found, a low one for another.

    :param told: whether the guess at the present move was made.
    """
    marks = (*card.guessed, *(turn.quality >= PASSED for turn in prompt.done))
    left = len(card.played.turns) - len(marks) - (not told)
    return course_of(marks, not told, left)


def course_of(guesses: Sequence[bool], asking: bool = False, left: int = 0) -> Course:
    """Guesses as bars."""
    return Course(tuple(5 if found else 0 for found in guesses), asking, left)


def asked(card: GuessCard, prompt: Prompt) -> Moment:
    """A game at its first move, or at the one where it was left."""
    about = ", ".join(part for part in (players(card.played), occasion(card.played)) if part)
    said: list[Block] = [Paragraph(f"{about}.")] if about else []
    said.append(Paragraph(f"Guess the moves of {card.side.title()}.", quiet=True))
    if card.path:
        said.append(Paragraph(last_move_in_words(card), Room.NARROW))
    if card.at == 0:
        said += quiet_paragraphs(card.introduction)
    else:
        said.insert(0, Paragraph("It goes on where you left it."))
    return Moment(arriving(card), card, headline=_task(card, prompt), page=tuple(said))


def guessed(card: GuessCard, judgement: Judgement | None, right: bool, prompt: Prompt) -> Moment:
    """The game's own move, and what is said of the guess."""
    move = numbered(card.board, card.move.san)
    view = after_move(card, card.move)
    before, missed = None, ""
    if judgement is not None and judgement.move is not None and not right:
        before = after_try(card, judgement.move, judgement.book_move)
        missed = judgement.san
    return Moment(
        Stage(view, before),
        card,
        "●" if right else "×" if judgement else "►",
        Tone.GOOD if right else Tone.BAD if judgement else Tone.HELP,
        f"Found: {move}" if right else f"The game: {move}",
        page=(
            *_told(card, judgement, right),
            *_on_reply(card),
            *_instead(card, judgement),
            *_score(card, prompt),
        ),
        answer=card.move.san,
        missed=(missed,) if missed else (),
    )


def _told(card: GuessCard, judgement: Judgement | None, right: bool) -> Iterator[Block]:
    """The note of the game's move, then what the author says of the other one."""
    yield from note(card.move)
    if judgement is None or right:
        return
    said = judgement.book_move
    if said is None or not (said.note or said.explanation):
        yield Paragraph(f"Not {judgement.san}.", quiet=True)
        return
    yield from named_note(card.board, said) or (Paragraph(f"{judgement.san}:"),)
    if said.explanation:
        yield Paragraph(said.explanation)


def _on_reply(card: TurnCard) -> tuple[Block, ...]:
    """The comment on the opponent's move, told once the answer to it is in."""
    last = card.last_move
    return named_note(last[0], card.reply) if last is not None and card.reply is not None else ()


def _instead(card: GuessCard, judgement: Judgement | None) -> Iterator[Block]:
    """What else the author gives for the two last moves."""
    tried = judgement.san if judgement else ""
    yield from (Paragraph(f"Instead: {text}", quiet=True) for text in card.beside(but=tried))


def _score(card: GuessCard, prompt: Prompt) -> Iterator[Block]:
    found, guesses = prompt.score
    if card.next_turn() is not None:
        yield Paragraph(f"{found} of {guesses} found so far.", quiet=True)
        return
    if card.closing:
        yield Paragraph(f"It ended {card.closing}.")
    result = card.played.tags.get("Result", "*")
    won = f"{RESULTS[result]}. " if result in RESULTS else ""
    yield Paragraph(f"{won}You found {found} of {guesses}.")


def replied(card: GuessCard, prompt: Prompt) -> Moment:
    """The opponent's move of the game; the next one is asked."""
    return Moment(arriving(card), card, headline=_task(card, prompt), page=(reply_told(card),))


def _task(card: TurnCard, prompt: Prompt) -> str:
    found, guesses = prompt.score
    score = f" {found} of {guesses} found." if guesses else ""
    return f"{mover(card)}{score}"
