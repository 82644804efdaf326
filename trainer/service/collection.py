"""Large structures and Python's garbage collector, which would walk them again and again.

Of 10,000 positions one walk takes longer than reading them. They hold no cycles, so nothing
is lost by leaving them out: they go when they are no longer used, as all objects do.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collection_paused() -> Iterator[None]:
    """Nothing is walked meanwhile; one pause may lie within another."""
    walking = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if walking:
            gc.enable()


@contextmanager
def set_apart() -> Iterator[None]:
    """What is built meanwhile is not walked until `take_back`."""
    with collection_paused():
        yield
        gc.freeze()


def take_back() -> None:
    """Everything is walked again."""
    gc.unfreeze()
