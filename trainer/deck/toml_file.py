"""A TOML file of a deck as plain values, or the finding that it is none."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from trainer.deck.clean import clean_line
from trainer.deck.findings import FindingList
from trainer.deck.toml_depth import is_too_deep

_TOO_DEEP = "the TOML is nested too deeply to be read; write it flat"
_AT = re.compile(r" \(at line ([0-9]+), column ([0-9]+)\)$")


def parse_toml(data: bytes, file: str, findings: FindingList) -> tuple[str, dict[str, Any] | None]:
    """The text of the file, and its values; None where it is no TOML."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        findings.error("bad-toml", f"{file} is not UTF-8; save it as UTF-8", line)
        return "", None
    if is_too_deep(text):
        findings.error("bad-toml", _TOO_DEEP)
        return text, None
    return text, _parsed(text, findings)


def _parsed(text: str, findings: FindingList) -> dict[str, Any] | None:
    try:
        return tomllib.loads(text)
    except RecursionError:
        findings.error("bad-toml", _TOO_DEEP)
    except ValueError as error:  # broken TOML, and numbers of thousands of digits
        words = clean_line(str(error))
        if not isinstance(error, tomllib.TOMLDecodeError):
            words = "it holds a number too long to be read"
        place = _AT.search(words)
        message = f"the TOML is broken: {_AT.sub('', words)[:200]}; correct it"
        findings.error("bad-toml", message, *(map(int, place.groups()) if place else ()))
    return None
