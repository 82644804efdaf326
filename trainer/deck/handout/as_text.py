"""A handout as plain text, its lines broken between words."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from trainer.deck.handout.exercises import letter
from trainer.deck.handout.notes import notes_on_letters, notes_on_signs
from trainer.deck.handout.pages import (
    Block,
    Choices,
    Diagram,
    Entry,
    Handout,
    Manner,
    Paragraph,
    Section,
    Word,
    with_dashes,
)
from trainer.deck.handout.text_board import marks_in_words, text_board

WIDTH = 78
"""Signs of a line."""

DEEPEST = 6
"""Variations are indented no further."""

_INDENT = "  "
_UNBROKEN = "\N{NO-BREAK SPACE}"


def text(handout: Handout) -> str:
    """All of it, with a line end after the last line."""
    lines = [*_front(handout), *_contents(handout)]
    for section in handout.sections:
        lines += _section(section)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _front(handout: Handout) -> Iterator[str]:
    yield from _underlined(handout.title, "=")
    yield f"Edition {handout.edition}"
    yield from (line for line in (handout.author, handout.licence) if line)
    for paragraph in filter(None, handout.about.split("\n")):
        yield ""
        yield from _wrapped(paragraph)
    for note in (*notes_on_signs(handout), *notes_on_letters(handout)):
        yield ""
        yield from _wrapped(note)


def _contents(handout: Handout) -> Iterator[str]:
    yield ""
    yield from _underlined("Contents", "-")
    for section in handout.sections:
        yield from _wrapped(_titled(section), hanging=_INDENT * 2)
        for entry in section.entries if section.listed else ():
            yield from _wrapped(_titled(entry), _INDENT, _INDENT * 3)


def _section(section: Section) -> Iterator[str]:
    yield from ("", "")
    yield from _underlined(_titled(section), "=")
    if not section.answers:
        yield section.remark
    for entry in section.entries:
        yield from _entry(entry)


def _entry(entry: Entry) -> Iterator[str]:
    yield ""
    yield from _underlined(_titled(entry), "-")
    for block in entry.blocks:
        yield ""
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Paragraph):
        indent = _INDENT * min(block.level, DEEPEST)
        yield from _wrapped(" ".join(map(_word, with_dashes(block.words))), indent, indent)
    elif isinstance(block, Diagram):
        yield from (_INDENT + row for row in text_board(block))
        for told in (block.caption, *marks_in_words(block)):
            yield from _wrapped(told, _INDENT, _INDENT)
    elif isinstance(block, Choices):
        for place, answer in enumerate(block.answers):
            yield from _wrapped(f"{letter(place)}) {answer}", _INDENT, _INDENT * 2)
    else:
        yield "_" * 40


def _word(word: Word) -> str:
    """Moves keep together with their numbers."""
    is_move = word.manner in (Manner.MAIN, Manner.MOVE)
    return word.text.replace(" ", _UNBROKEN) if is_move else word.text


def _titled(part: Section | Entry) -> str:
    lead = f"{part.remark} " if isinstance(part, Section) and part.answers else ""
    return f"{lead}{part.number} {part.title}".rstrip()


def _underlined(title: str, line: str) -> Iterator[str]:
    rows = list(_wrapped(title))
    yield from rows
    yield line * max(map(len, rows), default=0)


def _wrapped(told: str, indent: str = "", hanging: str = "") -> Iterator[str]:
    for row in textwrap.wrap(
        told,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=hanging,
        break_long_words=False,
        break_on_hyphens=False,
    ):
        yield row.replace(_UNBROKEN, " ")
