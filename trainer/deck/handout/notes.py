"""What a reader of a handout has to be told of its signs, as far as they come up in it."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.deck.handout.pages import Handout, Manner, Paragraph


def notes_on_signs(handout: Handout) -> Iterator[str]:
    """Sentences for the first page, whatever the form."""
    if _has_shares(handout):
        yield "A percentage in brackets is the share of opponents who choose the reply."


def notes_on_strokes(handout: Handout) -> Iterator[str]:
    """What the strokes of marks mean where there are several colours of them."""
    marks = (mark for drawn in handout.diagrams for mark in (*drawn.squares, *drawn.arrows))
    if len({mark[0] for mark in marks}) > 1:
        yield (
            "Marked squares and arrows: solid for green, long dashes for red, short dashes for "
            "yellow, dots for blue."
        )


def notes_on_letters(handout: Handout) -> Iterator[str]:
    """How boards made of letters are read."""
    if handout.diagrams:
        yield "In the diagrams White's pieces are capitals; an empty dark square is a colon."


def _has_shares(handout: Handout) -> bool:
    return any(
        word.manner is Manner.SHARE
        for section in handout.sections
        for entry in section.entries
        for block in entry.blocks
        if isinstance(block, Paragraph)
        for word in block.words
    )
