"""Which cards a sitting asks: the day's, a chapter's or a branch's, ready to be asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from random import randrange

from trainer.errors import TrainerError
from trainer.lines.graph import split_card_key
from trainer.lines.letters import ENGLISH, LANGUAGES, PieceLetters
from trainer.lines.movetext import BadLine
from trainer.lines.position import position_key
from trainer.memory.plan import Plan, plan_day
from trainer.service.asking import make_card, make_guess
from trainer.service.books import Books, all_books, boards_after
from trainer.service.coming import coming
from trainer.service.exercises import games_of
from trainer.service.opening import OpenCard, OpenDeck, Shelf, read_shelf
from trainer.service.practice import Practice
from trainer.service.study import Study
from trainer.service.today import fresh_left, fresh_of
from trainer.sitting.sitting import Prompt, Rules, Sitting
from trainer.store.decks import StoredChapter, StoredDeck


@dataclass(frozen=True, slots=True)
class Wish:
    """What the student wants to practise; the defaults are the day's sitting."""

    deck: str | None = None
    chapter: str | None = None
    branch: str | None = None
    """Movetext: the cards at the position after it and at all that can follow."""
    fresh: int | None = None
    """How many fresh cards at most; None for what is left of the day's."""
    side: str | None = None
    """`white` or `black`: the cards of that side alone; None for both."""
    at: str | None = None
    """A position key, in place of a line: the cards there and at all that can follow."""
    game: str | None = None
    """The key of one model game of a chapter; None for those guessed through least often."""

    @property
    def of_the_day(self) -> bool:
        """Whether it is the day's practice, and no branch that was chosen."""
        return self.branch is None and self.at is None


def prepare_practice(study: Study, wish: Wish, letters: PieceLetters | None = None) -> Practice:
    """A sitting that has not begun yet; send it `Begin`.

    :param letters: the piece letters of typed moves; None for those of the settings.
    :raises TrainerError: the wish names a deck, a chapter or a branch that is not there.
    """
    shelf = read_shelf(study)
    decks = _wanted_decks(shelf, wish)
    books = all_books(study, shelf.decks)
    if wish.chapter is not None:
        chapter = _open_chapter(decks[0], wish.chapter, study.today)
        if chapter.kind == "games":
            prompts = _games(study, decks[0].deck, chapter.id, wish.game)
            return _practice(study, Books(study, []), prompts, "choice", letters)
        cards = _of_chapter(decks[0], chapter)
    else:
        cards = shelf.each_card_once(entry.deck.id for entry in decks)
    cards = [entry for entry in cards if wish.side in (None, entry[1].side)]
    if wish.at is not None:
        plan = _below(books, cards, [wish.at], study.today)
        if not plan.cards and not plan.repeats:
            raise TrainerError("no open position stands here or can follow")
    elif wish.branch is not None:
        plan = _branch(books, cards, wish.branch, study.today)
    else:
        limit = fresh_left(study, shelf) if wish.fresh is None else wish.fresh
        states = [(card.card, card.state) for _, card in cards]
        plan = plan_day(states, study.today, fresh_of((card for _, card in cards), limit))
    prompts = _prompts(study, shelf, books, cards, plan)
    return _practice(study, books, prompts, "day" if wish.of_the_day else "choice", letters)


def _practice(
    study: Study, books: Books, prompts: list[Prompt], source: str, letters: PieceLetters | None
) -> Practice:
    rules = _rules(study, letters)
    # No secret, only another order of an idea's answers each time.
    sitting = Sitting(books=books, ahead=tuple(prompts), rules=rules, dice=randrange(2**32))
    return Practice(study, sitting, source)


def _rules(study: Study, letters: PieceLetters | None) -> Rules:
    settings = study.settings
    return Rules(
        hesitation=settings.hesitation_seconds,
        first_look=settings.first_look == "show",
        letters=letters or LANGUAGES.get(settings.piece_letters, ENGLISH),
    )


def _wanted_decks(shelf: Shelf, wish: Wish) -> Sequence[OpenDeck]:
    if wish.deck is None:
        if wish.chapter is not None and len(shelf.decks) != 1:
            raise TrainerError(
                "--chapter needs the deck it belongs to: trainer practice DECK --chapter ID"
            )
        return shelf.decks
    return [shelf.find(wish.deck)]


def _of_chapter(entry: OpenDeck, chapter: StoredChapter) -> list[tuple[str, OpenCard]]:
    """The cards with a place in a chapter, asked in its name."""
    return [
        (entry.deck.id, replace(card, chapters=(chapter.id,), kind=chapter.kind))
        for card in entry.cards
        if chapter.id in card.chapters
    ]


def _open_chapter(entry: OpenDeck, wanted: str, today: date) -> StoredChapter:
    found = {chapter.id: chapter for chapter in entry.deck.chapters}
    if wanted not in found:
        raise TrainerError(
            f"deck {entry.deck.id!r} has no chapter {wanted!r}; its chapters are: "
            + ", ".join(found)
        )
    closed = {chapter.chapter: chapter.when for chapter in coming(entry, today)}
    if wanted in closed:
        raise TrainerError(
            f"chapter {wanted!r} of deck {entry.deck.id!r} is not open yet; it {closed[wanted]}"
        )
    return found[wanted]


def _games(study: Study, deck: StoredDeck, chapter: str, key: str | None) -> list[Prompt]:
    """One game, else those that were guessed through less often than others, in file order."""
    games = games_of(study, deck.id, chapter)
    least = min((game.finished_rounds for game in games), default=0)
    return [
        Prompt(
            make_guess(deck, chapter, game),
            fresh=not game.begun,
            repeat=False,
        )
        for game in games
        if (game.finished_rounds == least if key is None else game.game.key == key)
    ]


def _branch(books: Books, cards: list[tuple[str, OpenCard]], line: str, today: date) -> Plan:
    try:
        boards = boards_after(line, books.values())
    except BadLine as error:
        raise TrainerError(f"--branch: {error}") from error
    plan = _below(books, cards, [position_key(board) for board in boards], today)
    if not plan.cards and not plan.repeats:
        raise TrainerError(f"--branch: no open card stands at or after {line or 'the start'}")
    return plan


def _below(
    books: Books, cards: list[tuple[str, OpenCard]], keys: Sequence[str], today: date
) -> Plan:
    """The cards of the lines at these positions and at all that can follow them."""
    below = {
        position.key for key in keys for book in books.values() for position in book.cards_from(key)
    }
    found = [
        card for _, card in cards if card.kind == "lines" and split_card_key(card.card)[0] in below
    ]
    repeats = tuple(card.card for card in found if card.state.owes_repeat(today))
    return Plan(repeats, tuple(card.card for card in found if card.card not in repeats))


def _prompts(
    study: Study, shelf: Shelf, books: Books, cards: list[tuple[str, OpenCard]], plan: Plan
) -> list[Prompt]:
    by_key = {card.card: (deck_id, card) for deck_id, card in cards}
    decks = {entry.deck.id: entry for entry in shelf.decks}

    def prompt(key: str, repeat: bool) -> Prompt:
        deck_id, card = by_key[key]
        made = make_card(study, shelf, decks[deck_id], card, books)
        return Prompt(made, card.state.fresh, repeat)

    return [
        *(prompt(key, True) for key in plan.repeats),
        *(prompt(key, False) for key in plan.cards),
    ]
