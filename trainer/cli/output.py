"""The only writer of standard output and standard error.

Reports and events go to standard output, messages to standard error. JSON is plain ASCII
and text is cleaned here once more, because a user's own arguments are echoed too; what is
said, and whether as JSON or in words, is decided by the commands.
"""

from __future__ import annotations

import io
import json
import re
import sys
from collections.abc import Mapping
from datetime import date
from typing import Any

import click

_UNSAFE = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)
"""Controls, direction marks and halves of characters: they could repaint a terminal."""


def cleaned(text: str) -> str:
    """The text without signs that a terminal would obey; line ends stay."""
    return _UNSAFE.sub("\ufffd", text)


def say(*lines: str) -> None:
    """Write lines of text to standard output."""
    for line in lines:
        click.echo(cleaned(line))


def invite() -> None:
    """Mark the place where a person may type."""
    click.echo("> ", nl=False)


def complain(message: str) -> None:
    """Write one line to standard error."""
    click.echo(f"trainer: {' '.join(cleaned(message).splitlines())}", err=True)


def complain_of_usage(error: click.ClickException) -> None:
    """Write what click has to say of wrong usage to standard error."""
    told = io.StringIO()
    error.show(file=told)
    click.echo(cleaned(told.getvalue()), nl=False, err=True)


def write_json(document: Mapping[str, Any]) -> None:
    """Write the one document of a report."""
    click.echo(json.dumps(document, indent=2, allow_nan=False, default=_plain))


def write_event(name: str, **fields: Any) -> None:
    """Write one event of a sitting, on a line of its own, at once."""
    click.echo(json.dumps({"event": name, **fields}, allow_nan=False, default=_plain))


def tolerate_narrow_encodings() -> None:
    """A terminal that cannot show a character gets a question mark, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


def _plain(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} does not go into JSON")
