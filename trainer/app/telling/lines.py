"""What the Lines screen says of the place where one stands: the reason of the move first.

Words only; the tree itself is laid out by `stretch_rows`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from trainer.app.telling.blocks import Block, Paragraph, Room, Rows
from trainer.app.telling.here import Here
from trainer.app.telling.positions import drawn_in_words
from trainer.app.telling.sections import replies, scores, share
from trainer.app.telling.stretch_rows import place_name
from trainer.lines.graph import Standing
from trainer.lines.movetext import number_before
from trainer.service.card_history import CardHistory
from trainer.service.lines_report import ChapterHere, Counts, LinesReport
from trainer.service.words import counted, short_day


@dataclass(frozen=True, slots=True)
class Said:
    """What stands beside the board, apart from the tree."""

    title: str = ""
    name: str = ""
    """The move in question."""
    standing: str = ""
    """How its card stands."""
    page: tuple[Block, ...] = ()


NO_DECK = Said(
    "Lines",
    page=(
        Paragraph(
            "There is no deck yet, so there are no lines. Today offers "
            "the deck that comes with the program; trainer deck add PATH adds one of your own."
        ),
    ),
)


def failed(reason: str) -> Said:
    """The lines could not be read."""
    return Said("Lines", page=(Paragraph(reason),))


def nothing_open(report: LinesReport) -> Said:
    """A deck of which no chapter of lines is open, or that has none."""
    if not report.book.positions:
        return Said(report.title, page=(Paragraph("This deck has no lines."),))
    sentence = "Nothing of these lines is open yet."
    return Said(report.title, page=(Paragraph(sentence), *_chapters(report)))


def say(here: Here, history: CardHistory | None, aside: tuple[Block, ...] = ()) -> Said:
    """All that there is to say of a place.

    :param history: of its card, where one is asked.
    :param aside: what was asked for and is said first.
    """
    page = [
        *aside,
        *_what_it_is(here),
        *_note(here),
        *_joined(here),
        Paragraph(_counts_in_words(here)),
        *(() if here.move else _chapters(here.report)),
        *_introduction(here),
        *_own_move(here),
        *_not_these(here),
        *_replies(here),
        *_opens_later(here),
    ]
    if history is not None and history.asked:
        page.append(Rows(scores(history, here.state.due, here.report.today), "This position"))
    return Said(here.title, here.name, here.standing, (*page, *_where(here)))


def heading(report: LinesReport) -> str:
    """`The Vienna · White · 224 positions to know`."""
    cards = report.tally.of(range(len(report.tree.keys))).cards
    if not report.book.positions:
        return report.title
    return f"{report.title} · {report.side.title()} · {counted(cards, 'position')} to know"


def which(report: LinesReport) -> str:
    """`1 of 3`: which of the trees it is; empty where it is the only one."""
    books = report.books
    return f"{books.index(report.id) + 1} of {len(books)}" if len(books) > 1 else ""


def opens(chapter: ChapterHere) -> str:
    """`opens on Tue 1 Dec`, `opens after “First moves”`, or both."""
    day = f" on {short_day(chapter.opens)}" if chapter.opens else ""
    after = f" after “{chapter.after}”" if chapter.after else ""
    return f"opens{day}{after}"


def _what_it_is(here: Here) -> Iterator[Block]:
    """What the deck thinks of the move, where that is not plain."""
    move, quiet = here.move, partial(Paragraph, quiet=True)
    if move is None:
        return
    if move.standing is Standing.ACCEPTED and (own := here.asked.deck_move):
        yield quiet(f"Right as well; the deck's move is {here.number} {own.san}.")
    elif move.error:
        yield quiet("A mistake of theirs.")
    elif move.share is not None:
        yield quiet(f"Played by {share(move)}.")


def _note(here: Here) -> Iterator[Block]:
    move = here.move
    if move is None:
        return
    yield from (Paragraph(text) for text in move.note.splitlines() if text)
    themes = (("themes", " · ".join(move.themes)),) if move.themes else ()
    if rows := (*themes, *drawn_in_words(move)):
        yield Rows(rows)


def _joined(here: Here) -> Iterator[Block]:
    if here.joins is not None:
        name = place_name(here.report.tree, here.joins)
        yield Paragraph(f"Transposes: the line goes on at {name}, where → leads.")


def _counts_in_words(here: Here) -> str:
    """`12 positions from here: 7 hold, 2 shaky, 3 fresh; 4 due today.`"""
    counts = here.counts
    words = (
        f"{counted(counts.cards, 'position')} from here: {counts_told(counts)}."
        if counts.cards
        else "Nothing more is asked from here on."
    )
    return f"{words} Some lines join others." if here.joins_elsewhere else words


def counts_told(counts: Counts) -> str:
    """`7 hold, 2 shaky, 3 fresh; 4 due today`."""
    hold = "holds" if counts.known == 1 else "hold"
    kinds = ((counts.known, hold), (counts.shaky, "shaky"), (counts.fresh, "fresh"))
    told = ", ".join(f"{count} {kind}" for count, kind in kinds if count)
    return f"{told}; {counts.due} due today" if counts.due else told


def _chapters(report: LinesReport) -> Iterator[Block]:
    """What the deck consists of."""
    told = [c.title if c.open else f"{c.title}: {opens(c)}" for c in report.chapters]
    yield Rows(tuple((str(number), text) for number, text in enumerate(told, 1)), "Chapters")


def _introduction(here: Here) -> Iterator[Block]:
    """What the games say that bring their first card here."""
    for place in here.places:
        if place.introduction:
            title = place.title or here.report.chapter(place.chapter).title
            yield Rows(tuple(("", text) for text in place.introduction.splitlines()), title)


def _own_move(here: Here) -> Iterator[Block]:
    """Your move, where it is not the one just made."""
    own = here.position.deck_move
    if own is not None and here.asked is here.position:
        others = (m.san for m in here.position.moves if m.standing is Standing.ACCEPTED)
        moves = " or ".join((own.san, *others))
        yield Paragraph(f"You play {number_before(here.board)} {moves}.")


def _not_these(here: Here) -> Iterator[Block]:
    """Mistakes and asides in place of your move."""
    for move in here.asked.moves:
        if move.standing in (Standing.MISTAKE, Standing.ASIDE):
            sound = " (sound, not ours)" if move.standing is Standing.ASIDE else ""
            why = " ".join(part for part in (*move.note.splitlines(), move.explanation) if part)
            name = f"{here.number_of_asked} {move.san}{sound}"
            yield Paragraph(f"Not {name}: {why}" if why else f"Not {name}.")


def _replies(here: Here) -> Iterator[Block]:
    """What they answer here."""
    moves = [move for move in here.position.book_moves if move.after in here.report.tree.numbers]
    if moves and moves[0].standing is Standing.REPLY:
        number = number_before(here.board)
        yield replies("They reply", number, moves)
        said = ", ".join(f"{move.san} {share(move)}".rstrip() for move in moves)
        yield Paragraph(f"They reply {number} {said}.", Room.NARROW, quiet=True)
    elif not here.position.book_moves:
        yield Paragraph("The line ends here.", quiet=True)


def _opens_later(here: Here) -> Iterator[Block]:
    """What goes on from here is closed."""
    report = here.report
    closed = dict.fromkeys(
        place.chapter
        for move in here.position.book_moves
        if move.after not in report.tree.numbers
        for place in report.book.positions[move.after].places
    )
    for chapter in map(report.chapter, closed):
        yield Paragraph(f"More from here later: “{chapter.title}” {opens(chapter)}.")


def _where(here: Here) -> Iterator[Block]:
    """The chapters that pass here; the game, where they are one."""
    titles, places = here.chapters, here.places
    if here.move is not None and titles:
        label = "chapter" if len(titles) == 1 else "chapters"
        game = (("game", places[0].title),) if len(titles) == 1 and places[0].title else ()
        yield Rows(((label, " · ".join(titles)), *game), "Stands in")
