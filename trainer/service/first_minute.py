"""Whether the introduction was shown in a home. Kept apart: Today asks it at every start."""

from __future__ import annotations

from contextlib import suppress

from trainer.service.study import Study


def was_introduced(study: Study) -> bool:
    """Whether the introduction was shown in this home before."""
    return study.home.introduced_file.exists()


def note_introduced(study: Study) -> None:
    """Remember it; where the home cannot be written it will be offered again."""
    told = f"The introduction was shown on {study.today}. Without this file it comes again.\n"
    with suppress(OSError):
        study.home.introduced_file.write_text(told, encoding="utf-8")
