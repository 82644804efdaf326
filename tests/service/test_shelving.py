"""Adding decks and new editions."""

import shutil
from pathlib import Path

import pytest

from tests.course import write_course
from tests.deck.packs import pack
from tests.service.practising import play_all
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.service.decks.editions import CardChanges
from trainer.service.decks.report import list_decks, show_deck
from trainer.service.decks.shelving import DeckRefused, accept, add_deck, prepare_deck
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study
from trainer.store.answers import read_states


def test_a_deck_is_added_with_its_files(study: Study, small_deck: Path) -> None:
    added = add_deck(study, small_deck)
    assert (added.deck, added.edition, added.cards) == ("small", 1, CardChanges(0, 8, 0, 0))
    kept = study.home.decks / "small" / "edition-1"
    assert sorted(file.name for file in kept.iterdir()) == ["deck.toml", "first.pgn", "second.pgn"]
    assert [entry.name for entry in kept.parent.iterdir()] == ["edition-1"]


def test_what_a_deck_holds(study: Study, small_deck: Path) -> None:
    # Worked by hand from tests/small_decks.py.
    add_deck(study, small_deck)
    report = show_deck(study, "small").report
    assert (report.lines, report.cards, report.transpositions) == (3, 8, 1)
    assert [(chapter.id, chapter.cards, chapter.open) for chapter in report.chapters] == [
        ("first", 6, True),
        ("second", 5, True),
    ]


def test_the_same_deck_again_changes_nothing(
    study: Study, small_deck: Path, tmp_path: Path
) -> None:
    add_deck(study, small_deck)
    copy = tmp_path / "elsewhere"
    shutil.copytree(small_deck, copy)
    assert add_deck(study, copy).cards == CardChanges(8, 0, 0, 0)


def test_a_higher_edition_keeps_what_is_known(
    study: Study, small_deck: Path, tmp_path: Path
) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=99)))
    known = read_states(study.db)
    assert len(known) == 8
    better = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3 {Hits e4 at once.}")
    without = SECOND.replace("Bc5 5. Bg5 {Pins f6.}", "Bc5")
    edition_2 = write_deck(tmp_path / "two", {"first": better, "second": without}, edition=2)
    assert add_deck(study, edition_2).cards == CardChanges(kept=6, new=0, changed=1, withdrawn=1)
    assert read_states(study.db) == known
    edition_3 = write_deck(tmp_path / "three", {"first": FIRST, "second": SECOND}, edition=3)
    assert add_deck(study, edition_3).cards == CardChanges(kept=6, new=1, changed=1, withdrawn=0)
    assert len(list_decks(study)) == 1
    assert [f.name for f in (study.home.decks / "small").iterdir()] == ["edition-3"]


@pytest.mark.parametrize(
    ("edition", "said"), [(1, "is older than edition 2"), (2, "raise the edition")]
)
def test_other_content_needs_a_higher_edition(
    study: Study, tmp_path: Path, edition: int, said: str
) -> None:
    add_deck(study, write_deck(tmp_path / "two", {"first": FIRST}, edition=2))
    other = write_deck(tmp_path / "other", {"first": SECOND}, edition=edition)
    with pytest.raises(DeckRefused, match=said):
        add_deck(study, other)
    assert show_deck(study, "small").report.cards == 6


def test_a_single_file_raises_its_edition_by_itself(study: Study, tmp_path: Path) -> None:
    file = tmp_path / "My lines.pgn"
    file.write_text(FIRST)
    first = add_deck(study, file, "white")
    file.write_text(SECOND)
    second = add_deck(study, file, "white")
    assert (first.deck, first.edition) == ("my-lines-white", 1)
    assert (second.deck, second.edition) == ("my-lines-white", 2)
    assert add_deck(study, file, "white").edition == 2


