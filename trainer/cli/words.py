"""What several commands say where there is no deck yet."""

from __future__ import annotations

NO_DECK = (
    "There is no deck here yet. Add one with `trainer deck add PATH`, "
    "or look around with `trainer demo`."
)
