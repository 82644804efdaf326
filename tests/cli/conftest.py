"""A shelf with the small deck, where a test asks for one."""

from pathlib import Path

import pytest

from tests.cli.runs import add_small_deck


@pytest.fixture
def shelf(tmp_path: Path) -> None:
    """The small deck is in the home."""
    add_small_deck(tmp_path)