@pytest.mark.parametrize(
    ("pgn", "said"),
    [
        ("1. e4 e5 2. Ke3 *", r"first\.pgn, line 1"),
        ("1. e4? e5 *", "marked as a mistake"),
        ("1. e4 (1. f4?) e5 *\n\n1. f4 e5 *", "marked as a mistake in one place"),
    ],
    ids=["illegal", "first move a mistake", "mistake and book"],
)
def test_a_deck_with_an_error_is_not_added(
    study: Study, tmp_path: Path, pgn: str, said: str
) -> None:
    with pytest.raises(DeckRefused, match=said) as refused:
        add_deck(study, write_deck(tmp_path / "bad", {"first": pgn}))
    assert refused.value.findings
    assert list_decks(study) == []
    assert not study.home.decks.exists()


# --- A proposal, and its acceptance

BETTER = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3 {Hits e4 at once.}")


def test_a_proposal_changes_nothing(study: Study, tmp_path: Path) -> None:
    proposal = prepare_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    assert (proposal.account.cards.new, list_decks(study)) == (6, [])
    assert not study.home.decks.exists()
    assert accept(study, proposal).cards == CardChanges(0, 6, 0, 0)
    assert (study.home.decks / "small" / "edition-1").is_dir()


def test_an_edition_of_lines_and_other_kinds_stakes_what_was_answered(
    study: Study, tmp_path: Path
) -> None:
    add_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    two = write_deck(tmp_path / "two", {"first": BETTER}, edition=2)
    assert prepare_deck(study, two).account.at_stake == frozenset()
    play_all(prepare_practice(study, Wish(fresh=99)))
    proposal = prepare_deck(study, two)
    assert len(proposal.account.at_stake) == 1
    assert accept(study, proposal).cards == CardChanges(kept=5, new=0, changed=1, withdrawn=0)


def test_what_is_answered_meanwhile_is_not_lost_unasked(study: Study, tmp_path: Path) -> None:
    add_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    proposal = prepare_deck(study, write_deck(tmp_path / "two", {"first": BETTER}, edition=2))
    play_all(prepare_practice(study, Wish(fresh=99)))
    with pytest.raises(DeckRefused, match="meanwhile"):
        accept(study, proposal)
    assert list_decks(study)[0].edition == 1
    # Without a question there is no promise to keep.
    assert add_deck(study, tmp_path / "two").edition == 2


def test_an_edition_that_came_meanwhile_is_not_replaced_by_an_older_one(
    study: Study, tmp_path: Path
) -> None:
    add_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    proposal = prepare_deck(study, write_deck(tmp_path / "two", {"first": BETTER}, edition=2))
    add_deck(study, write_deck(tmp_path / "three", {"first": FIRST}, edition=3))
    with pytest.raises(DeckRefused, match="older than edition 3"):
        accept(study, proposal)
    assert [f.name for f in (study.home.decks / "small").iterdir()] == ["edition-3"]


def _packed(folder: Path) -> Path:
    files = {file.name: file.read_bytes() for file in folder.iterdir()}
    return pack(folder.with_name(f"{folder.name}.deck.zip"), files)


def test_a_deck_is_the_same_packed_or_not(study: Study, tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "one", {"first": FIRST})
    add_deck(study, folder)
    again = add_deck(study, _packed(folder))
    assert (again.edition, again.account.changes) == (1, ())
    other = write_deck(tmp_path / "other", {"first": BETTER})
    with pytest.raises(DeckRefused, match="raise the edition"):
        add_deck(study, _packed(other))


def test_ideas_and_tactics_are_counted_card_by_card(study: Study, tmp_path: Path) -> None:
    # One position and one key a card: two ideas on one position are two.
    added = add_deck(study, write_course(tmp_path / "one"))
    assert added.cards == CardChanges(0, 6, 0, 0)
    assert add_deck(study, tmp_path / "one").cards == CardChanges(6, 0, 0, 0)


def test_damaged_lines_are_compared_by_the_files(study: Study, tmp_path: Path) -> None:
    add_deck(study, write_deck(tmp_path / "one", {"first": FIRST}))
    study.db.execute("UPDATE lines SET graph = '{}'")
    study.db.conn.commit()
    two = write_deck(tmp_path / "two", {"first": BETTER}, edition=2)
    assert add_deck(study, two).cards == CardChanges(kept=5, new=0, changed=1, withdrawn=0)
