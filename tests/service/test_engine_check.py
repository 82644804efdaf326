"""A deck before an engine: what it dislikes, what is kept of its answers, how it ends."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import pytest

from tests.service.fake_engine import (
    MATE_IN_2,
    are_gone,
    fake_engine,
    heard,
    processes,
    searches,
)
from tests.small_decks import write_deck
from tests.trees import key
from trainer.deck.findings import Finding
from trainer.errors import TrainerError
from trainer.service.decks.check import DeckChecked, check_deck
from trainer.service.decks.engine.process import EngineFailed
from trainer.service.decks.engine_check import EngineWish
from trainer.service.home import Home

LINES = """\
[Result "*"]

1. e4 {a} (1. c4 {b} e5) 1... e5
2. Nf3 {c} (2. Qh5? Nc6) (2. Nc3 {[%aside]}) 2... Nc6 *
"""

TACTIC = """\
[SetUp "1"]
[FEN "7k/8/6K1/8/8/8/8/4QR2 w - - 0 1"]
[Result "*"]

1. Rf8# {Mate.} (1. Qe8# {Mate, too.}) *
"""

START, AFTER_E5 = key(""), key("1. e4 e5")
MATE = "7k/8/6K1/8/8/8/8/4QR2 w - -"


def check(home: Path, deck: Path, engine: str, **wish: float) -> DeckChecked:
    """The check of a deck with an engine."""
    nodes, patience = int(wish.get("nodes", 1000)), wish.get("patience")
    asked = EngineWish(engine, nodes, lambda _done, _total: None, patience)
    return check_deck(Home(home), deck, engine=asked)


def of_engine(checked: DeckChecked) -> list[Finding]:
    assert checked.engine is not None
    return list(checked.engine.findings)


@pytest.fixture
def lines(tmp_path: Path) -> Path:
    return write_deck(tmp_path / "deck", {"a": LINES})


# Worked by hand from the margins: 0.70 for the deck's moves, 0.30 for mistakes.
@pytest.mark.parametrize(
    ("scores", "expected"),
    [
        ({f"{AFTER_E5} d1h5": -100}, []),
        ({f"{AFTER_E5} d1h5": -30, f"{START} d2d4": 70}, []),
        ({f"{AFTER_E5} d1h5": -29}, [("mistake-holds", 4)]),
        ({f"{AFTER_E5} d1h5": -100, f"{START} d2d3": 71, f"{START} c2c4": 50},
         [("engine-dislikes", 3)]),
        ({f"{AFTER_E5} d1h5": -100, f"{START} d2d3": 200},
         [("engine-dislikes", 3), ("engine-dislikes", 3)]),
        ({f"{AFTER_E5} d1h5": MATE_IN_2}, [("engine-dislikes", 4), ("mistake-holds", 4)]),
        ({f"{AFTER_E5} d1h5": 1200, f"{AFTER_E5} g1f3": 1500, f"{AFTER_E5} b1c3": MATE_IN_2},
         [("mistake-holds", 4)]),
    ],
    ids=[
        "it agrees",
        "within the margins",
        "a mistake that holds",
        "the deck's move alone",
        "its alternative, too",
        "a mistake that mates",
        "all won anyway",
    ],
)  # fmt: skip
def test_lines(
    scores: dict[str, int], expected: list[tuple[str, int]], lines: Path, tmp_path: Path, home: Path
) -> None:
    checked = check(home, lines, fake_engine(tmp_path / "engine", scores))
    found = of_engine(checked)
    assert [(one.code, one.line) for one in found] == expected
    assert {(one.severity.value, one.file, one.game) for one in found} <= {("warning", "a.pgn", 1)}
    assert are_gone(processes(tmp_path / "engine"))


def test_the_messages_name_both_moves_and_their_scores(
    lines: Path, tmp_path: Path, home: Path
) -> None:
    scores = {f"{AFTER_E5} d1h5": -20, f"{AFTER_E5} f1c4": MATE_IN_2, f"{START} d2d3": 10}
    found = of_engine(check(home, lines, fake_engine(tmp_path / "engine", scores)))
    assert [one.message for one in found] == [
        "the engine prefers Bc4 to Nf3 after 1. e4 e5 (+0.00 against mate in 2 for Bc4); look again"
    ]


TACTIC_CASES = {
    "the only solution": ({f"{MATE} f1f8": MATE_IN_2, f"{MATE} e1e8": MATE_IN_2}, 0),
    "by the margin": ({f"{MATE} f1f8": 100}, 0),
    "below the margin": ({f"{MATE} f1f8": 99}, 1),
    "another is better": ({f"{MATE} f1f8": 300, f"{MATE} e1e5": 350}, 1),
    "two ways to mate": ({f"{MATE} f1f8": MATE_IN_2, f"{MATE} e1e5": MATE_IN_2 + 3}, 1),
    "a mate among won positions": ({f"{MATE} f1f8": MATE_IN_2, f"{MATE} e1e5": 2500}, 0),
    "the alternative is the better": ({f"{MATE} e1e8": 400, f"{MATE} e1e5": 250}, 0),
}


@pytest.mark.parametrize(("scores", "unclear"), TACTIC_CASES.values(), ids=TACTIC_CASES)
def test_tactics(scores: dict[str, int], unclear: int, tmp_path: Path, home: Path) -> None:
    deck = write_deck(tmp_path / "deck", {"a": TACTIC})
    manifest = (deck / "deck.toml").read_text().replace('kind = "lines"', 'kind = "tactics"')
    (deck / "deck.toml").write_text(manifest)
    found = of_engine(check(home, deck, fake_engine(tmp_path / "engine", scores)))
    assert [(one.code, one.line) for one in found] == [("tactic-unclear", 5)] * unclear


# --- What is kept


def test_a_second_run_searches_nothing(lines: Path, tmp_path: Path, home: Path) -> None:
    engine = fake_engine(tmp_path / "engine", {f"{START} d2d3": 200})
    first, second = check(home, lines, engine), check(home, lines, engine)
    assert first.engine is not None
    assert second.engine is not None
    # Worked by hand: two positions, the deck's three moves and a mistake that are not the best.
    assert (first.engine.positions, first.engine.searches, second.engine.searches) == (2, 6, 0)
    assert searches(tmp_path / "engine") == 6
    assert first.findings == second.findings


def test_other_nodes_and_new_moves_are_searched(lines: Path, tmp_path: Path, home: Path) -> None:
    engine = fake_engine(tmp_path / "engine")
    before = check(home, lines, engine).engine
    deeper = check(home, lines, engine, nodes=2000).engine
    (lines / "a.pgn").write_text(LINES.replace("(2. Qh5? Nc6)", "(2. Qh5? Nc6) (2. a4? d5)"))
    more = check(home, lines, engine, nodes=2000).engine
    assert before is not None
    assert deeper is not None
    assert more is not None
    assert (deeper.searches, more.searches) == (before.searches, 1)
    assert "go nodes 2000" in heard(tmp_path / "engine").read_text()


def test_the_engine_thinks_with_one_thread(lines: Path, tmp_path: Path, home: Path) -> None:
    check(home, lines, fake_engine(tmp_path / "engine"))
    assert "setoption name Threads value 1\n" in heard(tmp_path / "engine").read_text()


def test_nothing_but_the_answers_is_kept_in_the_home(
    lines: Path, tmp_path: Path, home: Path
) -> None:
    check_deck(Home(home), lines)
    assert not home.exists()
    check(home, lines, fake_engine(tmp_path / "engine"))
    assert [path.name for path in home.iterdir()] == ["engine.db"]


def test_an_answer_file_of_another_version_is_begun_anew(
    lines: Path, tmp_path: Path, home: Path
) -> None:
    engine = fake_engine(tmp_path / "engine")
    check(home, lines, engine)
    connection = sqlite3.connect(home / "engine.db")
    connection.execute("DROP TABLE answer")
    connection.execute("CREATE TABLE answer (other TEXT)")
    connection.execute("PRAGMA user_version = 99")
    connection.close()
    again = check(home, lines, engine).engine
    assert again is not None
    assert again.searches > 0


def test_a_damaged_answer_file_is_told_of(lines: Path, tmp_path: Path, home: Path) -> None:
    home.mkdir()
    (home / "engine.db").write_bytes(b"no data file at all" * 100)
    with pytest.raises(TrainerError, match=r"engine\.db: cannot be used .* remove it"):
        check(home, lines, fake_engine(tmp_path / "engine"))
    assert are_gone(processes(tmp_path / "engine"))


def test_what_was_answered_before_a_break_is_kept(lines: Path, tmp_path: Path, home: Path) -> None:
    engine = fake_engine(tmp_path / "engine")

    def stop(_done: int, _total: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        check_deck(Home(home), lines, engine=EngineWish(engine, 1000, stop))
    assert are_gone(processes(tmp_path / "engine"))
    before = searches(tmp_path / "engine")
    again = check(home, lines, engine).engine
    assert again is not None
    assert (before, again.searches) == (3, 3)


# --- Engines that fail


@pytest.mark.parametrize(
    ("fault", "told"),
    [
        ("mute", "it did not start within 1 seconds"),
        ("dies", "it ended before it could answer"),
        ("hangs", "it did not answer within 1 seconds"),
        ("silent", "it gives no move with a score"),
        ("deaf", "it does not keep to the moves asked about"),
        ("brings a child", "it did not answer within 1 seconds"),
    ],
)
def test_an_engine_that_fails_is_told_of_and_ended(
    fault: str, told: str, lines: Path, tmp_path: Path, home: Path
) -> None:
    engine = fake_engine(tmp_path / "engine", fault=fault)
    with pytest.raises(EngineFailed, match=told) as failed:
        check(home, lines, engine, patience=1)
    assert str(failed.value).startswith(engine)
    assert are_gone(processes(tmp_path / "engine", 2 if "child" in fault else 1))


@pytest.mark.parametrize("name", ["nosuch", "", "folder", "plain.txt", "broken", "/dev/null"])
def test_what_is_no_engine(name: str, lines: Path, tmp_path: Path, home: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "plain.txt").write_text("hello")
    (tmp_path / "broken").write_bytes(b"\x7fELF")
    (tmp_path / "broken").chmod(0o755)
    path = str(tmp_path / name) if name.strip("/") in ("folder", "plain.txt", "broken") else name
    with pytest.raises(EngineFailed, match="not usable as an engine") as failed:
        check(home, lines, path)
    assert "\n" not in str(failed.value)


@pytest.mark.parametrize("name", ["true", "cat"])
def test_a_program_that_speaks_no_uci(name: str, lines: Path, home: Path) -> None:
    path = shutil.which(name)
    if path is None:
        pytest.skip(f"{name} is not installed")
    with pytest.raises(EngineFailed, match="not usable as an engine"):
        check(home, lines, path, patience=1)
