"""One line for a deck with errors: the first of them, and how many there are."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.deck.findings import Finding, Severity


def first_error(findings: Iterable[Finding]) -> str:
    """`first.pgn, line 3: … (and 2 more; see `trainer deck check`)`.

    :param findings: with one error at least.
    """
    first, *others = (found for found in findings if found.severity is Severity.ERROR)
    place = first.file if first.line is None else f"{first.file}, line {first.line}"
    more = f" (and {len(others)} more; see `trainer deck check`)" if others else ""
    return f"{place}: {first.message}{more}"
