"""`trainer deck show`: the outline of a deck, on the shelf and at a path."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.cli.runs import document, run
from tests.small_decks import BLACK, FIRST, SECOND, write_deck

TACTICS = """\
[Event "The loose bishop"]
[SetUp "1"]
[FEN "rn1qkbnr/ppp1pppp/3p4/8/2B1P1b1/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4"]

4. Bxf7+ Kxf7 5. Ng5+ *
"""

GAMES = """\
[Event "A club match"]
[White "Ann"]
[Black "Bert"]
[Result "1-0"]

1. e4 e5 2. Bc4 1-0
"""

IDEAS = """\
[[idea]]
after = "1. e4 e5"
ask = "Which squares does e4 hold?"
squares = ["d5", "f5"]
why = "Pawns take sideways."
"""

MORE = """
[[chapter]]
id = "tricks"
file = "tricks.pgn"
title = "Tricks"
kind = "tactics"

[[chapter]]
id = "games"
file = "games.pgn"
title = "Whole games"
kind = "games"
side = "white"
after = "tricks"

[[chapter]]
id = "ideas"
file = "ideas.toml"
title = "Ideas"
kind = "ideas"
side = "white"
after = "games"
opens = 2026-12-24
"""


def every_kind(folder: Path) -> Path:
    """The small deck with a chapter of every kind."""
    chapters = {"first": FIRST, "second": SECOND, "answer": BLACK}
    write_deck(folder, chapters, sides={"answer": "black"})
    (folder / "tricks.pgn").write_text(TACTICS, encoding="utf-8")
    (folder / "games.pgn").write_text(GAMES, encoding="utf-8")
    (folder / "ideas.toml").write_text(IDEAS, encoding="utf-8")
    manifest = folder / "deck.toml"
    manifest.write_text(manifest.read_text(encoding="utf-8") + MORE, encoding="utf-8")
    return folder


# Worked by hand from tests/small_decks.py.
WHOLE = """\
Small (small), edition 1.
Nobody, GPL-3.0-or-later
For tests.
4 lines, 22 positions, 13 cards, 1 transposition.

Chapters:
  first: Chapter first (lines, white), 6 cards.
    1. e4 e5 2. Nc3 Nf6                                                 6 cards
      3. f4 d5 4. fxe5 Nxe4 5. Nf3                                      2 cards
      3. Bc4 Nc6 4. d3                                                   1 card
  second: Chapter second (lines, white), 5 cards.
    1. e4 e5 2. Nc3 Nc6 3. Bc4 Nf6 4. d3 Bc5 5. Bg5                     5 cards
  answer: Chapter answer (lines, black), 3 cards.
    1. e4 c6 2. d4 d5 3. Nc3 dxe4                                       3 cards
  tricks: Tricks (tactics), 1 card.
    1. The loose bishop
  games: Whole games (games, white), 0 cards, not open yet. It opens once 1
    more tactic of “Tricks” is answered right.
    1. A club match: Ann - Bert, 1-0
  ideas: Ideas (ideas, white), 1 card, not open yet. It opens on Thursday 24
    December.
    1. Which squares does e4 hold?
"""


def test_a_deck_is_an_outline_that_fits_the_terminal(tmp_path: Path) -> None:
    folder = every_kind(tmp_path / "small")
    assert run("deck", "show", str(folder)).stdout == WHOLE
    run("deck", "add", str(folder))
    assert run("deck", "show", "small").stdout == WHOLE
    assert max(map(len, WHOLE.splitlines())) <= 79


def test_both_ways_report_the_same(tmp_path: Path) -> None:
    folder = every_kind(tmp_path / "small")
    at_path = document("deck", "show", str(folder))
    run("deck", "add", str(folder))
    assert document("deck", "show", "small") == at_path
    assert [
        (c["id"], c["kind"], c["side"], c["cards"], c["open"]) for c in at_path["chapters"]
    ] == [
        ("first", "lines", "white", 6, True),
        ("second", "lines", "white", 5, True),
        ("answer", "lines", "black", 3, True),
        ("tricks", "tactics", "", 1, True),
        ("games", "games", "white", 0, False),
        ("ideas", "ideas", "white", 1, False),
    ]
    assert at_path["chapters"][-1]["opens"] == "2026-12-24"
    assert date.fromisoformat(at_path["chapters"][-1]["opens"]) > date(2026, 12, 3)


@pytest.mark.parametrize(
    ("depth", "rows"),
    [
        ("0", []),
        ("1", ["1. e4 e5 2. Nc3 Nf6 6 cards in 2 lines"]),
        (
            "2",
            [
                "1. e4 e5 2. Nc3 Nf6 6 cards",
                "3. f4 d5 4. fxe5 Nxe4 5. Nf3 2 cards",
                "3. Bc4 Nc6 4. d3 1 card",
            ],
        ),
    ],
)
def test_lines_are_followed_as_deep_as_asked(depth: str, rows: list[str], tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST})
    told = run("deck", "show", str(folder), "--depth", depth).stdout.splitlines()
    assert [" ".join(row.split()) for row in told[7:]] == rows


def test_a_line_that_joins_another_says_where(tmp_path: Path) -> None:
    pgn = "1. e4 e5 2. Nc3 Nf6 (2... Nc6 3. Bc4 Nf6) 3. Bc4 Nc6 4. d3 *"
    told = run("deck", "show", str(write_deck(tmp_path / "small", {"first": pgn}))).stdout
    assert "2... Nc6 3. Bc4 Nf6 (as after 3... Nc6)      " in told


def test_an_opponents_mistake_is_marked_and_a_position_said_to_be_one(tmp_path: Path) -> None:
    pgn = '[SetUp "1"]\n[FEN "4k3/4p3/8/8/8/8/4P3/4K3 w - - 0 9"]\n\n9. e4 e6? 10. e5 *'
    told = run("deck", "show", str(write_deck(tmp_path / "small", {"first": pgn}))).stdout
    assert "From a position: 9. e4 e6? 10. e5   " in told


def test_a_long_line_is_broken_between_words(tmp_path: Path) -> None:
    pgn = (
        "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O "
        "9. h3 Nb8 *"
    )
    told = run("deck", "show", str(write_deck(tmp_path / "small", {"first": pgn}))).stdout
    first, second = told.splitlines()[-2:]
    assert first.startswith("    1. e4 e5")
    assert second.startswith("        ")
    assert second.endswith(" 9 cards")
    assert max(len(first), len(second)) <= 79


def test_a_pgn_file_needs_its_side(tmp_path: Path) -> None:
    file = tmp_path / "mine.pgn"
    file.write_text(BLACK, encoding="utf-8")
    result = run("deck", "show", str(file))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--side white or --side black" in result.stderr
    assert document("deck", "show", str(file), "--side", "black")["cards"] == 3


def test_a_deck_with_errors_is_not_shown(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST.replace("fxe5", "fxe6")})
    result = run("deck", "show", str(folder))
    assert (result.exit_code, result.stdout) == (1, "")
    assert "first.pgn, line 11: " in result.stderr
    assert result.stderr.count("\n") == 1


def test_a_chapter_that_waits_for_a_date_alone_opens_on_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST}, more={"first": "opens = 2026-12-04"})
    assert not document("deck", "show", str(folder))["chapters"][0]["open"]
    told = " ".join(run("deck", "show", str(folder)).stdout.split())
    assert "not open yet. It opens on Friday 4 December." in told
    monkeypatch.setenv("TRAINER_NOW", "2026-12-04T10:00:00+01:00")
    assert document("deck", "show", str(folder))["chapters"][0]["open"]
