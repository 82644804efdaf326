"""A sitting as tests drive it: a tiny service that commits to a list, and a student."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from trainer.lines.graph import BookPosition, LineGraph, card_key
from trainer.lines.reading import LegalMove
from trainer.memory.card_state import Answer, CardState, replay
from trainer.sitting.cards import MoveCard
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    Event,
    GoOn,
    Graded,
    HintWanted,
    Judged,
    LogAnswer,
    LogWithdrawal,
    MoveTyped,
    Recorded,
    Show,
    ShowWanted,
    Stop,
    UndoWanted,
    Withdrawn,
)
from trainer.sitting.sitting import Phase, Prompt, Rules, Sitting
from trainer.sitting.step import step
from trainer.sitting.verdict import Verdict, judge

TODAY = date(2026, 12, 3)


def card_at(
    book: LineGraph, position: BookPosition, other_decks: Mapping[str, str] | None = None
) -> MoveCard:
    """The card of a position, as the service would make it."""
    assert position.deck_move is not None
    return MoveCard(
        key=card_key(position.key, position.deck_move.uci),
        deck="vienna",
        deck_title="Vienna",
        edition=1,
        chapter=position.places[0].chapter,
        chapter_title="Lines",
        side=book.side,
        line=position.places[0].line,
        start=position.places[0].start,
        introduction=position.places[0].introduction,
        position=position,
        other_decks=other_decks or {},
    )


def said(effects: list[Effect]) -> list[str]:
    """The kinds of effects, in order."""
    return [type(effect).__name__ for effect in effects]


@dataclass
class Logged:
    """One row of the made-up log."""

    prompt: Prompt
    quality: int
    withdrawn: bool = False


@dataclass
class Driver:
    """Sends events, carries out what is to be logged, remembers all effects."""

    sitting: Sitting
    log: list[Logged] = field(default_factory=list)
    effects: list[Effect] = field(default_factory=list)

    def send(self, event: Event) -> list[Effect]:
        """One event and all that follows from it; the new effects."""
        self.sitting, effects = step(self.sitting, event)
        shown: list[Effect] = []
        for effect in effects:
            shown.append(effect)
            if isinstance(effect, LogAnswer):
                shown.extend(self._reply(self._record(effect)))
            elif isinstance(effect, LogWithdrawal):
                row = self.log[int(effect.answer_id)]
                assert not row.withdrawn
                assert row.prompt.card.key == effect.card
                row.withdrawn = True
                shown.extend(self._reply(Withdrawn()))
        self.effects.extend(shown)
        return shown

    def _reply(self, event: Event) -> tuple[Effect, ...]:
        self.sitting, effects = step(self.sitting, event)
        return effects

    def _record(self, effect: LogAnswer) -> Recorded:
        self.log.append(Logged(effect.prompt, effect.quality))
        return Recorded(str(len(self.log) - 1), self.state(effect.prompt.card.key))

    def state(self, card: str) -> CardState:
        """What the log says of a card."""
        return replay(
            Answer(TODAY, row.quality, row.prompt.repeat, part_credit=True)
            for row in self.standing
            if row.prompt.card.key == card
        )

    @property
    def standing(self) -> list[Logged]:
        """The log without what was withdrawn."""
        return [row for row in self.log if not row.withdrawn]

    # What a student does

    def go_on(self, seconds: float = 0.0) -> list[Effect]:
        return self.send(GoOn(seconds))

    def hint(self, seconds: float = 1.0) -> list[Effect]:
        return self.send(HintWanted(seconds))

    def show(self, seconds: float = 1.0) -> list[Effect]:
        return self.send(ShowWanted(seconds))

    def undo(self, seconds: float = 1.0) -> list[Effect]:
        return self.send(UndoWanted(seconds))

    def stop(self, seconds: float = 0.0) -> Ended:
        (ended,) = self.send(Stop(seconds))
        assert isinstance(ended, Ended)
        return ended

    def type(self, text: str, seconds: float = 1.0) -> list[Effect]:
        return self.send(MoveTyped(text, seconds))

    def verdict(self, text: str, seconds: float = 1.0) -> Verdict:
        """Type a move; what is said of it."""
        (judged,) = [effect for effect in self.type(text, seconds) if isinstance(effect, Judged)]
        return judged.judgement.verdict

    def right(self, seconds: float = 1.0) -> list[Effect]:
        """Play the deck's move."""
        return self.type(self.prompt.card.move.san, seconds)

    def miss(self, seconds: float = 1.0) -> None:
        """Play a move that is out of book."""
        assert self.verdict(self._wrong_move(), seconds) is Verdict.OUT_OF_BOOK

    def answer(self, quality: int) -> None:
        """Answer the prompt so that it earns this quality."""
        if quality == 0:
            self.show()
        if quality in (1, 2):
            self.miss()
        if quality in (1, 3):
            self.hint()
        graded = [e for e in self.right(9 if quality == 4 else 1) if isinstance(e, Graded)]
        assert [one.quality for one in graded] == [quality]

    def answer_all(self, qualities: Mapping[int, int] | None = None, limit: int = 100) -> None:
        """Go on to the end; `qualities` by the number of the asking, from 1, else at once."""
        number = 0
        while self.sitting.phase is not Phase.ENDED:
            limit -= 1
            assert limit, "the sitting does not end"
            if self.sitting.phase is Phase.ASKING:
                number += 1
                quality = (qualities or {}).get(number)
                self.right() if quality is None else self.answer(quality)
            self.go_on()

    def _wrong_move(self) -> str:
        card, board = self.prompt.card, self.prompt.card.board
        book = self.sitting.books[card.deck, card.side]
        for move in board.legal_moves:
            reading = LegalMove(move, board.san(move))
            if judge(reading, board, card.position, book, {}).verdict is Verdict.OUT_OF_BOOK:
                return reading.san
        raise AssertionError("every move is book")

    # What can be seen

    @property
    def prompt(self) -> Prompt:
        """The prompt on the board."""
        assert self.sitting.current is not None
        return self.sitting.current

    @property
    def asked(self) -> list[str]:
        """The moves asked so far; a look stands in brackets, a repeat has a star."""
        names = []
        for effect in self.effects:
            if isinstance(effect, Show):
                names.append(f"({effect.prompt.card.move.san})")
            elif isinstance(effect, Ask):
                names.append(effect.prompt.card.move.san + "*" * effect.prompt.repeat)
        return names

    @property
    def grades(self) -> list[int]:
        """The qualities of the log, without what was withdrawn."""
        return [row.quality for row in self.standing]


def sit(
    book: LineGraph,
    *,
    cards: Iterable[str] | None = None,
    fresh: Iterable[str] = (),
    repeats: Iterable[str] = (),
    rules: Rules | None = None,
    other_decks: Mapping[str, str] | None = None,
) -> Driver:
    """A sitting that has begun; cards are named by their moves, all of them if not said.

    :param repeats: cards that still owe a repeat of the day; asked first.
    """
    deck = [card_at(book, position, other_decks) for position in book.cards]
    names = [card.move.san for card in deck]
    unseen = frozenset(fresh)

    def prompt(name: str, repeat: bool) -> Prompt:
        assert names.count(name) == 1, "name every card that is asked by another move"
        return Prompt(deck[names.index(name)], fresh=name in unseen, repeat=repeat)

    ahead = [
        *(prompt(name, repeat=True) for name in repeats),
        *(prompt(name, repeat=False) for name in (names if cards is None else cards)),
    ]
    driver = Driver(Sitting({("vienna", book.side): book}, tuple(ahead), rules or Rules()))
    driver.send(Begin())
    return driver
