"""SM-2's quality, from what happened alone: no one grades themselves."""

from __future__ import annotations

HESITATION_SECONDS = 8.0
"""The default time within which an answer counts as given without hesitation."""


def quality(*, misses: int, hint: bool, shown: bool, seconds: float, hesitation: float) -> int:
    """The quality, 0 to 5, of a prompt that ended in book.

    :param misses: counted tries before the right one.
    :param seconds: from the moment the position stood still to the first counted try.
    :param hesitation: the longest time, in seconds, that still earns a 5.
    """
    if shown:
        return 0
    if misses:
        return 1 if hint else 2
    if hint:
        return 3
    return 5 if seconds <= hesitation else 4
