"""The end of a sitting: what was asked, what was hard, what tomorrow brings, what is next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from trainer.app.telling.blocks import Block, Paragraph, Rows
from trainer.app.telling.games import players
from trainer.app.telling.moment import Moment, Stage, Tone
from trainer.app.widgets.board import BoardView
from trainer.lines.movetext import number_before, numbered
from trainer.memory.sm2 import PASSED, REPEATED_BELOW
from trainer.service.today import SEEN_SECONDS, Today
from trainer.service.words import about_minutes, counted, short_day, stopwatch
from trainer.sitting.cards import GuessCard, IdeaCard, MoveCard, TurnCard
from trainer.sitting.events import Ended
from trainer.sitting.sitting import Answered, Prompt, Sitting


def summary(before: Moment, ended: Ended, sitting: Sitting, report: Today) -> Moment:
    """The last moment of a sitting."""
    step = _next_step(report, sitting.answered)
    ahead = Paragraph(f"{step} {_tomorrow(report)}")
    return replace(
        before,
        stage=Stage(_bare(before.stage.view)),
        sign="●" if ended.asked or ended.guesses else "○",
        tone=Tone.GOOD if ended.asked or ended.guesses else Tone.PLAIN,
        headline=_headline(ended, sitting),
        brief="",
        page=(*_numbers(sitting), *_games(ended, sitting), ahead, *_hard(sitting.answered)),
        asks=False,
        missed=(),
    )


def _headline(ended: Ended, sitting: Sitting) -> str:
    told = ((ended.asked, "answered"), (ended.guesses, "guessed"))
    if not (said := ", ".join(f"{count} {what}" for count, what in told if count)):
        return "Nothing was answered"
    word = "Stopped" if sitting.left else "Done"
    return f"{word}: {said} in {stopwatch(ended.seconds)}"


def _bare(view: BoardView) -> BoardView:
    return replace(view, squares=(), arrows=(), chosen=frozenset(), wrong=frozenset())


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


def _games(ended: Ended, sitting: Sitting) -> Iterator[Block]:
    """The guesses at model games, and where one goes on that was left."""
    if ended.guesses:
        yield Paragraph(f"{ended.guesses_right} of {counted(ended.guesses, 'move')} found.")
    for prompt in sitting.interrupted:
        if isinstance(prompt.card, GuessCard) and prompt.score[1]:
            game = players(prompt.card.played) or prompt.card.chapter_title
            move = number_before(prompt.card.board)
            yield Paragraph(f"{game} goes on at move {move.rstrip('.')} next time.")


def hardest_in_lines(sitting: Sitting) -> MoveCard | None:
    """The move of lines that was known worst, else the last that was asked, if any was."""
    hard = [answer.prompt.card for answer in _not_known(sitting.answered)]
    asked = [answer.prompt.card for answer in reversed(sitting.answered)]
    asked += [prompt.card for prompt in sitting.interrupted]
    return next((card for card in (*hard, *asked) if isinstance(card, MoveCard)), None)


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
        rows = tuple((_WHAT[answer.quality], _named(answer.prompt)) for answer in hard)
        yield Rows(rows, "What was hard")


_WHAT = {0: "shown", 1: "missed", 2: "missed", 3: "hint"}


def _named(prompt: Prompt) -> str:
    """A card with its answer: the line and its move, the question, the tactic's solution."""
    card = prompt.card
    if isinstance(card, IdeaCard):
        return f"{' '.join(card.idea.ask.split())} {prompt.answer}"
    if isinstance(card, TurnCard):
        title = f"{card.played.title}: " if card.played.title else ""
        return f"{title}{card.played.movetext(0, 0)}"
    if not isinstance(card, MoveCard):
        return prompt.answer
    return _line(card)


def _line(card: MoveCard) -> str:
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


def _next_step(report: Today, answered: tuple[Answered, ...]) -> str:
    """The one sensible thing to do now."""
    if report.to_practise:
        left = counted(report.to_practise, "position")
        return f"{left} of today left: Today goes on with them."
    hard = _not_known(answered)
    if any(isinstance(answer.prompt.card, MoveCard) for answer in hard):
        return "All done for today. Lines shows the hardest one in its place."
    if hard or not answered:
        return "All done for today."
    return "All done for today, and all of it known."
