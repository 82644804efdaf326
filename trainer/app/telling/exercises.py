"""The rows below a tree of lines: the deck's tactics, ideas and model games, and their words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from trainer.app.telling.blocks import Block, Paragraph, Room, Rows
from trainer.app.telling.games import occasion, players
from trainer.app.telling.lines import Said, counts_told
from trainer.app.telling.notes import quiet_paragraphs
from trainer.app.telling.stretch_rows import bar
from trainer.app.widgets.board import BoardView
from trainer.app.widgets.exercise_list import ListRow
from trainer.lines.movetext import read_movetext
from trainer.service.exercise_report import ExerciseChapter
from trainer.service.exercises import GameProgress
from trainer.service.preparation import Wish
from trainer.service.words import counted, short_day

NOUNS = {"tactics": "tactic", "ideas": "question", "games": "game"}

ALL = 10_000
"""Fresh cards of a chapter that was chosen: the day's limit is for what was not."""


@dataclass(frozen=True, slots=True)
class ExerciseRow:
    """A chapter, or one of its model games."""

    chapter: ExerciseChapter
    game: GameProgress | None = None

    @property
    def text(self) -> str:
        """What stands at the left."""
        if self.game is not None:
            return f"  {players(self.game.game) or f'Game {self.game.game.number}'}"
        if self.chapter.when:
            return f"{self.chapter.title} · closed"
        return f"{self.chapter.title} · {counted(self._size, NOUNS[self.chapter.kind])}"

    @property
    def listed(self) -> ListRow:
        """The row with its right edge: a bar of what is known, and a number or a score."""
        if self.game is not None:
            return ListRow(self.text, " ", _score(self.game))
        counts = self.chapter.counts
        return ListRow(self.text, bar(counts), str(counts.due) if counts.due else " ")

    @property
    def side(self) -> str:
        """Who sits at the bottom of its board; empty where that is as before."""
        return self.game.game.side if self.game else ""

    @property
    def asks(self) -> bool:
        """Whether there is something to ask now."""
        return self.chapter.asks

    @property
    def wish(self) -> Wish:
        """A sitting with what is due and fresh of the chapter, or with the game."""
        game = self.game.game.key if self.game else None
        return Wish(deck=self.chapter.deck, chapter=self.chapter.id, fresh=ALL, game=game)

    @property
    def _size(self) -> int:
        return len(self.chapter.games) or self.chapter.counts.cards


def rows_of(chapters: Sequence[ExerciseChapter]) -> tuple[ExerciseRow, ...]:
    """A row a chapter, and below it one a game."""
    return tuple(_rows(chapters))


def _rows(chapters: Sequence[ExerciseChapter]) -> Iterator[ExerciseRow]:
    for chapter in chapters:
        yield ExerciseRow(chapter)
        yield from (ExerciseRow(chapter, game) for game in chapter.games)


def _score(game: GameProgress) -> str:
    """`at 5`: where a game under way goes on; else `11/17`, found the last time, or nothing."""
    if game.guessed:
        return f"at {len(game.guessed) + 1}"
    return "/".join(map(str, game.last_score)) if game.last_score else ""


def view(row: ExerciseRow) -> BoardView:
    """Where a game begins, or stands; of a chapter nothing is shown before it is asked."""
    if row.game is None:
        return BoardView()
    game = row.game.game
    board = chess.Board(game.start)
    defence, ply = game.turns[len(row.game.guessed)]
    moves = read_movetext(game.movetext(defence, 0, ply), board)
    for move in moves:
        board.push(move)
    return BoardView(board.fen(), last_move=moves[-1] if moves else None)


_CUT = 22
"""Signs of a title that stand in the heading of a narrow desk."""


def say(row: ExerciseRow) -> Said:
    """All that there is to say of a row."""
    page = tuple(_of_game(row.game) if row.game else _of_chapter(row.chapter))
    name = row.text.strip() if row.game else row.chapter.title
    return Said(row.chapter.title, name, _standing(row), page)


def _standing(row: ExerciseRow) -> str:
    if row.chapter.when:
        return "closed"
    if row.game is None:
        return f"{row.chapter.counts.due} due today" if row.chapter.counts.due else ""
    return "under way" if row.game.guessed else ""


def _of_chapter(chapter: ExerciseChapter) -> Iterator[Block]:
    if len(chapter.title) > _CUT:
        yield Paragraph(f"“{chapter.title}”", Room.NARROW)
    if chapter.when:
        yield Paragraph(f"This chapter {chapter.when}.")
    elif chapter.kind == "games":
        yield Paragraph(
            "Whole games in which you guess the moves of one side. Enter begins with those "
            "that you have gone through least often; each of them can be chosen below."
        )
    else:
        told = counts_told(chapter.counts)
        yield Paragraph(f"{counted(chapter.counts.cards, NOUNS[chapter.kind])}: {told}.")
        if chapter.asks:
            yield Paragraph("Enter asks those that are due, then the fresh ones.", quiet=True)
        elif chapter.next_due is not None:
            yield Paragraph(f"Nothing of it is due before {short_day(chapter.next_due)}.")


def _of_game(progress: GameProgress) -> Iterator[Block]:
    game = progress.game
    if told := occasion(game):
        yield Paragraph(f"{told}.")
    yield Paragraph(f"You guess {counted(len(game.turns), 'move')} of {game.side.title()}.")
    if progress.guessed:
        found, guesses = sum(progress.guessed), len(progress.guessed)
        yield Paragraph(f"It goes on at guess {guesses + 1}: {found} of {guesses} found so far.")
    if progress.last_score:
        found, guesses = progress.last_score
        rounds = counted(progress.finished_rounds, "time")
        rows = (("found", f"{found} of {guesses} the last time"), ("played", rounds))
        yield Rows(rows)
    yield from quiet_paragraphs(game.introduction)
