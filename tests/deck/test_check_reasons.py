"""How many cards say why, over all kinds of chapters."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.deck.check_decks import SOUND, changed, write_files
from trainer.deck.check.check import Reasons, check_whole, count_reasons
from trainer.deck.check.written import find_written
from trainer.deck.compiled import compile_deck
from trainer.deck.reader import read_deck


# Worked by hand: three cards of lines, a tactic, two ideas.
@pytest.mark.parametrize(
    ("files", "expected"),
    [
        (SOUND, Reasons(6, 0)),
        (changed("lines.pgn", ("{Hits e5.}", ""), ("{Takes the centre.}", "")), Reasons(6, 2)),
        (changed("tactics.pgn", ("{The back rank is weak.}", "")), Reasons(6, 1)),
        (changed("ideas.toml", ('why = "It develops, too."', "")), Reasons(6, 1)),
    ],
    ids=["all", "lines", "a tactic", "an idea"],
)
def test_reasons_are_counted(files: dict[str, str], expected: Reasons, tmp_path: Path) -> None:
    deck = read_deck(write_files(tmp_path / "deck", files)).deck
    assert deck is not None
    compiled = compile_deck(deck)
    found = check_whole(deck, compiled, find_written(deck, compiled))
    assert count_reasons(deck, compiled, found) == expected
    assert expected.given == expected.cards - expected.silent
