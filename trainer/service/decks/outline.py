"""The outline of a chapter: its lines as branches, its tactics, games and questions by title.

Where one stands in an outline is told by its indents and by the number before each move, so
it needs no drawn guides, which a screen reader would spell. What fits into a row is the
face's business.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import accumulate

from trainer.lines.graph import LineGraph
from trainer.lines.played_out import PlayedOut
from trainer.lines.position import START_KEY
from trainer.lines.stretches import Stretch, StretchTree, grow, san_numbered
from trainer.service.decks.report import ChapterReport, ShownDeck
from trainer.service.words import counted


@dataclass(frozen=True, slots=True)
class Row:
    """One row of an outline."""

    level: int
    text: str
    holds: str = ""
    """How much of the deck lies there."""


def outline(shown: ShownDeck, chapter: ChapterReport, depth: int) -> Iterator[Row]:
    """The rows of one chapter.

    :param depth: how many branches lines are followed; below 1 there are no rows.
    """
    if depth < 1:
        return
    if chapter.kind == "lines":
        yield from _lines(shown.contents.practised[chapter.side], chapter.id, depth)
    else:
        titles = _titles(shown, chapter)
        yield from (Row(0, f"{place}. {title}") for place, title in enumerate(titles, start=1))


def _titles(shown: ShownDeck, chapter: ChapterReport) -> Iterable[str]:
    if chapter.kind == "games":
        return map(_game, shown.games[chapter.id])
    if chapter.kind == "tactics":
        return (tactic.title or "a tactic" for tactic in shown.contents.tactics[chapter.id])
    return (" ".join(idea.ask.split()) for idea in shown.contents.ideas.get(chapter.id, ()))


def _game(game: PlayedOut) -> str:
    """`Title: White - Black, 1-0`, as far as the tags say it."""
    names = [game.tags.get(name, "?") for name in ("White", "Black")]
    players = " - ".join(names) if names != ["?", "?"] else ""
    result = game.tags.get("Result", "*")
    told = ", ".join(part for part in (players, result if result != "*" else "") if part)
    return ": ".join(part for part in (game.title, told) if part) or "a game"


def _lines(book: LineGraph, chapter: str, depth: int) -> Iterator[Row]:
    tree = grow(book, lambda here: any(place.chapter == chapter for place in here.places))
    asked = (book.positions[key].deck_move is not None for key in tree.keys)
    before = [0, *accumulate(asked)]
    for number, stretch in enumerate(tree.stretches):
        if stretch.depth < depth:
            hidden = stretch.depth == depth - 1 and stretch.end > number + 1
            lines = tree.ends(number) if hidden else 0
            cards = before[stretch.beyond] - before[stretch.first]
            yield Row(stretch.depth, _moves(tree, stretch), _holds(cards, lines))


def _holds(cards: int, lines: int) -> str:
    """`12 cards in 5 lines`; nothing for a branch that only joins another.

    :param lines: how many are left out; 0 where the outline has all.
    """
    hidden = f" in {counted(lines, 'line')}" if lines else ""
    return f"{counted(cards, 'card')}{hidden}" if cards or lines else ""


def _moves(tree: StretchTree, stretch: Stretch) -> str:
    words = [
        san_numbered(stretch.ply + step, move.san, always=step == 0) + "?" * move.error
        for step, move in enumerate(stretch.moves)
    ]
    if stretch.is_start and tree.keys[stretch.first] != START_KEY:
        words.insert(0, "From a position:")
    if stretch.join is not None:
        words.append(f"(as after {_place(tree, stretch.join)})")
    return " ".join(words) or "From the start:"


def _place(tree: StretchTree, number: int) -> str:
    """The move by which a position is reached where it has its place."""
    spot = tree.spot(number)
    move = tree.move(spot)
    return san_numbered(tree.ply(spot) - 1, move.san, always=True) if move else "no moves"
