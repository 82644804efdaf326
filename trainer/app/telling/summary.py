"""The end of a sitting: what was asked, what was hard, what tomorrow brings, what is next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from trainer.app.telling.blocks import Block, Paragraph, Rows
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.lines.movetext import numbered
from trainer.memory.sm2 import PASSED, REPEATED_BELOW
from trainer.service.today import SEEN_SECONDS, Today
from trainer.service.words import about_minutes, counted, short_day, stopwatch
from trainer.sitting.events import Ended
from trainer.sitting.cards import Card
from trainer.sitting.sitting import Answered, Sitting


def summary(before: Moment, ended: Ended, sitting: Sitting, report: Today) -> Moment:
    """The last moment of a sitting."""
    step = _next_step(report, bool(_not_known(sitting.answered)))
    ahead = Paragraph(f"{step} {_tomorrow(report)}")
    return replace(
        before,
        stage=Stage(replace(before.stage.view, squares=(), arrows=())),
        sign="●" if ended.asked else "○",
        tone=Tone.GOOD if ended.asked else Tone.PLAIN,
        headline=_headline(ended, sitting),
        brief="",
        page=(*_numbers(sitting), ahead, *_hard(sitting.answered)),
        asks=False,
        missed=(),
    )


def _headline(ended: Ended, sitting: Sitting) -> str:
    if not ended.asked:
        return "Nothing was answered"
    word = "Stopped" if sitting.left else "Done"
    return f"{word}: {ended.asked} answered in {stopwatch(ended.seconds)}"


def _numbers(sitting: Sitting) -> Iterator[Block]:
    first = [answer.quality for answer in sitting.answered if not answer.prompt.repeat]
    kinds = (
        (sum(q >= REPEATED_BELOW for q in first), "at the first try"),
        (sum(q == PASSED for q in first), "with a hint"),
        (sum(q in (1, 2) for q in first), "missed"),
        (sum(q == 0 for q in first), "shown"),
    )
    told = ", ".join(f"{count} {what}" for count, what in kinds if count)
    repeats = len(sitting.answered) - len(first)
    again = f"; {repeats} asked again" if repeats else ""
    if told or again:
        yield Paragraph(f"{told}{again}.".lstrip("; "))


def hardest(sitting: Sitting) -> Card | None:
    """The card that was known worst, the first of such; None where all were right."""
    hard = _not_known(sitting.answered)
    return hard[0].prompt.card if hard else None


def _not_known(answered: tuple[Answered, ...]) -> list[Answered]:
    """The worst answer of each card that was not right at once, the hardest first."""
    worst: dict[str, Answered] = {}
    for answer in answered:
        known = worst.setdefault(answer.prompt.card.key, answer)
        if answer.quality < known.quality:
            worst[answer.prompt.card.key] = answer
    hard = [answer for answer in worst.values() if answer.quality < REPEATED_BELOW]
    return sorted(hard, key=lambda answer: answer.quality)


def _hard(answered: tuple[Answered, ...]) -> Iterator[Block]:
    """The cards that were not known, each with its line."""
    if hard := _not_known(answered):
        rows = tuple((_WHAT[answer.quality], _line(answer.prompt.card)) for answer in hard)
        yield Rows(rows, "What was hard")


_WHAT = {0: "shown", 1: "missed", 2: "missed", 3: "hint"}


def _line(card: Card) -> str:
    """The line with the deck's move, which has its number where it begins or follows White."""
    if not card.line:
        return numbered(card.board, card.move.san)
    move = numbered(card.board, card.move.san) if card.board.turn else card.move.san
    return f"{card.line} {move}"


def _tomorrow(report: Today) -> str:
    tomorrow = report.days_ahead[1].due
    if tomorrow:
        minutes = about_minutes(tomorrow * SEEN_SECONDS)
        return f"Tomorrow: {counted(tomorrow, 'position')} due, {minutes}."
    ahead = next((day for day in report.days_ahead[2:] if day.due), None)
    if ahead is None:
        return "Nothing falls due in the next two weeks."
    return f"Next: {counted(ahead.due, 'position')} due on {short_day(ahead.date)}."


def _next_step(report: Today, hard: bool) -> str:
    """The one sensible thing to do now."""
    if report.to_practise:
        left = counted(report.to_practise, "position")
        return f"{left} of today left: Today goes on with them."
    if hard:
        return "All done for today. Lines shows the hardest one in its place."
    return "All done for today, and all of it known."
