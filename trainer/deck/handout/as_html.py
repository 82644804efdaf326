"""A handout as one HTML page that prints on A4 and needs nothing else: no file, no script.

Every text of a deck is escaped here, in HTML as in the style sheet, and sets its own
direction; our own words are marked as English where the deck is in another language.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from pathlib import Path

from trainer.deck.handout.exercises import letter
from trainer.deck.handout.notes import notes_on_signs, notes_on_strokes
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
from trainer.deck.handout.svg_board import STYLE, definitions, svg

DEEPEST = 4
"""Variations are indented no further."""

_RULES = Path(__file__).with_name("handout.css")


def page(handout: Handout) -> str:
    """The whole page."""
    writer = _Writer(handout)
    return "\n".join(writer.page()) + "\n"


class _Writer:
    def __init__(self, handout: Handout) -> None:
        self._handout = handout
        english = handout.language.lower().split("-")[0] == "en"
        self._english = "" if english else ' lang="en"'

    def page(self) -> Iterator[str]:
        handout = self._handout
        language = "" if handout.language == "und" else handout.language
        yield "<!DOCTYPE html>"
        yield f'<html lang="{escape(language)}">'
        yield '<head><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        yield f"<title>{escape(handout.title)}</title>"
        yield f"<style>\n{_RULES.read_text(encoding='utf-8')}{STYLE}\n{self._footer()}\n</style>"
        yield "</head>"
        yield "<body>"
        if handout.diagrams:
            yield definitions()
        yield from self._front()
        yield from self._contents()
        yield "<main>"
        yield from self._sections()
        yield "</main>"
        yield "</body>"
        yield "</html>"

    def _footer(self) -> str:
        words = ", ".join(_footer_words(self._handout))
        return f'@page {{ @bottom-left {{ content: "{_in_css(words)}"; font: 9pt serif; }} }}'

    def _front(self) -> Iterator[str]:
        handout = self._handout
        yield '<header class="front">'
        yield f'<h1 dir="auto">{escape(handout.title)}</h1>'
        yield f"<p{self._english}>Edition {handout.edition}</p>"
        for text in (handout.author, handout.licence):
            if text:
                yield f'<p dir="auto">{escape(text)}</p>'
        for text in filter(None, handout.about.split("\n")):
            yield f'<p class="about" dir="auto">{escape(text)}</p>'
        for note in (*notes_on_signs(handout), *notes_on_strokes(handout)):
            yield f'<p class="note"{self._english}>{escape(note)}</p>'
        yield "</header>"

    def _contents(self) -> Iterator[str]:
        yield '<nav class="contents">'
        yield f"<h2{self._english}>Contents</h2>"
        yield "<ol>"
        for section in self._handout.sections:
            told = self._titled(section)
            yield f'<li class="chapter"><a href="#{section.anchor}">{told}</a></li>'
            if section.listed:
                for entry in section.entries:
                    told = self._titled(entry)
                    yield f'<li class="entry"><a href="#{entry.anchor}">{told}</a></li>'
        yield "</ol>"
        yield "</nav>"

    def _titled(self, part: Section | Entry) -> str:
        """`1.2 The quiet line`, the answers to a chapter with a word in front."""
        lead = part.remark if isinstance(part, Section) and part.answers else ""
        shown = f"<span{self._english}>{lead}</span> " if lead else ""
        return f'{shown}{part.number} <span dir="auto">{escape(part.title)}</span>'

    def _sections(self) -> Iterator[str]:
        answered = False
        for section in self._handout.sections:
            first = section.answers and not answered
            answered |= section.answers
            kind = "first answers" if first else "answers" if section.answers else "chapter"
            yield f'<section id="{section.anchor}" class="{kind}">'
            yield f"<h2>{self._titled(section)}</h2>"
            if not section.answers:
                yield f'<p class="remark"{self._english}>{section.remark}</p>'
            yield '<div class="entries">'
            for entry in section.entries:
                yield from self._entry(entry)
            yield "</div>"
            yield "</section>"

    def _entry(self, entry: Entry) -> Iterator[str]:
        whole = ' class="whole"' if entry.whole else ""
        yield f'<article id="{entry.anchor}"{whole}>'
        yield f"<h3>{self._titled(entry)}</h3>"
        for block in entry.blocks:
            yield self._block(block)
        yield "</article>"

    def _block(self, block: Block) -> str:
        if isinstance(block, Diagram):
            caption = f"<figcaption{self._english}>{escape(block.caption)}</figcaption>"
            return f"<figure>{svg(block)}{caption}</figure>"
        if isinstance(block, Choices):
            rows = (
                f'<li>{letter(place)}) <span dir="auto">{escape(text)}</span></li>'
                for place, text in enumerate(block.answers)
            )
            return f'<ol class="choices">{"".join(rows)}</ol>'
        if isinstance(block, Paragraph):
            return self._paragraph(block)
        return '<p class="blank"></p>'

    def _paragraph(self, paragraph: Paragraph) -> str:
        level = min(paragraph.level, DEEPEST)
        words = paragraph.words
        if len(words) == 1 and words[0].manner is Manner.SAID:
            # Alone it is a paragraph in its author's direction.
            return f'<p class="level-{level}" dir="auto">{escape(words[0].text)}</p>'
        set_apart = " ".join(map(self._word, with_dashes(words) if level else words))
        return f'<p class="level-{level}">{set_apart}</p>'

    def _word(self, word: Word) -> str:
        text = escape(word.text)
        if word.link:
            text = f'<a href="#{word.link}">{text}</a>'
        if word.manner is Manner.SAID:
            return f'<span dir="auto">{text}</span>'
        if word.manner in (Manner.OWN, Manner.SHARE):
            return f'<span class="own"{self._english}>{text}</span>'
        return f'<span class="{word.manner.value}">{text}</span>'


def _footer_words(handout: Handout) -> Iterator[str]:
    yield handout.title
    yield f"edition {handout.edition}"
    if handout.licence:
        yield handout.licence


def _in_css(text: str) -> str:
    """Text inside a string of a style sheet: all but plain letters by their numbers."""
    return "".join(
        sign if sign.isascii() and (sign.isalnum() or sign == " ") else f"\\{ord(sign):x} "
        for sign in text
    )
