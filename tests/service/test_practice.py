"""What is asked, and that every answer is safe before it is called graded."""

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.service.practising import asked_lines, play_all
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.errors import TrainerError
from trainer.memory.card_state import replay
from trainer.service.clock import Clock
from trainer.service.decks.shelving import add_deck
from trainer.service.practice import Practice
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study, open_study
from trainer.service.today import report_today
from trainer.sitting.events import (
    Ask,
    Begin,
    Effect,
    Ended,
    GoOn,
    Graded,
    Judged,
    MoveTyped,
    Show,
    Stop,
    Undone,
    UndoWanted,
)
from trainer.sitting.verdict import Verdict
from trainer.store.answers import read_log, read_states

# Worked by hand: depth first through both chapters of tests/small_decks.py.
TRAVEL_ORDER = [
    "",
    "1. e4 e5",
    "1. e4 e5 2. Nc3 Nf6",
    "1. e4 e5 2. Nc3 Nf6 3. f4 d5",
    "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4",
    "1. e4 e5 2. Nc3 Nf6 3. Bc4 Nc6",
    "1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6 4. d3 Bc5",
    "1. e4 e5 2. Nc3 Nc6",
]


def at(day: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TRAINER_NOW", f"{day}T18:00:00+01:00")


def test_fresh_cards_come_in_travel_order(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    effects = play_all(prepare_practice(study, Wish(fresh=99)))
    assert [e.prompt.card.line for e in effects if isinstance(e, Show)] == TRAVEL_ORDER[:8]
    assert asked_lines(effects) == TRAVEL_ORDER
    assert effects[-1] == Ended(asked=8, right=8, seconds=16.0)


def test_the_day_brings_no_more_fresh_cards_than_set(home: Path, small_deck: Path) -> None:
    home.mkdir()
    (home / "settings.toml").write_text("fresh_per_day = 3")
    with open_study(home) as study:
        add_deck(study, small_deck)
        assert asked_lines(play_all(prepare_practice(study, Wish()))) == TRAVEL_ORDER[:3]
        assert asked_lines(play_all(prepare_practice(study, Wish()))) == []
        assert report_today(study).fresh_today == 0


def test_an_answer_is_committed_before_it_is_called_graded(
    study: Study, small_deck: Path, home: Path
) -> None:
    add_deck(study, small_deck)
    practice = prepare_practice(study, Wish(fresh=1))
    practice.send(Begin())
    effects = look_and_answer(practice)
    assert isinstance(effects[-1], Graded)
    with open_study(home) as other:
        (entry,) = read_log(other.db)
    assert entry.answer.tries == [("e4", "in book")]
    assert (entry.answer.source, entry.answer.deck, entry.answer.chapter) == (
        "day",
        "small",
        "first",
    )
    assert entry.answer.asked_at == "2026-12-03T17:00:00.000Z"


def look_and_answer(practice: Practice) -> list[Effect]:
    practice.send(GoOn(1.0))
    return practice.send(MoveTyped("e4", 2.0))


def test_a_save_that_fails_leaves_the_sitting_where_it_stood(
    study: Study, small_deck: Path
) -> None:
    add_deck(study, small_deck)
    practice = prepare_practice(study, Wish(fresh=1))
    practice.send(Begin())
    study.db.execute("PRAGMA query_only = 1")
    with pytest.raises(TrainerError, match="cannot be written"):
        look_and_answer(practice)
    study.db.execute("PRAGMA query_only = 0")
    assert isinstance(practice.send(MoveTyped("e4", 1.0))[-1], Graded)
    assert len(list(read_log(study.db))) == 1


def test_undo_leaves_the_log_whole(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    practice = prepare_practice(study, Wish(fresh=1))
    practice.send(Begin())
    look_and_answer(practice)
    undone, asked = practice.send(UndoWanted(1.0))
    assert isinstance(undone, Undone)
    assert isinstance(asked, Ask)
    assert asked.prompt.fresh
    assert read_states(study.db) == {}
    practice.send(MoveTyped("e4", 1.0))
    assert [entry.withdrawn for entry in read_log(study.db)] == [True, False]


def test_a_shared_card_is_asked_once_in_the_name_of_the_first_deck(
    study: Study, tmp_path: Path
) -> None:
    add_deck(study, write_deck(tmp_path / "a", {"first": FIRST}, deck_id="a"))
    add_deck(study, write_deck(tmp_path / "b", {"second": SECOND}, deck_id="b", title="The B"))
    effects = play_all(prepare_practice(study, Wish(fresh=99)))
    names = {e.prompt.card.line: e.prompt.card.deck for e in effects if isinstance(e, Ask)}
    assert len(asked_lines(effects)) == 8
    assert (names[""], names["1. e4 e5 2. Nc3 Nc6"]) == ("a", "b")


def test_another_decks_move_is_neither_right_nor_wrong(study: Study, tmp_path: Path) -> None:
    other = FIRST.replace(
        "1. e4 {Takes the centre and frees the f1 bishop.} e5", "1. f4 e5 *\n\n1. e4 e5"
    )
    add_deck(study, write_deck(tmp_path / "a", {"first": FIRST}, deck_id="a"))
    add_deck(study, write_deck(tmp_path / "b", {"first": other}, deck_id="b", title="The Bird"))
    practice = prepare_practice(study, Wish(deck="a", fresh=1))
    practice.send(Begin())
    practice.send(GoOn(0.0))
    (judged,) = practice.send(MoveTyped("f4", 1.0))
    assert isinstance(judged, Judged)
    assert judged.judgement.verdict is Verdict.OTHER_DECK
    assert "The Bird" in judged.judgement.reason
    graded = practice.send(MoveTyped("e4", 1.0))[-1]
    assert isinstance(graded, Graded)
    assert graded.quality == 5


def test_a_repeat_still_owed_is_asked_first_in_the_next_sitting(
    study: Study, small_deck: Path
) -> None:
    add_deck(study, small_deck)
    practice = prepare_practice(study, Wish(fresh=2))
    practice.send(Begin())
    practice.send(GoOn(0.0))
    practice.send(GoOn(0.0))
    practice.send(MoveTyped("a3", 1.0))
    practice.send(MoveTyped("e4", 1.0))
    practice.send(Stop(0.0))
    assert report_today(study).repeats == 1
    first = prepare_practice(study, Wish()).send(Begin())[0]
    assert isinstance(first, Ask)
    assert (first.prompt.card.line, first.prompt.repeat, first.prompt.fresh) == ("", True, False)


def test_repeats_end_with_the_day(
    study: Study, small_deck: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=8)), miss=frozenset({"1. e4 e5"}))
    at("2026-12-04", monkeypatch)
    with open_study(home) as tomorrow:
        today = report_today(tomorrow)
    assert (today.repeats, today.due) == (0, 8)


def test_a_season_of_sittings_is_the_published_schedule(
    study: Study, small_deck: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Source: Wozniak, Optimization of Learning (1990), 3.2: 1, 6, 17, 50 days for fives.
    add_deck(study, small_deck)
    day = study.today
    asked_on = []
    for _ in range(30):
        at(day.isoformat(), monkeypatch)
        with open_study(home) as then:
            if any(line == "" for line in asked_lines(play_all(prepare_practice(then, Wish())))):
                asked_on.append((day - study.today).days)
        day += timedelta(days=1)
    assert asked_on == [0, 1, 7, 24]


@pytest.mark.parametrize(
    ("side", "asked"), [("white", ["", "1. e4 c6"]), ("black", ["1. e4"]), (None, 3)]
)
def test_one_side_of_a_deck_alone(
    study: Study, tmp_path: Path, side: str | None, asked: list[str] | int
) -> None:
    chapters = {"ours": "1. e4 c6 2. Nc3 *", "theirs": "1. e4 c6 2. Nc3 *"}
    add_deck(study, write_deck(tmp_path / "both", chapters, sides={"theirs": "black"}))
    practice = prepare_practice(study, Wish(deck="small", branch="", side=side))
    lines = sorted(prompt.card.line for prompt in practice.sitting.ahead)
    assert (lines if isinstance(asked, list) else len(lines)) == asked


def test_a_branch_is_asked_by_choice_as_often_as_wanted(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    wish = Wish(branch="1. e4 e5 2. Nc3 Nf6")
    assert sorted(asked_lines(play_all(prepare_practice(study, wish)))) == sorted(TRAVEL_ORDER[2:7])
    before = read_states(study.db)
    assert len(asked_lines(play_all(prepare_practice(study, wish)))) == 5
    assert {entry.answer.source for entry in read_log(study.db)} == {"choice"}
    after = read_states(study.db)
    assert {card: state.due for card, state in after.items()} == {
        card: state.due for card, state in before.items()
    }


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (Wish(deck="nobody"), "there is no deck 'nobody'; the decks are: small"),
        (Wish(deck="small", chapter="third"), "its chapters are: first, second"),
        (Wish(branch="1. e4 e5 2. Ke3"), "--branch: .*Ke3"),
        (Wish(branch="1. c4"), "no open card"),
    ],
)
def test_a_wish_that_cannot_be_met_is_one_sentence(
    study: Study, small_deck: Path, wish: Wish, said: str
) -> None:
    add_deck(study, small_deck)
    with pytest.raises(TrainerError, match=said):
        prepare_practice(study, wish)


def test_the_stored_states_are_what_the_log_comes_to(study: Study, small_deck: Path) -> None:
    add_deck(study, small_deck)
    play_all(prepare_practice(study, Wish(fresh=8)), miss=frozenset({"", "1. e4 e5"}))
    by_card: dict[str, list[object]] = {}
    for entry in read_log(study.db):
        by_card.setdefault(entry.answer.card, []).append(entry.answer.schedule)
    assert read_states(study.db) == {
        card: replay(answers)  # type: ignore[arg-type]
        for card, answers in by_card.items()
    }


SHARED_A = "1. e4 e5 2. Nf3 Nc6 *"
SHARED_B = "1. e4 e5 2. Nf3 Nf6 3. Nxe5 *"


def test_a_chapter_is_asked_whole_and_in_its_own_name(study: Study, tmp_path: Path) -> None:
    add_deck(study, write_deck(tmp_path / "d", {"a": SHARED_A, "b": SHARED_B}))
    effects = play_all(prepare_practice(study, Wish(deck="small", chapter="b")))
    asked = [e.prompt.card for e in effects if isinstance(e, Ask)]
    assert [card.line for card in asked] == ["", "1. e4 e5", "1. e4 e5 2. Nf3 Nf6"]
    assert {card.chapter for card in asked} == {"b"}
    assert {entry.answer.chapter for entry in read_log(study.db)} == {"b"}


@pytest.mark.parametrize("typed", ["c4", "f4", "b3"], ids=["deck", "accepted", "closed chapter"])
def test_whatever_another_deck_plays_is_spared(study: Study, tmp_path: Path, typed: str) -> None:
    later = {"first": "opens = 2030-01-01"}
    for deck, pgn, more in (
        ("one", "1. e4 e5 *", None),
        ("two", "1. c4 (1. f4) 1... e5 *", None),
        ("three", "1. b3 e5 *", later),
    ):
        add_deck(study, write_deck(tmp_path / deck, {"first": pgn}, deck_id=deck, more=more))
    practice = prepare_practice(study, Wish(deck="one", fresh=1))
    practice.send(Begin())
    practice.send(GoOn(0.0))
    (judged,) = practice.send(MoveTyped(typed, 1.0))
    assert isinstance(judged, Judged)
    assert judged.judgement.verdict is Verdict.OTHER_DECK


def test_a_line_from_a_position_of_the_decks_own_can_be_handed_back(
    study: Study, tmp_path: Path
) -> None:
    pgn = (
        '[SetUp "1"]\n[FEN "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2"]\n\n'
        "2. Nf3 Nc6 3. Bb5 a6 4. Ba4 *"
    )
    add_deck(study, write_deck(tmp_path / "d", {"first": pgn}))
    everything = asked_lines(play_all(prepare_practice(study, Wish(branch=""))))
    assert everything == ["", "2. Nf3 Nc6", "2. Nf3 Nc6 3. Bb5 a6"]
    assert asked_lines(play_all(prepare_practice(study, Wish(branch=everything[1])))) == [
        "2. Nf3 Nc6",
        "2. Nf3 Nc6 3. Bb5 a6",
    ]


def test_the_first_look_brings_a_games_introduction_once(study: Study, tmp_path: Path) -> None:
    pgn = "{Why we play it.} 1. e4 e5 2. Nc3 *\n\n{The other road.} 1. e4 e5 2. Nc3 Nf6 3. f4 *"
    add_deck(study, write_deck(tmp_path / "d", {"first": pgn}))
    effects = play_all(prepare_practice(study, Wish()))
    looks = [
        (e.prompt.card.line, e.prompt.card.introduction) for e in effects if isinstance(e, Show)
    ]
    assert looks == [
        ("", "Why we play it."),
        ("1. e4 e5", ""),
        ("1. e4 e5 2. Nc3 Nf6", "The other road."),
    ]


def test_repeats_end_with_the_day_in_a_sitting_that_runs_past_its_border(
    study: Study, small_deck: Path
) -> None:
    add_deck(study, small_deck)
    late = [datetime.fromisoformat("2026-12-04T03:58:00+01:00")]
    running = replace(study, clock=Clock(lambda: late[0]))
    practice = prepare_practice(running, Wish(fresh=1))
    practice.send(Begin())
    practice.send(GoOn(0.0))
    practice.send(MoveTyped("a3", 1.0))
    practice.send(MoveTyped("e4", 1.0))
    late[0] += timedelta(minutes=3)
    practice.send(GoOn(0.0))
    # That a save failed in between changes nothing.
    study.db.execute("PRAGMA query_only = 1")
    with pytest.raises(TrainerError):
        practice.send(MoveTyped("e4", 1.0))
    study.db.execute("PRAGMA query_only = 0")
    graded = practice.send(MoveTyped("e4", 1.0))[-1]
    assert isinstance(graded, Graded)
    assert graded.state.schedule.repetition == 2
    assert [entry.answer.schedule.repeat for entry in read_log(study.db)] == [False, False]
