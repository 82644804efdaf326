"""Keeping one of several right moves. Worked by hand from tests/small_decks.py."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.service.practising import asked_lines, play_all
from tests.small_decks import BLACK, FIRST, SECOND, write_deck
from trainer.errors import TrainerError
from trainer.service.decks.preferences import choice_at, choices, prefer, take_back
from trainer.service.decks.report import show_deck
from trainer.service.decks.shelving import add_deck
from trainer.service.position_report import report_position
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study
from trainer.service.upkeep import verify
from trainer.store.answers import read_states
from trainer.store.decks import read_cards

FORK = "1. e4 e5 2. Nc3 Nf6"
FORK_FEN = "rnbqkb1r/pppp1ppp/5n2/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR w KQkq - 2 3"
WITHOUT = FIRST.replace(
    "(3. Bc4 {Quieter, and right too.} 3... Nc6 4. d3 {Opens the c1 bishop's way to g5.})\n", ""
)


@pytest.fixture
def shelf(study: Study, small_deck: Path) -> Study:
    add_deck(study, small_deck)
    return study


def cards(study: Study) -> list[str]:
    return [card.card for card in read_cards(study.db, "small")]


def test_a_kept_move_is_asked_and_the_other_branch_rests(shelf: Study) -> None:
    before = cards(shelf)
    done = prefer(shelf, "small", FORK, "Bc4")
    assert (done.choice.kept, done.choice.moves) == ("Bc4", ("f4", "Bc4"))
    # 3. f4, 4. fxe5 and 5. Nf3 go, 3. Bc4 comes; 4. d3 is asked in the second chapter's name too.
    assert (done.gone, done.come) == (3, 1)
    assert len(cards(shelf)) == 6
    lines = asked_lines(play_all(prepare_practice(shelf, Wish(fresh=99))))
    assert FORK in lines
    assert not any("3. f4" in line for line in lines)
    again = take_back(shelf, "small", FORK)
    assert (again.gone, again.come, again.remembered) == (1, 3, 1)
    assert cards(shelf) == before


def test_what_is_remembered_comes_back(shelf: Study) -> None:
    play_all(prepare_practice(shelf, Wish(fresh=99)))
    known = read_states(shelf.db)
    done = prefer(shelf, "small", FORK, "Bc4")
    assert (done.gone, done.remembered, done.come, done.returned) == (3, 3, 1, 0)
    assert take_back(shelf, "small", FORK).returned == 3
    assert read_states(shelf.db) == known


@pytest.mark.parametrize("place", [FORK, FORK_FEN, "1. Nc3 Nf6 2. e4 e5"])
def test_a_position_is_named_by_any_line_or_a_fen(shelf: Study, place: str) -> None:
    prefer(shelf, "small", place, "bc4")
    assert choice_at(shelf, "small", FORK).kept == "Bc4"


@pytest.mark.parametrize(
    ("place", "move", "said"),
    [
        (FORK, "d4", "d4 is not a move of the deck there; the right moves there are f4 and Bc4"),
        (FORK, "Ke3", "cannot be kept: .*the right moves there are f4 and Bc4"),
        (FORK, "xx", "cannot be kept"),
        ("1. e4 e5", "Nf3", "nothing to choose: Nc3 is the only right move"),
        ("1. e4", "e5", "no move of yours after 1. e4"),
        ("1. c4", "e5", "does not have the position after 1. c4"),
        ("1. e5", "e5", "neither a FEN nor a line"),
        ("8/8/8 w - -", "e5", "is no position"),
    ],
)
def test_what_cannot_be_kept_is_refused_and_changes_nothing(
    shelf: Study, place: str, move: str, said: str
) -> None:
    before = cards(shelf)
    with pytest.raises(TrainerError, match=said):
        prefer(shelf, "small", place, move)
    assert cards(shelf) == before
    assert [choice.kept for choice in choices(shelf, "small")] == [""]


def test_what_is_not_kept_is_not_taken_back(shelf: Study) -> None:
    with pytest.raises(TrainerError, match=f"no move of the deck 'small' after {FORK}"):
        take_back(shelf, "small", FORK)
    with pytest.raises(TrainerError, match="no deck 'other'"):
        take_back(shelf, "other", FORK)


def test_everything_that_shows_the_deck_agrees(shelf: Study) -> None:
    prefer(shelf, "small", FORK, "Bc4")
    report = show_deck(shelf, "small").report
    assert (report.cards, [chapter.cards for chapter in report.chapters]) == (6, [4, 5])
    here = report_position(shelf, FORK, "f4")
    assert (here.decks[0].move, here.decks[0].accepted) == ("Bc4", ())
    assert here.tried is not None
    assert (here.tried.verdict, here.tried.note) == (
        "out of book",
        "You keep Bc4 here.\nStrikes at e5.",
    )
    assert verify(shelf).ok


def test_a_new_edition_keeps_to_it(shelf: Study, tmp_path: Path) -> None:
    prefer(shelf, "small", FORK, "Bc4")
    longer = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3")
    two = write_deck(tmp_path / "two", {"first": longer, "second": SECOND}, edition=2)
    added = add_deck(shelf, two)
    assert (added.cards.kept, added.account.changes) == (6, ())
    assert verify(shelf).ok


def test_without_the_move_it_sleeps_until_the_move_is_back(shelf: Study, tmp_path: Path) -> None:
    prefer(shelf, "small", FORK, "Bc4")
    chapters = {"first": WITHOUT, "second": SECOND}
    added = add_deck(shelf, write_deck(tmp_path / "two", chapters, edition=2))
    assert [change.what for change in added.account.changes if change.old == "Bc4"] == [
        "changed",
        "preference sleeps",
    ]
    (choice,) = choices(shelf, "small")
    assert (choice.kept, choice.sleeps, choice.moves) == ("Bc4", True, ("f4",))
    assert verify(shelf).ok
    add_deck(shelf, write_deck(tmp_path / "three", {"first": FIRST}, edition=3))
    assert choice_at(shelf, "small", FORK).sleeps is False
    assert report_position(shelf, FORK).decks[0].move == "Bc4"


def test_one_that_sleeps_can_be_taken_back(shelf: Study, tmp_path: Path) -> None:
    prefer(shelf, "small", FORK, "Bc4")
    add_deck(shelf, write_deck(tmp_path / "two", {"first": "1. e4 c5 2. Nc3 *"}, edition=2))
    (choice,) = choices(shelf, "small")
    assert (choice.line, choice.moves, choice.kept, choice.sleeps) == ("", (), "Bc4", True)
    done = take_back(shelf, "small", FORK)
    assert (done.gone, done.come, done.choice.kept) == (0, 0, "")
    assert choices(shelf, "small") == []


def test_one_whose_move_is_the_only_right_one_now_can_be_taken_back(
    shelf: Study, tmp_path: Path
) -> None:
    prefer(shelf, "small", FORK, "f4")
    add_deck(shelf, write_deck(tmp_path / "two", {"first": WITHOUT}, edition=2))
    (choice,) = choices(shelf, "small")
    assert (choice.kept, choice.sleeps) == ("f4", False)
    assert take_back(shelf, "small", FORK).choice.kept == ""


def test_behind_a_move_set_aside_one_can_choose_for_later(study: Study, tmp_path: Path) -> None:
    pgn = "1. e4 (1. c4 e5 2. g3 (2. Nc3 Nf6)) e5 2. Nf3 *"
    add_deck(study, write_deck(tmp_path / "d", {"first": pgn}))
    assert prefer(study, "small", "", "e4").gone == 1
    done = prefer(study, "small", "1. c4 e5", "Nc3")
    assert (done.gone, done.come) == (0, 0)
    take_back(study, "small", "")
    assert report_position(study, "1. c4 e5").decks[0].move == "Nc3"


def test_moves_are_read_with_the_readers_letters(study: Study, tmp_path: Path) -> None:
    study.home.folder.mkdir(exist_ok=True)
    study.change("piece_letters", value="de")
    pgn = "1. e4 c6 2. d4 (2. c4 d5) d5 3. Nc3 (3. Nd2 dxe4) dxe4 *"
    add_deck(study, write_deck(tmp_path / "d", {"first": pgn}))
    assert prefer(study, "small", "1. e4 c6 2. d4 d5", "Sd2").choice.kept == "Nd2"


def test_both_sides_of_a_deck_have_their_own(study: Study, tmp_path: Path) -> None:
    black = BLACK.replace("1. e4 c6", "1. e4 c6 (1... e5 2. Nf3)")
    chapters = {"first": FIRST, "answer": black}
    add_deck(study, write_deck(tmp_path / "d", chapters, sides={"answer": "black"}))
    assert prefer(study, "small", "1. e4", "e5").choice.side == "black"
    assert report_position(study, "1. e4 e5").decks[0].move == "Nc3"
    assert verify(study).ok
