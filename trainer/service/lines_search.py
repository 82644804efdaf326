"""Finding a place in the lines by a move order, or by words of a title or a theme."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from trainer.lines.graph import Place
from trainer.lines.letters import ENGLISH, PieceLetters
from trainer.lines.movetext import BadLine, read_movetext
from trainer.lines.position import START_KEY, position_key
from trainer.lines.stretches import Spot, StretchTree
from trainer.service.lines_report import LinesReport


@dataclass(frozen=True, slots=True)
class Found:
    """A place that answers what was searched for."""

    spot: Spot
    what: str
    """The title or theme that was found; empty for a move order."""


def search(
    report: LinesReport, text: str, here: Spot, letters: PieceLetters = ENGLISH
) -> tuple[Found, ...]:
    """The place after these moves, by any move order, else all places named with these words.

    :param here: moves that fit no start are read from here.
    :param letters: the reader's piece letters; the English ones are read as well.
    """
    at = _after_moves(report, _without_result(text), here, letters)
    if at is not None:
        return (Found(at, ""),)
    words = text.casefold().split()
    if not words:
        return ()
    named = dict.fromkeys((*_titles(report), *_themes(report)))
    return tuple(found for found in named if all(word in found.what.casefold() for word in words))


def board_at(report: LinesReport, spot: Spot) -> chess.Board:
    """The board of a place, with the move numbers of its line and without earlier moves."""
    board = chess.Board(f"{report.tree.key(spot)} 0 1")
    board.fullmove_number = report.tree.ply(spot) // 2 + 1
    return board


def _without_result(text: str) -> str:
    """A line pasted from a game may end with how the game ended."""
    moves, _, last = text.strip().rpartition(" ")
    return moves if last in ("*", "1-0", "0-1", "1/2-1/2") else text


def _after_moves(report: LinesReport, text: str, here: Spot, letters: PieceLetters) -> Spot | None:
    tree = report.tree
    starts = [Spot(number, 0) for number, s in enumerate(tree.stretches) if s.is_start]
    boards = [chess.Board(f"{START_KEY} 0 1")]
    boards += [board_at(report, spot) for spot in (*starts, here)]
    for board in boards:
        try:
            moves = read_movetext(text, board, letters)
        except BadLine:
            continue
        for move in moves:
            board.push(move)
        if moves and (number := tree.numbers.get(position_key(board))) is not None:
            return tree.spot(number)
    return None


def _titles(report: LinesReport) -> Iterator[Found]:
    """Each chapter and each game where it stands."""
    chapters = {chapter.id: chapter.title for chapter in report.chapters if chapter.open}
    here = [
        [place for place in report.book.positions[key].places if place.chapter in chapters]
        for key in report.tree.keys
    ]
    for named in (
        [[(chapters[place.chapter], place) for place in places] for places in here],
        [[(place.title, place) for place in places] for places in here],
    ):
        for title, number in _where_they_stand(report.tree, named).items():
            if title:
                yield Found(report.tree.spot(number), title)


def _where_they_stand(
    tree: StretchTree, named: Sequence[Sequence[tuple[str, Place]]]
) -> dict[str, int]:
    """By title the earliest position that no other title had before.

    A start is everybody's: what begins there stands where nothing else is below. A title that
    always comes second stands where it first passes.

    :param named: of each position its titles, the first that has it before the others.
    """
    stands: dict[str, int] = {}
    first: dict[str, tuple[int, int]] = {}
    alone: dict[str, int] = {}
    other = len(named)  # the first position, from the end, that another title had first
    for number in range(len(named) - 1, -1, -1):
        owner, place = named[number][0]
        if number + 1 < len(named) and named[number + 1][0][0] != owner:
            other = number + 1
        stands |= {title: number for title, _ in named[number]}
        here = (place.line.count(" "), number)
        first[owner] = min(here, first.get(owner, here))
        if tree.stretches[tree.homes[number]].beyond <= other:
            alone[owner] = number
    for title, (_, number) in first.items():
        at_start = tree.stretches[tree.homes[number]].is_start
        stands[title] = alone.get(title, number) if at_start else number
    return dict(sorted(stands.items(), key=lambda found: found[1]))


def _themes(report: LinesReport) -> Iterator[Found]:
    """Each theme at every move that has it."""
    for number, stretch in enumerate(report.tree.stretches):
        for step, move in enumerate(stretch.moves, start=1):
            for theme in move.themes:
                yield Found(Spot(number, step), theme)
