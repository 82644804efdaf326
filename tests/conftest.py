"""Every test runs in a home of its own, on a set clock, whatever the developer's machine has."""

import os

# Textual and Rich read these when they are first imported.
for _name in [name for name in os.environ if name.startswith("TEXTUAL") or name == "NO_COLOR"]:
    del os.environ[_name]

from collections.abc import Iterator  # noqa: E402
from pathlib import Path  # noqa: E402

import pytest  # noqa: E402
from hypothesis import settings  # noqa: E402

settings.register_profile("ci", derandomize=True, deadline=None, database=None)
settings.load_profile("ci")

NOW = "2026-12-03T18:00:00+01:00"


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A throwaway home; the true one is out of reach."""
    folder = tmp_path / "home"
    monkeypatch.setenv("TRAINER_HOME", str(folder))
    monkeypatch.setenv("HOME", str(tmp_path / "user"))
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "user" / name.lower()))
    monkeypatch.setenv("TRAINER_NOW", NOW)
    yield folder
