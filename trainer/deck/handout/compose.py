"""A deck, or one chapter of it, as a handout: what is printed, and in which order.

Every chapter is a section; what its exercises ask is answered in sections at the end. The
numbers of chapters and entries make the anchors, so no text of a deck gets into one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.handout.exercises import (
    idea_answer,
    idea_question,
    tactic_question,
    tactic_solution,
)
from trainer.deck.handout.main_line import drawn_in_game, drawn_in_line
from trainer.deck.handout.pages import Block, Diagram, Entry, Handout, Section
from trainer.deck.handout.references import Reference, onward, positions
from trainer.deck.handout.telling import own, said, tell
from trainer.lines.in_words import colour_name
from trainer.lines.position import START_KEY, Position
from trainer.lines.titles import exercise_title, game_title
from trainer.lines.tree import GameTree

_REMARKS = {
    Kind.LINES: "Lines for {side}.",
    Kind.TACTICS: "Tactics. The solutions are at the end.",
    Kind.GAMES: "Model games, seen by {side}.",
    Kind.IDEAS: "Questions. The answers are at the end.",
}

_ANSWERED = {Kind.TACTICS: "Solutions:", Kind.IDEAS: "Answers:"}

Numbered = tuple[int, Chapter]
"""A chapter with its place in the deck, from 1."""

References = Mapping[Position, Reference]
"""Where positions go on."""

Told = Iterator[tuple[str, Sequence[Block]]]
"""Title and blocks of each entry of a chapter."""


def handout_of(deck: Deck, chapter_id: str | None = None) -> Handout:
    """The handout of a deck.

    :param chapter_id: the one chapter to print; all of them without it.
    """
    chosen = [
        (number, chapter)
        for number, chapter in enumerate(deck.chapters, start=1)
        if chapter_id in (None, chapter.id)
    ]
    return Handout(
        deck=deck.id,
        title=deck.title,
        edition=deck.edition,
        author=deck.author,
        licence=deck.licence,
        language=deck.language,
        about=deck.about,
        sections=(*_chapters(chosen), *_answers(chosen)),
    )


def _chapters(chosen: Sequence[Numbered]) -> Iterator[Section]:
    references = {side: _references(chosen, side) for side in ("white", "black")}
    for number, chapter in chosen:
        exercises = chapter.kind in _ANSWERED
        remark = _REMARKS[chapter.kind].format(side=chapter.side.capitalize())
        entries = _entries("c", number, _told(number, chapter, references), whole=exercises)
        yield Section(
            f"c{number}", str(number), chapter.title, remark, entries, listed=not exercises
        )


def _answers(chosen: Iterable[Numbered]) -> Iterator[Section]:
    for number, chapter in chosen:
        if chapter.kind in _ANSWERED:
            short = chapter.kind is Kind.IDEAS
            entries = _entries("s", number, _solved(chapter), whole=short)
            remark = _ANSWERED[chapter.kind]
            yield Section(f"s{number}", str(number), chapter.title, remark, entries, answers=True)


def _entries(letter: str, number: int, told: Told, *, whole: bool) -> tuple[Entry, ...]:
    return tuple(
        Entry(f"{letter}{number}-{place}", f"{number}.{place}", title, tuple(blocks), whole)
        for place, (title, blocks) in enumerate(told, start=1)
    )


def _told(number: int, chapter: Chapter, references: Mapping[str, References]) -> Told:
    if chapter.kind is Kind.LINES:
        return _lines(number, chapter, references[chapter.side])
    if chapter.kind is Kind.GAMES:
        return _games(chapter)
    if chapter.kind is Kind.TACTICS:
        return (
            (exercise_title(tree.tags), tactic_question(tree, chapter.side))
            for tree in chapter.games
        )
    return (("", idea_question(idea)) for idea in chapter.ideas)


def _solved(chapter: Chapter) -> Told:
    if chapter.kind is Kind.TACTICS:
        return (
            (exercise_title(tree.tags), tactic_solution(tree, chapter.side))
            for tree in chapter.games
        )
    return (("", idea_answer(idea)) for idea in chapter.ideas)


def _lines(number: int, chapter: Chapter, references: References) -> Told:
    told: set[Position] = set()
    for place, tree in enumerate(chapter.games, start=1):
        drawn = drawn_in_line(tree, chapter.side, told)
        blocks = tell(tree, chapter.side, drawn, references, f"c{number}-{place}")
        yield game_title(tree.tags), [*_set_up(tree, chapter.side), *blocks]
        told.update(positions(tree))


def _games(chapter: Chapter) -> Told:
    for tree in chapter.games:
        blocks = tell(tree, chapter.side, drawn_in_game(tree), trained=False)
        yield (
            _players(tree.tags),
            [*_played(tree.tags), *_set_up(tree, chapter.side), *blocks, *_result(tree.tags)],
        )


def _set_up(tree: GameTree, side: str) -> Iterator[Diagram]:
    """The position in which a game begins, where it is not the usual one."""
    if tree.start.key != START_KEY:
        to_move = f"{colour_name(tree.start.turn)} to move."
        marks = tree.introduction
        yield Diagram(tree.start_fen, side, to_move, marks.squares, marks.arrows)


def _players(tags: Mapping[str, str]) -> str:
    """`Morphy – Anderssen`, or what the game is called."""
    names = [name for name in map(tags.get, ("White", "Black")) if name and name != "?"]
    return " – ".join(names) if len(names) == 2 else game_title(tags)


def _played(tags: Mapping[str, str]) -> Iterator[Block]:
    """Event, place and day, as far as the tags say them."""
    told = [tags.get(name, "") for name in ("Event", "Site", "Date")]
    if known := [text.rstrip(".?") for text in told if text.strip(".?")]:
        yield said(", ".join(known))


def _result(tags: Mapping[str, str]) -> Iterator[Block]:
    if (result := tags.get("Result", "*")) != "*":
        yield own(result)


def _references(chosen: Iterable[Numbered], side: str) -> References:
    return onward(
        (
            (f"c{number}-{place}", f"{number}.{place}", tree)
            for number, chapter in chosen
            if chapter.kind is Kind.LINES and chapter.side == side
            for place, tree in enumerate(chapter.games, start=1)
        ),
        side,
    )
