"""A study in a throwaway home, with small decks to add."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.small_decks import BLACK, FIRST, SECOND, write_deck
from trainer.service.study import Study, open_study


@pytest.fixture
def study(home: Path) -> Iterator[Study]:
    with open_study(home) as opened:
        yield opened


@pytest.fixture
def small_deck(tmp_path: Path) -> Path:
    """Eight cards in two chapters for White; the start and 1...e5 stand in both."""
    return write_deck(tmp_path / "small", {"first": FIRST, "second": SECOND})


@pytest.fixture
def black_deck(tmp_path: Path) -> Path:
    return write_deck(
        tmp_path / "black", {"answer": BLACK}, deck_id="answer", sides={"answer": "black"}
    )
