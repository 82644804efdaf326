"""What only the whole deck shows: found when it is made ready, wherever it is made ready."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.course import FORK_FEN, GAMES, IDEAS, write_course
from trainer.deck.compiled import compile_deck
from trainer.deck.limits import DEFENCE_PLIES, FINDINGS
from trainer.deck.reader import read_deck

HEAD = f'[Event "T"]\n[SetUp "1"]\n[FEN "{FORK_FEN}"]\n[Result "*"]\n\n'


def found(folder: Path) -> list[tuple[str, str, int | None]]:
    """Code, file and game of what compiling a deck finds."""
    deck = read_deck(folder).deck
    assert deck is not None
    return [(one.code, one.file, one.game) for one in compile_deck(deck).findings]


@pytest.mark.parametrize(
    ("tricks", "finding"),
    [
        ("*", ("nothing-asked", 1)),
        ("1. Nc7+? {a mistake} *", ("mistake-first", 1)),
        ("1. Nc7+ {[%aside]} *", ("mistake-first", 1)),
        ("1. Nc7+ Kd7 2. Nxa8 *\n\n" + HEAD + "1. Nc7+ Kd7 2. Nxa8 *", ("repeated-game", 2)),
    ],
)
def test_faults_of_a_tactic(tricks: str, finding: tuple[str, int], tmp_path: Path) -> None:
    code, game = finding
    folder = write_course(tmp_path / "deck", tricks=HEAD + tricks)
    assert found(folder) == [(code, "tricks.pgn", game)]


def test_a_sound_deck_has_none(tmp_path: Path) -> None:
    assert found(write_course(tmp_path / "deck")) == []


def test_a_game_in_which_the_side_has_no_move(tmp_path: Path) -> None:
    fen = '[SetUp "1"]\n[FEN "4k3/8/8/8/8/8/8/4K2R b K - 0 1"]\n'
    black = f'[Event "G"]\n{fen}[Result "*"]\n\n1... Ke7 *'
    folder = write_course(tmp_path / "deck", games=GAMES + "\n" + black)
    assert found(folder) == [("nothing-asked", "games.pgn", 2)]


def test_a_defence_written_twice_is_played_once(tmp_path: Path) -> None:
    twice = "(1... Kd7 2. Nd5) (1... Kd8 2. Nxa8) (1... Kd8 2. Nd5)"
    text = HEAD + f"1. Nc7+ Kd7 {twice} 2. Nxa8 *"
    deck = read_deck(write_course(tmp_path / "deck", tricks=text)).deck
    assert deck is not None
    (tactic,) = compile_deck(deck).played["tricks"]
    assert [(turn.defence, turn.ply) for turn in tactic.turns] == [(0, 0), (0, 2), (1, 2)]
    assert tactic.movetext(1, 0) == "1. Nc7+ Kd8 2. Nxa8"


def test_an_idea_of_another_chapter_is_another_card(tmp_path: Path) -> None:
    folder = write_course(tmp_path / "deck")
    manifest = (folder / "deck.toml").read_text(encoding="utf-8")
    more = '\n[[chapter]]\nfile = "more.toml"\ntitle = "More"\nkind = "ideas"\n'
    (folder / "deck.toml").write_text(manifest + more, encoding="utf-8")
    (folder / "more.toml").write_text(IDEAS.replace("hit-e5", "other"), encoding="utf-8")
    assert found(folder) == [("duplicate-idea", "more.toml", 1), ("duplicate-idea", "more.toml", 3)]


def test_what_the_tactics_of_a_deck_may_cost_together(tmp_path: Path) -> None:
    knights = "Nf6+ Ke7 Nd5+ Kd8 " * 40
    one = HEAD + "1. " + knights.split()[0] + " " + " ".join(knights.split()[1:]) + " *\n\n"
    wanted = DEFENCE_PLIES // len(knights.split()) + 2
    codes = [code for code, _, _ in found(write_course(tmp_path / "deck", tricks=one * wanted))]
    assert codes[-1] == "too-large"
    small = HEAD + "1. Nc7+ Kd7 2. Nxa8 *\n\n"
    folder = write_course(tmp_path / "two", tricks=one + small)
    assert found(folder) == []


def test_as_many_findings_are_listed_as_anybody_reads(tmp_path: Path) -> None:
    one = HEAD + "1. Nc7+ Kd7 2. Nxa8 *\n\n"
    listed = found(write_course(tmp_path / "deck", tricks=one * (FINDINGS + 50)))
    assert len(listed) == FINDINGS + 1
    assert listed[-1][0] == "too-many-findings"
