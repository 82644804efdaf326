"""A sitting for programs: the events, the answers, and lines that are none."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.cli.runs import document, events, run
from trainer.cli.json_answers import LONGEST_WAIT, Unusable, Usable, read_answer
from trainer.errors import TrainerError
from trainer.sitting.events import HintWanted, MoveTyped, ShowWanted, Stop, UndoWanted

START = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
AFTER_E5 = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2"
E4 = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - e2e4"
NC3 = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - b1c3"

BLOCK = {"card": E4, "deck": "small", "chapter": "first", "fen": START, "line": "", "side": "white"}
KNIGHT = {
    "card": NC3,
    "deck": "small",
    "chapter": "first",
    "fen": AFTER_E5,
    "line": "1. e4 e5",
    "side": "white",
}


def verdict(name: str, san: str = "", reason: str = "", note: str = "") -> dict[str, str]:
    """A `verdict` event without an explanation."""
    return {
        "event": "verdict",
        "verdict": name,
        "san": san,
        "reason": reason,
        "note": note,
        "explanation": "",
    }


def kinds(found: list[dict[str, Any]]) -> list[str]:
    """The names of the events."""
    return [event["event"] for event in found]


@pytest.mark.usefixtures("shelf")
def test_a_whole_sitting() -> None:
    answers = [
        {"move": "e9", "seconds": 1},
        {"move": "e4", "seconds": 7.5},
        {"hint": True},
        {"move": "Qh5"},
        {"show": True},
        "Nc3",
        {"undo": True},
        {"move": "b1c3", "seconds": 8.5},
    ]
    first_note = "Takes the centre and frees the f1 bishop."
    knight_note = "Guards e4 before f2-f4."
    found = events("--fresh", "2", answers=answers)
    ended = found.pop()
    assert ended.pop("seconds") >= 17
    assert ended == {"event": "end", "asked": 2, "right": 2}
    mistake = found[8]
    assert mistake.pop("explanation") == "2... Nc6 3. Bc4 g6"
    assert found == [
        {"event": "show", **BLOCK, "move": "e4", "note": first_note, "introduction": ""},
        {"event": "show", **KNIGHT, "move": "Nc3", "note": knight_note, "introduction": ""},
        {"event": "ask", **BLOCK, "kind": "move", "fresh": True, "repeat": False},
        verdict("unreadable", reason='"e9" is no move; a move looks like Nf3, exd5 or O-O.'),
        verdict("in book", "e4", note=first_note),
        {
            "event": "graded",
            "card": E4,
            "quality": 4,
            "repetition": 1,
            "interval": 1,
            "e_factor": 2.5,
            "due": "2026-12-04",
            "repeat": False,
        },
        {"event": "ask", **KNIGHT, "kind": "move", "fresh": True, "repeat": False},
        {"event": "hint", "square": "b1", "piece": "knight"},
        {
            "event": "verdict",
            "verdict": "known mistake",
            "san": "Qh5",
            "reason": "",
            "note": "The queen is chased: 2... Nc6 and 3... g6.",
        },
        {"event": "shown", "move": "Nc3"},
        verdict("in book", "Nc3", note=knight_note),
        {
            "event": "graded",
            "card": NC3,
            "quality": 0,
            "repetition": 1,
            "interval": 1,
            "e_factor": 2.5,
            "due": "2026-12-04",
            "repeat": False,
        },
        {"event": "ask", **KNIGHT, "kind": "move", "fresh": False, "repeat": True},
        {"event": "undone", "card": NC3},
        {"event": "ask", **KNIGHT, "kind": "move", "fresh": True, "repeat": False},
        verdict("in book", "Nc3", note=knight_note),
        {
            "event": "graded",
            "card": NC3,
            "quality": 4,
            "repetition": 1,
            "interval": 1,
            "e_factor": 2.5,
            "due": "2026-12-04",
            "repeat": False,
        },
    ]


@pytest.mark.usefixtures("shelf")
def test_the_first_perfect_answer_raises_the_e_factor() -> None:
    # Source: Wozniak, Optimization of Learning (1990), 3.2: 2.5 + 0.1.
    graded = events("--fresh", "1", answers=[{"move": "e4", "seconds": 8}])[-2]
    assert (graded["quality"], graded["e_factor"]) == (5, 2.6)


@pytest.mark.usefixtures("shelf")
def test_end_of_input_is_a_stop_that_loses_nothing_and_counts_nothing() -> None:
    found = events("--fresh", "2", answers=["e4", "Qh5"])
    assert kinds(found)[-2:] == ["verdict", "end"]
    assert (found[-1]["asked"], found[-1]["right"]) == (1, 1)
    assert len(document("data", "export")["answers"]) == 1


@pytest.mark.usefixtures("shelf")
def test_stop_ends_at_once() -> None:
    assert kinds(events("--fresh", "2", answers=[{"stop": True}, "e4"]))[-2:] == ["ask", "end"]


@pytest.mark.usefixtures("shelf")
def test_nothing_to_undo_asks_the_same_again() -> None:
    found = events("--fresh", "1", answers=[{"undo": True}])
    assert kinds(found) == ["show", "ask", "undone", "ask", "end"]
    assert found[2]["card"] is None
    assert found[3] == found[1]


@pytest.mark.usefixtures("shelf")
def test_english_letters_alone_are_read(home: Path) -> None:
    (home / "settings.toml").write_text('piece_letters = "de"\n', encoding="utf-8")
    found = events("--fresh", "2", answers=["e4", "Sc3", "Nc3"])
    told = [event["verdict"] for event in found if event["event"] == "verdict"]
    assert told == ["in book", "unreadable", "in book"]


@pytest.mark.usefixtures("shelf")
def test_a_branch_is_asked_by_choice() -> None:
    found = events("--branch", "1. e4 e5 2. Nc3 Nf6 3. f4 d5", answers=["fxe5", "Nf3"])
    assert [event["line"] for event in found if event["event"] == "show"] == [
        "1. e4 e5 2. Nc3 Nf6 3. f4 d5",
        "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4",
    ]
    assert {answer["source"] for answer in document("data", "export")["answers"]} == {"choice"}


@pytest.mark.usefixtures("shelf")
def test_a_chapter_is_asked_alone() -> None:
    found = events("small", "--chapter", "answer", answers=["c6"])
    assert {event["chapter"] for event in found if event["event"] == "ask"} == {"answer"}
    assert next(event["side"] for event in found if event["event"] == "ask") == "black"


@pytest.mark.parametrize("decks", ["no deck", "a deck"])
def test_with_nothing_to_practise_there_is_an_end_alone(
    decks: str, request: pytest.FixtureRequest
) -> None:
    if decks == "a deck":
        request.getfixturevalue("shelf")
    result = run("practice", "--fresh", "0", "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout) == {"event": "end", "asked": 0, "right": 0, "seconds": 0.0}
    wanted = "`trainer practice --fresh 5`" if decks == "a deck" else "`trainer deck add PATH`"
    assert wanted in result.stderr
    assert result.stderr.count("\n") == 1


@pytest.mark.usefixtures("shelf")
def test_an_answer_that_cannot_be_saved_is_not_graded_and_the_end_is_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refuse(*_: object) -> None:
        raise TrainerError("the disk is full")

    monkeypatch.setattr("trainer.service.practice.record", refuse)
    result = run("practice", "--fresh", "1", "--json", typed="e4\n")
    assert result.exit_code == 1
    assert kinds([json.loads(line) for line in result.stdout.splitlines()]) == [
        "show",
        "ask",
        "end",
    ]
    assert result.stderr == "trainer: the disk is full\n"


# --- Lines that are no answer


NO_ANSWERS: dict[str, tuple[bytes, str]] = {
    "broken JSON": (b'{"move": "e4"', "no JSON object"),
    "deep JSON": (b'{"move": ' + b"[" * 60_000, "no JSON object"),
    "a number of many digits": (b'{"seconds": ' + b"9" * 5000 + b"}", "no JSON object"),
    "no key": (b"{}", "An answer has one of"),
    "two wishes": (b'{"hint": true, "show": true}', "An answer has one of"),
    "an unknown key": (b'{"mvoe": "e4"}', "An answer has one of"),
    "a misspelt second key": (b'{"move": "e4", "secnds": 3}', "An answer has one of"),
    "a move that is no text": (b'{"move": 5}', "A move is text"),
    "squares": (b'{"squares": ["e4"]}', "A move is asked here, not squares."),
    "a choice": (b'{"choose": 1}', "A move is asked here, not a choice."),
    "a hint denied": (b'{"hint": false}', 'Write {"hint": true}.'),
    "a stop in words": (b'{"stop": "yes"}', 'Write {"stop": true}.'),
    "seconds in words": (b'{"move": "e4", "seconds": "2"}', "seconds is a number"),
    "seconds below 0": (b'{"move": "e4", "seconds": -1}', "seconds is a number"),
    "seconds beyond numbers": (b'{"move": "e4", "seconds": 1e999}', "seconds is a number"),
    "seconds that are no number": (b'{"move": "e4", "seconds": NaN}', "seconds is a number"),
    "seconds true": (b'{"move": "e4", "seconds": true}', "seconds is a number"),
    "an empty line": (b"", "is no move"),
    "bad UTF-8": (b"e4\xff\xfe", "is no move"),
    "zeros": (b"\x00\x00", "is no move"),
    "a list": (b'["e4"]', "is no move"),
    "a huge line": (b"e4 " * 1_000_000, "is no move"),
    "a huge object": (b'{"move": "' + b"e" * 1_000_000 + b'"}', "no JSON object"),
}


@pytest.mark.parametrize("name", NO_ANSWERS)
@pytest.mark.usefixtures("shelf")
def test_a_line_that_is_no_answer_is_unreadable_and_counts_for_nothing(name: str) -> None:
    line, reason = NO_ANSWERS[name]
    result = run("practice", "--fresh", "1", "--json", typed=line + b'\n{"move": "e4"}\n')
    found = [json.loads(text) for text in result.stdout.splitlines()]
    assert kinds(found) == ["show", "ask", "verdict", "verdict", "graded", "end"]
    assert found[2]["verdict"] == "unreadable"
    assert reason in found[2]["reason"]
    assert found[4]["quality"] == 5


@pytest.mark.usefixtures("shelf")
def test_time_spent_on_unreadable_lines_counts() -> None:
    found = events(
        "--fresh",
        "1",
        answers=[{"squares": [], "seconds": 5}, {"move": "e4", "seconds": 3.5}],
    )
    assert found[-2]["quality"] == 4
    assert found[-1]["seconds"] == 8.5


ANSWERS: list[tuple[str, object, float | None]] = [
    ('{"move": "c8f5", "seconds": 2.5}', MoveTyped("c8f5", 9.0), 2.5),
    ('{"move": ""}', MoveTyped("", 9.0), None),
    ("  Nf3  ", MoveTyped("Nf3", 9.0), None),
    ('{"hint": true}', HintWanted(9.0), None),
    ('{"show": true, "seconds": 0}', ShowWanted(9.0), 0.0),
    (' {"undo": true} ', UndoWanted(9.0), None),
    ('{"stop": true, "seconds": null}', Stop(9.0), None),
    ('{"stop": true, "seconds": 1e300}', Stop(9.0), LONGEST_WAIT),
    ('{"stop": true, "seconds": 1' + "0" * 400 + "}", Stop(9.0), LONGEST_WAIT),
]


@pytest.mark.parametrize(("line", "event", "seconds"), ANSWERS)
def test_answers_are_read(line: str, event: object, seconds: float | None) -> None:
    answer = read_answer(line)
    assert isinstance(answer, Usable)
    assert answer.event(9.0) == event
    assert answer.seconds == seconds


JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=5,
)


@given(
    st.text()
    | st.dictionaries(
        st.sampled_from(["move", "hint", "seconds", "squares", "x"]), JSON_VALUES, max_size=3
    ).map(json.dumps)
)
def test_any_line_is_an_answer_or_has_a_reason(line: str) -> None:
    answer = read_answer(line)
    if isinstance(answer, Unusable):
        assert answer.reason
    else:
        answer.event(1.0)
    assert answer.seconds is None or 0 <= answer.seconds <= LONGEST_WAIT
