"""`trainer deck check`: what is wrong or doubtful in a deck, where, and what to do."""

from __future__ import annotations

import signal
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.deck_against import account_against, against_option, as_data, told
from trainer.cli.options import chosen_home, home_option, json_option
from trainer.cli.output import say, write_json
from trainer.service.words import counted

if TYPE_CHECKING:
    from trainer.deck.findings import Finding
    from trainer.service.decks.check import DeckChecked
    from trainer.service.decks.engine_check import Progress

NODES = 200_000
"""About half a second a search on one core."""

ALIKE = 25
"""Of notes with one code so many are listed in text; JSON has all."""


@click.command()
@click.argument("path", type=click.Path(path_type=Path))
@click.option(
    "--side",
    type=click.Choice(["white", "black"]),
    help="Whose moves are asked; for a PGN file, and needed for one.",
)
@click.option(
    "--games",
    type=click.Path(path_type=Path),
    multiple=True,
    metavar="FILE",
    help="Say which replies in these played games have no answer; may be repeated.",
)
@click.option(
    "--engine",
    metavar="PATH",
    help="Let this UCI engine look at every move; its answers are kept for the next time.",
)
@click.option(
    "--nodes",
    type=click.IntRange(1, 10**10),
    default=NODES,
    show_default=True,
    help="How far the engine searches in each position.",
)
@against_option
@json_option
@home_option
def check(
    path: Path,
    side: str | None,
    games: tuple[Path, ...],
    engine: str | None,
    nodes: int,
    against: str | None,
    as_json: bool,
) -> None:
    """Check a deck: what is wrong, what is doubtful, and what a coach may want to know.

    Each finding names file and line and says what to do. Only errors keep a deck from being
    added; with one the exit code is 1.

    \b
    Example:
      trainer deck check decks/vienna
      trainer deck check decks/vienna --against vienna
      trainer deck check decks/vienna --games club.pgn --engine stockfish
    """
    from trainer.service.decks.check import check_deck
    from trainer.service.home import find_home

    home = find_home(chosen_home())
    if engine is None:
        checked = check_deck(home, path, side, games)
    else:
        from trainer.service.decks.engine_check import EngineWish

        with _leaving_in_order(), _progress() as progress:
            wish = EngineWish(engine, nodes, progress)
            checked = check_deck(home, path, side, games, wish)
    if any(finding.code == "missing-side" for finding in checked.findings):
        raise click.UsageError(
            "A PGN file does not say whose moves are asked: add --side white or --side black."
        )
    account = None
    if against is not None and not checked.errors:
        account = account_against(path, side, against)
    if as_json:
        more = {"against": as_data(account)} if account else {}
        write_json(_document(checked, nodes) | more)
    else:
        say(*tell_findings(checked.findings), *_summary(path, checked, nodes))
        say(*(told(account) if account else ()))
    if checked.errors:
        click.get_current_context().exit(1)


@contextmanager
def _leaving_in_order() -> Iterator[None]:
    """What ends the program from outside lets it end its engine first, as Ctrl+C does."""
    ended: list[int] = []

    def end(number: int, _frame: object) -> None:
        ended.append(number)
        signal.raise_signal(signal.SIGINT)

    names = ("SIGTERM", "SIGHUP")
    signals = [getattr(signal, name) for name in names if hasattr(signal, name)]
    before = {number: signal.signal(number, end) for number in signals}
    try:
        yield
    except KeyboardInterrupt:
        if ended:
            sys.exit(128 + ended[0])
        raise
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


@contextmanager
def _progress() -> Iterator[Progress]:
    """A bar on standard error while the engine works; only a terminal shows it."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield lambda _done, _total: None
        return
    bar: Any = None

    def step(done: int, total: int) -> None:
        nonlocal bar
        if bar is None:
            bar = click.progressbar(length=total, label="The engine looks", file=sys.stderr)
            bar.__enter__()
        bar.update(done - bar.pos)

    try:
        yield step
    finally:
        if bar is not None:
            bar.__exit__(None, None, None)


def tell_findings(findings: Iterable[Finding]) -> Iterator[str]:
    """A line each: where, how much it matters, what to do, and the code."""
    listed: Counter[str] = Counter()
    for finding in findings:
        if finding.severity.value == "note":
            listed[finding.code] += 1
        if listed[finding.code] <= ALIKE:
            yield (
                f"{_place(finding)}: {finding.severity.value}: {finding.message} ({finding.code})"
            )
    for code, count in listed.items():
        if count > ALIKE:
            yield f"{count - ALIKE} more notes of this kind ({code}); --json lists all."


def _place(finding: Finding) -> str:
    if finding.line is not None:
        return f"{finding.file}:{finding.line}"
    return finding.file if finding.game is None else f"{finding.file}, game {finding.game}"


def _summary(path: Path, checked: DeckChecked, nodes: int) -> Iterator[str]:
    counts = (
        f"{counted(checked.errors, 'error')}, {counted(checked.warnings, 'warning')}, "
        f"{counted(checked.notes, 'note')}"
    )
    if checked.reasons is None:
        yield f"{path}: {counts}. What needs a readable deck is checked once the errors are gone."
        return
    yield f"{checked.title} ({checked.deck}), edition {checked.edition}: {counts}."
    if cards := checked.reasons.cards:
        given = checked.reasons.given
        yield f"{given} of {counted(cards, 'card')} say why ({100 * given // cards} %)."
    if followed := checked.games:
        unread = f", {followed.unreadable} of them not to be read to the end"
        told = unread if followed.unreadable else ""
        yield f"{counted(followed.games, 'played game')} looked at{told}."
    if engine := checked.engine:
        yield (
            f"{engine.engine} looked at {counted(engine.positions, 'position')} with {nodes} nodes "
            f"a search; {counted(engine.searches, 'answer')} not known before."
        )


def _document(checked: DeckChecked, nodes: int) -> dict[str, Any]:
    reasons, games, engine = checked.reasons, checked.games, checked.engine
    document: dict[str, Any] = {
        "deck": checked.deck or None,
        "edition": checked.edition or None,
        "findings": [asdict(finding) for finding in checked.findings],
        "errors": checked.errors,
        "warnings": checked.warnings,
        "notes": checked.notes,
        "cards": reasons and reasons.cards,
        "with_reason": reasons and reasons.given,
    }
    if games:
        document["games"] = {"games": games.games, "unreadable": games.unreadable}
    if engine:
        document["engine"] = {
            "name": engine.engine,
            "nodes": nodes,
            "positions": engine.positions,
            "searches": engine.searches,
        }
    return document
