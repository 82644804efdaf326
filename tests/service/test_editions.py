"""The account of a new edition: what stays, comes, changes and goes, and what of it is known.

All expected accounts are worked by hand from the two decks.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.course import FORK_FEN, IDEAS, TRICKS, write_course
from tests.lines.test_graph_any import FORESTS
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.deck.compiled import compile_deck
from trainer.deck.reader import read_deck
from trainer.lines.graph_builder import build_graph
from trainer.lines.tree import GameTree
from trainer.service.decks.cards import Contents
from trainer.service.decks.contents import contents_of
from trainer.service.decks.editions import EditionAccount, What, account_of
from trainer.store.decks import StoredChapter


def contents(folder: Path, **preferred: dict[str, str]) -> Contents:
    read = read_deck(folder)
    assert read.deck is not None, read.findings
    return contents_of(read.deck, compile_deck(read.deck), preferred)


def told(account: EditionAccount) -> list[tuple[str, str, str, str]]:
    """What, where, old and new of each change."""
    return [(c.what.value, c.line or c.title, c.old, c.new) for c in account.changes]


def counts(account: EditionAccount) -> tuple[int, int, int, int]:
    cards = account.cards
    return cards.kept, cards.new, cards.changed, cards.withdrawn


# --- Lines

BETTER = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3 {Hits e4 at once.}")
SHORTER = SECOND.replace("Bc5 5. Bg5 {Pins f6.}", "Bc5")
END = "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4"
QUIET = "1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6 4. d3 Bc5"


@pytest.fixture
def one(tmp_path: Path) -> Contents:
    return contents(write_deck(tmp_path / "one", {"first": FIRST, "second": SECOND}))


@pytest.fixture
def two(tmp_path: Path) -> Contents:
    chapters = {"first": BETTER, "second": SHORTER, "third": "1. e4 c5 2. Nf3 d6 3. d4 *"}
    return contents(write_deck(tmp_path / "two", chapters, edition=2))


def test_an_account_of_lines(one: Contents, two: Contents) -> None:
    account = account_of(one, two)
    assert (account.before, account.edition, counts(account)) == (1, 2, (6, 2, 1, 1))
    assert told(account) == [
        ("changed", END, "Nf3", "Qf3"),
        ("withdrawn", QUIET, "Bg5", ""),
        ("chapter added", "Chapter third", "", ""),
    ]
    assert account.changes[-1].cards == 2
    assert account.at_stake == frozenset()


def test_what_is_remembered_is_told_and_comes_first(one: Contents, two: Contents) -> None:
    gone = {card.card for card in one.cards} - {card.card for card in two.cards}
    account = account_of(one, two, gone)
    assert [c.remembered for c in account.changes] == [True, True, False]
    assert account.at_stake == gone
    (quiet,) = (card for card in gone if card.endswith("c1g5"))
    assert account_of(one, two, {quiet}).at_stake == {quiet}
    kept = {card.card for card in one.cards} - gone
    assert account_of(one, two, kept).at_stake == frozenset()


def test_what_comes_back_is_told(one: Contents, two: Contents) -> None:
    account = account_of(two, one, {card.card for card in one.cards})
    assert told(account) == [
        ("changed", END, "Qf3", "Nf3"),
        ("withdrawn", "1. e4 c5", "Nf3", ""),
        ("withdrawn", "1. e4 c5 2. Nf3 d6", "d4", ""),
        ("returned", QUIET, "", "Bg5"),
        ("chapter dropped", "Chapter third", "", ""),
    ]
    assert [c.returned for c in account.changes] == [True, False, False, False, False]
    assert [c.remembered for c in account.changes] == [False, False, False, True, False]


def test_an_earlier_chapter_that_gains_cards(one: Contents, tmp_path: Path) -> None:
    more = SECOND.replace("5. Bg5 {Pins f6.}", "5. Bg5 {Pins f6.} h6 6. Bh4")
    account = account_of(
        one, contents(write_deck(tmp_path / "t", {"first": FIRST, "second": more}, edition=2))
    )
    (gain,) = account.changes
    assert (gain.what, gain.chapter, gain.cards) == (What.NEW, "second", 1)


def test_a_first_edition_changes_nothing(one: Contents) -> None:
    account = account_of(None, one)
    assert (account.before, counts(account), account.changes) == (None, (0, 8, 0, 0), ())


def test_lines_that_only_move_change_nothing(one: Contents, tmp_path: Path) -> None:
    chapters = {"other": SECOND, "first": FIRST}
    account = account_of(one, contents(write_deck(tmp_path / "t", chapters, edition=2)))
    assert counts(account) == (8, 0, 0, 0)
    assert [c.what for c in account.changes] == [What.CHAPTER_DROPPED, What.CHAPTER_ADDED]
    assert account.changes[-1].cards == 0


# --- Tactics and ideas

PLAIN = """\
[[idea]]
after = "1. e4 e5"
ask = "Which square beside its king does nothing but the king guard?"
squares = ["f7"]

