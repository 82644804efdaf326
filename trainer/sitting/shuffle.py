"""The order in which an idea's answers are shown: pure, another one for each number."""

from __future__ import annotations

from math import factorial

_MULTIPLIER, _MODULUS = 6364136223846793005, 2**64
"""Knuth's MMIX generator (The Art of Computer Programming, volume 2, 3.3.4; from memory)."""


def shuffled(count: int, dice: int, prompts: int) -> tuple[int, ...]:
    """The numbers from 0 in an order that `dice` and the count of prompts decide.

    :param prompts: how many prompts the sitting had, so that each one has its own order.
    """
    drawn = (dice + prompts) % _MODULUS
    for _ in range(2):
        drawn = (drawn * _MULTIPLIER + 1442695040888963407) % _MODULUS
    rank = (drawn >> 16) % factorial(count)
    left = list(range(count))
    order = []
    for remaining in range(count, 0, -1):
        place, rank = divmod(rank, factorial(remaining - 1))
        order.append(left.pop(place))
    return tuple(order)
