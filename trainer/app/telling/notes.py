"""What is said with an answer of any kind: the note of a move, what it draws, what was missed.

The moments themselves are made by the modules of their kinds.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from trainer.app.telling.blocks import Block, Paragraph, Room, Rows
from trainer.app.telling.moment import Moment
from trainer.app.telling.positions import drawn_in_words
from trainer.lines.graph import BookMove
from trainer.lines.movetext import numbered
from trainer.sitting.sitting import Prompt
from trainer.sitting.verdict import MISSES

AGAIN = "It comes again in this sitting."
TRY_AGAIN = Paragraph("Taken back: try again.", quiet=True, passing=True)

_ORDINALS = {2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}


def note(said: BookMove) -> tuple[Block, ...]:
    """What the deck says of a move, and what it draws, in words."""
    return (*paragraphs(said.note), *drawings(said))


def named_note(board: chess.Board, said: BookMove) -> tuple[Block, ...]:
    """The note of a move behind its name, where more than one move is told of.

    What it draws is not told: the board shows one move.

    :param board: before the move.
    """
    first, *more = paragraphs(said.note) or (None,)
    if first is None:
        return ()
    named = Paragraph(f"{numbered(board, said.san)}: {first.text}")
    return (named, *(block for block in more if block))


def drawings(said: BookMove) -> tuple[Block, ...]:
    """The themes, arrows and squares of a move, in words."""
    drawn = drawn_in_words(said)
    themes = (Rows((("themes", " · ".join(said.themes)),), room=Room.ROOMY),) if said.themes else ()
    return (*themes, *((Rows(drawn),) if drawn else ()))


def paragraphs(text: str) -> tuple[Paragraph, ...]:
    """One for each line that is not empty."""
    return tuple(Paragraph(line) for line in text.splitlines() if line)


def quiet_paragraphs(text: str) -> tuple[Paragraph, ...]:
    """The same, muted."""
    return tuple(Paragraph(line, quiet=True) for line in text.splitlines() if line)


def kept(before: Moment) -> tuple[Block, ...]:
    """What was said of this prompt and still holds, without what was said in passing."""
    return tuple(b for b in before.page if not (isinstance(b, Paragraph) and b.passing))


def missed(prompt: Prompt) -> tuple[str, ...]:
    """The wrong tries of the present turn."""
    return tuple(attempt.san for attempt in prompt.tries if attempt.verdict in MISSES)


def how_it_went(prompt: Prompt, right: str) -> str:
    """`In book, first try, 3.2 s`.

    :param right: the first words.
    """
    if prompt.shown:
        return f"{right}, as shown"
    if prompt.misses:
        tries = prompt.misses + 1
        return f"{right}, {_ORDINALS.get(tries, f'{tries}th')} try"
    if prompt.hint:
        return f"{right}, with a hint"
    return f"{right}, first try, {prompt.hesitated or 0.0:.1f} s"


def said_before(prompt: Prompt, taken_back: bool) -> Iterator[Block]:
    """What is to be known of this asking before it is answered."""
    card = prompt.card
    if taken_back:
        where = f" after {card.line}" if card.line else ""
        yield Paragraph(f"The answer{where} is taken back and asked again.", quiet=True)
    if prompt.repeat:
        yield Paragraph("Once more: it was not known at first.", quiet=True)
    if prompt.hint:
        yield Paragraph("A hint was given.", quiet=True)