[[idea]]
after = "1. e4 e5"
ask = "With which knight move does White attack e5?"
move = "Nf3"
"""

SECOND_TRICK = f"""
[Event "The other one"]
[SetUp "1"]
[FEN "{FORK_FEN}"]
[Result "*"]

1. Kd2 Ra1 *
"""


@pytest.mark.parametrize(
    ("before", "after", "found"),
    [
        (PLAIN, PLAIN.replace("With which", "By which"), (2, 0, 0, 0)),
        (PLAIN, PLAIN.replace('"f7"', '"f2"'), (1, 0, 1, 0)),
        (PLAIN, PLAIN.replace('"f7"', '"f2"').replace('"Nf3"', '"d4"'), (0, 0, 2, 0)),
        (
            PLAIN,
            PLAIN.replace('"f7"', '"f2"').replace('"Nf3"', '"d4"').replace("ask = ", "ask = 'x' #"),
            (0, 2, 0, 2),
        ),
        (PLAIN, PLAIN.replace('after = "1. e4 e5"', 'after = "1. e4 c5"', 1), (1, 1, 0, 1)),
        (PLAIN, PLAIN.split("\n\n")[0], (1, 0, 0, 1)),
        (IDEAS, IDEAS.replace('["f7"]', '["f2"]'), (3, 0, 0, 0)),
        (IDEAS, IDEAS.replace('"weak-square"', '"weak"'), (2, 1, 0, 1)),
    ],
    ids=[
        "other words",
        "another answer",
        "two other answers, the questions stay",
        "two other answers and questions",
        "another position",
        "one dropped",
        "another answer under an id",
        "another id",
    ],
)
def test_ideas(before: str, after: str, found: tuple[int, int, int, int], tmp_path: Path) -> None:
    old = contents(write_course(tmp_path / "a", ideas=before))
    new = contents(write_course(tmp_path / "b", ideas=after, edition=2))
    account = account_of(old, new)
    others = len(old.cards) - before.count("[[idea]]")
    assert counts(account) == (found[0] + others, *found[1:])


def test_ideas_are_told_by_their_question(tmp_path: Path) -> None:
    old = contents(write_course(tmp_path / "a", ideas=PLAIN))
    new = contents(write_course(tmp_path / "b", ideas=PLAIN.replace('"f7"', '"f2"'), edition=2))
    (change,) = account_of(old, new).changes
    assert (change.what, change.kind, change.chapter) == (What.CHANGED, "idea", "ideas")
    assert (change.line, change.title.split()[0]) == ("1. e4 e5", "Which")
    assert (change.old, change.new) == ("f7", "f2")


def test_an_idea_that_keeps_its_id_is_told_when_its_answer_is_another(tmp_path: Path) -> None:
    old = contents(write_course(tmp_path / "a"))
    new = contents(write_course(tmp_path / "b", ideas=IDEAS.replace('"Nf3"', '"Bc4"'), edition=2))
    account = account_of(old, new, {"idea course hit-e5"})
    (change,) = account.changes
    assert (change.what, change.old, change.new) == (What.OTHER_ANSWER, "Nf3", "Bc4")
    assert (change.remembered, account.at_stake) == (True, frozenset())


@pytest.mark.parametrize(
    ("before", "after", "found"),
    [
        (TRICKS, TRICKS.replace("1... Kd7 {Towards the knight.}", "1... Kf8"), (0, 0, 1, 0)),
        (TRICKS, TRICKS.replace("Towards", "To"), (1, 0, 0, 0)),
        (TRICKS, TRICKS + SECOND_TRICK, (1, 1, 0, 0)),
        (TRICKS + SECOND_TRICK, SECOND_TRICK.replace("Ra1", "Kd7"), (0, 0, 1, 1)),
        (TRICKS, TRICKS.replace(FORK_FEN, FORK_FEN.replace("r3k3", "r3k2r")), (0, 1, 0, 1)),
    ],
    ids=["another solution", "other words", "one more", "one dropped, one changed", "moved"],
)
def test_tactics(before: str, after: str, found: tuple[int, int, int, int], tmp_path: Path) -> None:
    old = contents(write_course(tmp_path / "a", tricks=before))
    new = contents(write_course(tmp_path / "b", tricks=after, edition=2))
    others = len(old.cards) - before.count("[Event")
    account = account_of(old, new)
    assert counts(account) == (found[0] + others, *found[1:])


def test_tactics_are_paired_by_title_where_several_start_alike(tmp_path: Path) -> None:
    old = contents(write_course(tmp_path / "a", tricks=TRICKS + SECOND_TRICK))
    new = contents(
        write_course(tmp_path / "b", tricks=SECOND_TRICK.replace("Ra1", "Kd7"), edition=2)
    )
    changed, withdrawn = account_of(old, new).changes
    assert (changed.title, changed.old, changed.new) == (
        "The other one",
        "1. Kd2 Ra1",
        "1. Kd2 Kd7",
    )
    assert (withdrawn.title, withdrawn.kind) == ("King and rook", "tactic")


# --- Preferences

FORK = "1. e4 e5 2. Nc3 Nf6"
AT_FORK = "rnbqkb1r/pppp1ppp/5n2/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR w KQkq -"


def test_cards_are_compared_as_the_student_practises_them(tmp_path: Path) -> None:
    kept = {AT_FORK: "f1c4"}
    old = contents(write_deck(tmp_path / "a", {"first": FIRST}), white=kept)
    new = contents(write_deck(tmp_path / "b", {"first": BETTER}, edition=2), white=kept)
    assert counts(account_of(old, new)) == (4, 0, 0, 0)


def test_a_preference_for_a_move_that_is_gone_is_told(tmp_path: Path) -> None:
    kept = {AT_FORK: "f1c4"}
    before = contents(write_deck(tmp_path / "a", {"first": FIRST}), white=kept)
    without = FIRST.replace(
        "(3. Bc4 {Quieter, and right too.} 3... Nc6 4. d3 {Opens the c1 bishop's way to g5.})\n", ""
    )
    after = contents(write_deck(tmp_path / "b", {"first": without}, edition=2), white=kept)
    account = account_of(before, after)
    assert (What.PREFERENCE_SLEEPS.value, FORK, "Bc4", "f4") in told(account)
    assert told(account)[0] == ("changed", FORK, "Bc4", "f4")
    # It slept before: nothing new to tell.
    again = account_of(after, after)
    assert again.changes == ()


# --- Whatever the deck

ANSWERED = st.lists(st.integers(0, 1000), max_size=6)


def _any(trees: list[GameTree], edition: int) -> Contents:
    graph = build_graph("white", [("lines", tree) for tree in trees]).graph
    chapter = StoredChapter("lines", "Lines", "lines", "white", None, None)
    return Contents("any", "Any", edition, (chapter,), {"white": graph}, {}, {})


@given(FORESTS, FORESTS, ANSWERED)
def test_what_holds_of_any_account(
    before: list[GameTree], after: list[GameTree], picks: list[int]
) -> None:
    old, new = _any(before, 1), _any(after, 2)
    here = {card.card for card in old.cards}
    there = {card.card for card in new.cards}
    both = sorted(here | there)
    answered = {both[pick % len(both)] for pick in picks} if both else set()
    account = account_of(old, new, answered)
    cards = account.cards
    assert cards.kept + cards.changed + cards.withdrawn == len(here)
    assert cards.kept + cards.changed + cards.new == len(there)
    assert account.at_stake == (here - there) & answered
    gone = [c for c in account.changes if c.what in (What.CHANGED, What.WITHDRAWN)]
    assert sum(c.remembered for c in gone) == len(account.at_stake)
    come = [c for c in account.changes if c.what in (What.RETURNED, What.NEW)]
    assert sum(c.cards for c in come) == cards.new
    back = account_of(new, old, answered)
    assert (back.cards.new, back.cards.withdrawn) == (cards.withdrawn, cards.new)
    assert account_of(old, old, answered).changes == ()
