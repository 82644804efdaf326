"""Every app of these tests runs in a terminal that has all colours."""

import pytest


@pytest.fixture(autouse=True)
def many_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever the developer's terminal is."""
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")
