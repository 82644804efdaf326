"""The coach's guide: its commands run one after the other, and its examples are right."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.service.fake_engine import fake_engine
from trainer.cli.main import trainer
from trainer.deck.findings import FindingList
from trainer.deck.ideas import read_ideas
from trainer.deck.limits import CHAPTERS, COMMENT_CHARS, GAMES, IDEAS, MOVES, POSITIONS, TURNS
from trainer.deck.manifest import read_manifest
from trainer.deck.pgn import read_pgn
from trainer.lines.position import PositionPool

GUIDE = (Path(__file__).parent.parent / "decks" / "README.md").read_text(encoding="utf-8")

PLAYED = """\
[White "A"]
[Black "B"]
[Result "*"]

1. e4 e5 2. Nc3 Bc5 *
"""


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", GUIDE, re.DOTALL | re.MULTILINE)


def commands() -> list[str]:
    return [line for block in blocks("sh") for line in block.splitlines() if line.strip()]


def test_every_command_runs_in_turn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "played.pgn").write_text(PLAYED, encoding="utf-8")
    engine = Path(fake_engine(tmp_path / "bin"))
    engine.rename(engine.with_name("stockfish"))
    monkeypatch.setenv("PATH", str(engine.parent), prepend=":")
    for line in commands():
        program, *words = shlex.split(line)
        assert program == "trainer"
        result = CliRunner().invoke(trainer, words, prog_name="trainer")
        assert result.exit_code == 0, f"{line}\n{result.output}"
    assert (tmp_path / "my-opening.deck.zip").stat().st_size > 0
    assert "<html" in (tmp_path / "my-opening.html").read_text(encoding="utf-8")
    assert len(commands()) >= 15


def test_every_command_of_the_desk_stands_in_the_guide() -> None:
    told = " ".join(commands())
    wanted = {"new", "add", "check", "show", "pack", "handout", "prefer", "withdraw"}
    assert {name for name in wanted if f"trainer deck {name}" not in told} == set()


def test_the_examples_are_read_without_a_finding() -> None:
    manifest, idea = blocks("toml")
    findings = FindingList("deck.toml")
    read = read_manifest(manifest.encode(), findings)
    assert read is not None
    # The example's last key names a chapter that a whole deck would have.
    assert [found.code for found in findings.finished()] == ["unknown-chapter"]
    of_ideas = FindingList("ideas.toml")
    (one,) = read_ideas(idea.encode(), "ideas.toml", "deck", "", of_ideas)
    assert (of_ideas.finished(), one.answer) == ([], "f4")
    assert set(tomllib.loads(idea)["idea"][0]) == {"id", "after", "ask", "move", "why"}
    (pgn,) = blocks("pgn")
    games, found = read_pgn(pgn, "example.pgn", PositionPool())
    assert (len(games), found) == (1, [])


def test_the_bounds_are_those_of_the_reader() -> None:
    bounds = [GAMES, MOVES, IDEAS, CHAPTERS, POSITIONS, COMMENT_CHARS, TURNS]
    assert [bound for bound in bounds if f"{bound:,}" not in GUIDE] == []
