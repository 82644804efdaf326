"""What Today says of chapters that are closed still."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.shelf import seen, still_app
from tests.small_decks import FIRST, SECOND, write_deck
from trainer.app.telling.blocks import Paragraph
from trainer.app.telling.day import decks
from trainer.service.decks.shelving import add_deck
from trainer.service.first_minute import note_introduced
from trainer.service.study import Study, open_study
from trainer.service.today import report_today

WHEN = "“Chapter second” opens once 6 more positions of “Chapter first” are answered right"


def add(study: Study, folder: Path, deck: str, more: str) -> None:
    chapters = {"first": FIRST, "second": SECOND}
    add_deck(
        study,
        write_deck(
            folder / deck, chapters, deck_id=deck, title=deck.title(), more={"second": more}
        ),
    )


@pytest.mark.parametrize(
    ("added", "sentences"),
    [
        ({"a": ""}, []),
        ({"a": 'after = "first"'}, [f"To come: {WHEN}."]),
        ({"a": "", "b": 'after = "first"'}, [f"B, to come: {WHEN}."]),
    ],
    ids=["all is open", "one deck", "several decks"],
)
def test_what_is_to_come(
    home: Path, tmp_path: Path, added: dict[str, str], sentences: list[str]
) -> None:
    with open_study(home) as study:
        for deck, more in added.items():
            add(study, tmp_path, deck, more)
        blocks = decks(report_today(study))
    assert [block.text for block in blocks if isinstance(block, Paragraph)] == sentences


async def test_it_is_in_view_at_80x24(home: Path, tmp_path: Path) -> None:
    with open_study(home) as study:
        add(study, tmp_path, "small", 'after = "first"')
        note_introduced(study)
        app = still_app(study)
        async with app.run_test(size=(80, 24)):
            shown = seen(app)
            assert "To come: “Chapter second” opens once 6 more positions" in shown
            assert "PgDn" not in shown
            assert app.screen.max_scroll_y == 0
