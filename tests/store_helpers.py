"""Answers for tests of the data file."""

from datetime import date

from trainer.memory.card_state import Answer
from trainer.store.answers import NewAnswer

CARD = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - e2e4"
OTHER = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - b1c3"


def new_answer(
    quality: int = 5,
    day: date = date(2026, 12, 3),
    card: str = CARD,
    *,
    minute: int = 0,
    repeat: bool = False,
    part_credit: bool = True,
) -> NewAnswer:
    """An answer given at this minute of the day."""
    return NewAnswer(
        card=card,
        asked_at=f"{day.isoformat()}T{10 + minute // 60:02}:{minute % 60:02}:00.000Z",
        schedule=Answer(day, quality, repeat, part_credit),
        seconds=3.5,
        looked=1.5,
        tries=[("e4", "in book")],
        hint=False,
        shown=False,
        source="day",
        deck="vienna",
        chapter="first-moves",
        edition=1,
        rules=1,
    )
