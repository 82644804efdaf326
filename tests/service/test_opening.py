"""Which chapters are open."""

from pathlib import Path

import pytest

from tests.service.practising import asked_lines, play_all
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.errors import TrainerError
from trainer.service.decks.report import show_deck
from trainer.service.decks.shelving import add_deck
from trainer.service.opening import read_shelf
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study, open_study
from trainer.service.today import report_today


def open_chapters(study: Study) -> set[str]:
    return set(read_shelf(study).decks[0].open_chapters)


@pytest.mark.parametrize(
    ("opens", "found"), [("2026-12-03", {"first", "second"}), ("2026-12-04", {"first"})]
)
def test_a_chapter_opens_on_its_day(
    study: Study, tmp_path: Path, opens: str, found: set[str]
) -> None:
    chapters = {"first": FIRST, "second": SECOND}
    add_deck(study, write_deck(tmp_path / "d", chapters, more={"second": f"opens = {opens}"}))
    assert open_chapters(study) == found


def test_a_chapter_opens_after_another_was_answered(study: Study, tmp_path: Path) -> None:
    chapters = {"first": FIRST, "second": SECOND}
    add_deck(study, write_deck(tmp_path / "d", chapters, more={"second": 'after = "first"'}))
    assert report_today(study).decks[0].cards == 6
    # A same-day repeat counts as an answer, so a miss does not keep the chapter closed.
    play_all(prepare_practice(study, Wish(fresh=5)), miss=frozenset({""}))
    assert open_chapters(study) == {"first"}
    play_all(prepare_practice(study, Wish(fresh=1)))
    assert open_chapters(study) == {"first", "second"}
    assert report_today(study).decks[0].cards == 8


def test_a_chapter_in_whose_name_a_card_was_asked_never_closes_again(
    study: Study, tmp_path: Path
) -> None:
    add_deck(study, write_deck(tmp_path / "d", {"first": FIRST, "second": SECOND}))
    play_all(prepare_practice(study, Wish(deck="small", chapter="second", fresh=9)))
    later = {"second": "opens = 2030-01-01"}
    add_deck(
        study,
        write_deck(tmp_path / "e", {"first": FIRST, "second": SECOND}, edition=2, more=later),
    )
    assert open_chapters(study) == {"first", "second"}


def test_a_shared_card_asked_as_part_of_one_chapter_opens_no_other(
    study: Study, tmp_path: Path
) -> None:
    later = {"second": "opens = 2030-01-01"}
    add_deck(study, write_deck(tmp_path / "d", {"first": FIRST, "second": SECOND}, more=later))
    assert "" in asked_lines(play_all(prepare_practice(study, Wish(fresh=9))))
    assert open_chapters(study) == {"first"}
    assert [chapter.open for chapter in show_deck(study, "small").report.chapters] == [True, False]
    with pytest.raises(TrainerError, match="not open yet"):
        prepare_practice(study, Wish(deck="small", chapter="second"))


def test_moves_are_judged_by_all_chapters_closed_ones_too(
    study: Study, tmp_path: Path, home: Path
) -> None:
    # 3. Bc4 in the closed chapter is an accepted alternative where the open one plays 3. f4.
    later = {"later": "opens = 2030-01-01"}
    chapters = {
        "first": FIRST.replace(
            "(3. Bc4 {Quieter, and right too.} 3... Bc5 4. d3 "
            "{Opens the c1 bishop's way to g5.})\n",
            "",
        ),
        "later": "1. e4 e5 2. Nc3 Nf6 3. Bc4 *",
    }
    add_deck(study, write_deck(tmp_path / "d", chapters, more=later))
    with open_study(home) as other:
        practice = prepare_practice(other, Wish(branch="1. e4 e5 2. Nc3 Nf6"))
        accepted = [move.san for move in practice.sitting.ahead[0].card.position.book_moves]
    assert accepted == ["f4", "Bc4"]
