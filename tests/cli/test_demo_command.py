"""`trainer demo`: something to practise at once, and nothing kept."""

from __future__ import annotations

import sys
import types
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.runs import run
from tests.small_decks import FIRST, write_deck
from trainer.service.decks.shelving import add_deck
from trainer.service.study import open_study


@pytest.fixture(autouse=True)
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A demo that is quick to make."""
    folder = tmp_path / "demo"

    @contextmanager
    def open_demo():  # type: ignore[no-untyped-def]
        with open_study(folder) as study:
            add_deck(study, write_deck(tmp_path / "small", {"first": FIRST}))
            yield study

    monkeypatch.setattr("trainer.service.demo.open_demo", open_demo)
    return folder


@pytest.mark.parametrize("arguments", [["demo"], ["demo", "--plain"]], ids=" ".join)
def test_without_a_terminal_the_demo_is_plain(arguments: list[str], home: Path) -> None:
    result = run(*arguments)
    assert result.exit_code == 0
    assert "Small, chapter Chapter first.\n" in result.stdout
    assert not home.exists()


def test_on_a_terminal_the_program_opens_on_the_demo(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[object] = []
    program = types.ModuleType("trainer.app.main")

    def run_app(home: Path, wish: object) -> int:
        opened.append((home, wish))
        return 4

    monkeypatch.setattr(program, "run_app", run_app, raising=False)
    monkeypatch.setitem(sys.modules, "trainer.app.main", program)
    monkeypatch.setattr("trainer.cli.demo.on_a_terminal", lambda: True)
    assert run("demo").exit_code == 4
    assert opened == [(club, None)]
