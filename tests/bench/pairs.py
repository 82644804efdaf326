"""Two commands timed in turn, so that a ratio means something while the machine drifts."""

from __future__ import annotations

import os
import statistics
import subprocess
import time
from collections.abc import Callable, Mapping, Sequence


def seconds(command: Sequence[str], environment: Mapping[str, str] | None = None) -> float:
    """Wall time of one whole process."""
    started = time.perf_counter()
    subprocess.run(
        command,
        check=True,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        env={**os.environ, **(environment or {})},
    )
    return time.perf_counter() - started


def report(
    name: str,
    ours: Callable[[], float],
    baseline_name: str,
    baseline: Callable[[], float],
    *,
    aim: float | None,
    rounds: int = 11,
) -> float:
    """Print and return the median of ours / baseline, pair by pair; both give seconds."""
    ours(), baseline()  # warm the caches
    pairs = [(ours(), baseline()) for _ in range(rounds)]
    ratio = statistics.median(one / other for one, other in pairs)
    one, other = (statistics.median(column) * 1000 for column in zip(*pairs, strict=True))
    wanted = f"aim {aim} times; " if aim else ""
    print(
        f"{name}: {one:.1f} ms, {ratio:.2f} times {baseline_name} ({other:.1f} ms); "
        f"{wanted}{rounds} pairs"
    )
    return ratio
