"""`trainer today` with 2,000 cards against a Python that imports chess and sqlite3.

Run by hand: python -m tests.bench.today
"""

from __future__ import annotations

import sys
import tempfile
from datetime import date, timedelta
from pathlib import Path

from tests.bench.pairs import report, seconds
from tests.store_helpers import new_answer
from trainer.store.answers import record_all
from trainer.store.database import open_database, transaction
from trainer.store.decks import StoredCard, StoredChapter, StoredDeck, put_deck

CARDS = 2_000
TODAY = date(2026, 12, 3)


def fill(home: Path) -> None:
    """An invented deck of many cards, each answered six times."""
    db = open_database(home / "trainer.db")
    chapter = StoredChapter("first", "First", "lines", "white", None, None)
    deck = StoredDeck("many", 1, "", "Many cards", "", "en", "", "", (chapter,))
    cards = [
        StoredCard(f"8/8/8/8/8/8/8/8 w - {number} e2e4", "white", number, ("first",))
        for number in range(CARDS)
    ]
    with transaction(db):
        put_deck(db, deck, cards, (), ())
    record_all(
        db,
        [
            new_answer(4, TODAY - timedelta(days=days), card.card)
            for days in (60, 59, 53, 36, 20, 3)
            for card in cards
        ],
    )
    db.close()


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        fill(Path(folder))
        environment = {"TRAINER_HOME": folder, "TRAINER_NOW": "2026-12-03T18:00:00+01:00"}
        report(
            f"trainer today, {CARDS} cards",
            lambda: seconds([sys.executable, "-m", "trainer", "today"], environment),
            'python -c "import chess, sqlite3"',
            lambda: seconds([sys.executable, "-c", "import chess, sqlite3"]),
            aim=3,
        )


if __name__ == "__main__":
    main()
