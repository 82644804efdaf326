"""A deck made ready for practice: its lines joined, its tactics and games laid out in turns.

What only the whole deck shows is found here, as far as it keeps a deck out or makes it
doubtful; what a coach may want to know besides is the check's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from trainer.deck.deck import Chapter, Deck, Kind
from trainer.deck.findings import Finding, Severity
from trainer.deck.limits import DEFENCE_PLIES, FINDINGS, PLAYED_PLIES, TURNS
from trainer.lines.graph import LineGraph
from trainer.lines.graph_builder import Contradiction, build_graph
from trainer.lines.played_out import PlayedOut, model_game_of, tactic_of
from trainer.lines.tree import GameTree, MoveNode


@dataclass(frozen=True)
class CompiledDeck:
    """A deck, ready for practice where no finding is an error."""

    graphs: Mapping[str, LineGraph]
    """The lines by side, that of the first chapter's side first; none without lines."""
    played: Mapping[str, tuple[PlayedOut, ...]]
    """Tactics and model games by the id of their chapter."""
    findings: tuple[Finding, ...]


def compile_deck(deck: Deck) -> CompiledDeck:
    """Everything that the deck's chapters make together."""
    graphs: dict[str, LineGraph] = {}
    findings: list[Finding] = []
    lines = [chapter for chapter in deck.chapters if chapter.kind is Kind.LINES]
    files = {chapter.id: chapter.file for chapter in lines}
    for side in dict.fromkeys(chapter.side for chapter in lines):
        games = ((c.id, game) for c in lines if c.side == side for game in c.games)
        built = build_graph(side, games)
        graphs[side] = built.graph
        findings += [_contradiction(found, files) for found in built.contradictions]
    played = {}
    room = _Room()
    for chapter in deck.chapters:
        if chapter.kind in (Kind.TACTICS, Kind.GAMES):
            found, more = _played_out(chapter, room)
            played[chapter.id] = found
            findings += more
    findings += _shared_ideas(deck)
    return CompiledDeck(graphs, played, tuple(_listed(findings)))


def _listed(findings: list[Finding]) -> list[Finding]:
    """As many as anybody reads; an error is never among those left out alone."""
    if len(findings) <= FINDINGS:
        return findings
    by_weight = sorted(findings, key=lambda found: found.severity is not Severity.ERROR)
    message = f"{len(findings) - FINDINGS} more of this kind are not listed; mend these first"
    last = Finding(
        "too-many-findings", Severity.WARNING, findings[0].file, None, None, None, message
    )
    return [*by_weight[:FINDINGS], last]


def _contradiction(found: Contradiction, files: Mapping[str, str]) -> Finding:
    return Finding(
        code=found.code,
        severity=Severity.WARNING if found.code == "moves-disagree" else Severity.ERROR,
        file=files[found.chapter],
        game=found.game,
        line=found.line,
        column=found.column,
        message=found.message,
    )


@dataclass(slots=True)
class _Room:
    """How many moves of defences the deck's tactics may still have."""

    plies: int = DEFENCE_PLIES


def _played_out(chapter: Chapter, room: _Room) -> tuple[tuple[PlayedOut, ...], list[Finding]]:
    """The tactics or games of a chapter; each is there once."""
    found: dict[str, PlayedOut] = {}
    findings = []
    for tree in chapter.games:
        if message := _too_long(tree, chapter.kind, room):
            findings.append(_about(chapter, tree, Severity.ERROR, "too-large", message))
            continue
        make = tactic_of if chapter.kind is Kind.TACTICS else model_game_of
        played = make(tree, chapter.side)
        if not played.turns:
            message = _NO_TURNS[chapter.kind].format(side=played.side.title())
            findings.append(_about(chapter, tree, Severity.ERROR, "nothing-asked", message))
        elif len(played.turns) > TURNS:
            message = f"more than {TURNS} moves are asked in this game; shorten it"
            findings.append(_about(chapter, tree, Severity.ERROR, "too-large", message))
        elif played.key in found:
            message = "an earlier game of this file has the same start and moves; remove one"
            findings.append(_about(chapter, tree, Severity.WARNING, "repeated-game", message))
        else:
            found[played.key] = played
            findings += _marked_first(chapter, tree, played)
    return tuple(found.values()), findings


def _shared_ideas(deck: Deck) -> Iterator[Finding]:
    """Ideas of two chapters that would be one card; within a file the reader finds them."""
    seen: dict[str, str] = {}
    for chapter in deck.chapters:
        for idea in chapter.ideas:
            first = seen.setdefault(idea.key, chapter.id)
            if first != chapter.id:
                message = f"an idea of the chapter {first} has this id, or asks the same; "
                message += "give this one an id of its own"
                place = (chapter.file, idea.place, idea.file_line, None)
                yield Finding("duplicate-idea", Severity.ERROR, *place, message)


_NO_TURNS = {
    Kind.TACTICS: "the solution has no move of {side}, the solver; add one",
    Kind.GAMES: "the game has no move of {side}, who is to guess; add one, or name the other side",
}


def _too_long(tree: GameTree, kind: Kind, room: _Room) -> str:
    """Why a game is not laid out in turns; said before anything costly is made of it."""
    longest = 0
    defences = 0
    waiting: list[tuple[Sequence[MoveNode], int]] = [(tree.children, 1)]
    while waiting:
        moves, depth = waiting.pop()
        longest = max(longest, depth - 1)
        defences += max(0, len(moves) - 1)
        waiting.extend((move.children, depth + 1) for move in moves)
    if longest > PLAYED_PLIES:
        return f"the game has more than {PLAYED_PLIES} moves in a row; shorten it"
    if kind is Kind.TACTICS:
        cost = longest * (defences + 1)
        if cost > room.plies:
            return (
                f"its variations have {cost} moves, and all tactics of a deck together no more "
                f"than {DEFENCE_PLIES}; shorten it"
            )
        room.plies -= cost
    return ""


def _marked_first(chapter: Chapter, tree: GameTree, played: PlayedOut) -> Iterator[Finding]:
    """Moves that a solution asks for although they are marked as mistakes."""
    if chapter.kind is not Kind.TACTICS:
        return
    for turn in played.turns:
        step = played.defences[turn.defence].moves[turn.ply]
        if step.move.error:
            marked = "marked as a mistake or an aside; unmark it"
            message = f"{step.move.san} is asked for here but is {marked}"
            yield _about(chapter, tree, Severity.ERROR, "mistake-first", message)


def _about(
    chapter: Chapter, tree: GameTree, severity: Severity, code: str, message: str
) -> Finding:
    return Finding(code, severity, chapter.file, tree.number, tree.line, None, message)
