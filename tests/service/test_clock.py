"""The clock that `TRAINER_NOW` sets."""

from datetime import datetime

import pytest

from trainer.errors import TrainerError
from trainer.service.clock import read_clock, utc_text


def test_it_stands_still_where_it_is_set(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TRAINER_NOW", "2027-01-01T03:59:00+05:30")
    clock = read_clock()
    assert clock.now() == clock.now() == datetime.fromisoformat("2027-01-01T03:59:00+05:30")
    # Worked by hand: half past five hours earlier in UTC.
    assert utc_text(clock.now()) == "2026-12-31T22:29:00.000Z"


def test_it_goes_with_a_local_offset_where_nothing_sets_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("TRAINER_NOW")
    assert read_clock().now().tzinfo is not None


@pytest.mark.parametrize(
    "text",
    ["now", "2026-12-01", "2026-12-01T18:00:00", "0001-01-01T00:00:00Z", "9999-12-31T23:59:00Z"],
)
def test_what_is_no_usable_instant_is_one_sentence(
    monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    monkeypatch.setenv("TRAINER_NOW", text)
    with pytest.raises(TrainerError, match="write an instant with its offset"):
        read_clock()
