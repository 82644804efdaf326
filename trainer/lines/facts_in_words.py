"""Position facts told in sentences: first what differs, then what both sides share.

Short enough for a narrow column and for reading aloud. Nothing here computes a fact, and
nothing says who stands better.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict

from trainer.lines.facts import PositionFacts, SideFacts
from trainer.lines.in_words import listed

_MORE = (
    ("material", "point", "has {} more material"),
    ("space", "square", "has {} more space"),
    ("developed", "piece", "is {} ahead in development"),
)
_MAY_CASTLE = {
    "": "may no longer castle",
    "O-O": "may still castle kingside",
    "O-O-O": "may still castle queenside",
    "O-O, O-O-O": "may still castle on either side",
}
_PAWNS = {"doubled": "a doubled", "isolated": "an isolated", "passed": "a passed"}
_SMALL = {1: "one", 2: "two", 3: "three", 4: "four"}
_OFTEN = {1: "once", 2: "twice"}


def tell_facts(facts: PositionFacts) -> list[str]:
    """The facts as sentences, one idea each."""
    return [*_differences(facts), *_shared(facts)]


def _differences(facts: PositionFacts) -> Iterator[str]:
    sides = (("White", facts.white), ("Black", facts.black))
    yield from _more(facts)
    if facts.white.bishop_pair != facts.black.bishop_pair:
        yield f"{'White' if facts.white.bishop_pair else 'Black'} has the bishop pair."
    if facts.white.castling != facts.black.castling:
        yield from (f"{name} {_MAY_CASTLE[side.castling]}." for name, side in sides)
    for name, side in sides:
        yield from _pawns(name, side)
    for name, side in sides:
        if side.half_open_files:
            yield f"{_the_files(side.half_open_files)} half-open for {name}."
    for name, side in sides:
        yield from _in_trouble(name, side)
    yield from _centre_unlike(facts)


def _shared(facts: PositionFacts) -> Iterator[str]:
    white, black = facts.white, facts.black
    if white.material == black.material:
        yield "Material is even."
    if white.space == black.space:
        yield "Space is even."
    if white.developed == black.developed:
        yield "Development is even."
    if white.bishop_pair and black.bishop_pair:
        yield "Both have the bishop pair."
    if white.castling == black.castling:
        may = f"Both {_MAY_CASTLE[white.castling]}"
        yield f"{may if white.castling else 'Neither may castle any more'}."
    if absent := [kind for kind in _PAWNS if not getattr(white, kind) + getattr(black, kind)]:
        yield f"No pawn is {listed(absent, 'or')}."
    yield f"{_the_files(white.open_files)} open." if white.open_files else "No file is open."
    yield from _out_of_trouble(facts)
    yield from _centre_alike(facts)


def _more(facts: PositionFacts) -> Iterator[str]:
    """Material, space and development, where one side has more of it."""
    for fact, noun, wording in _MORE:
        white, black = getattr(facts.white, fact), getattr(facts.black, fact)
        if white != black:
            more = wording.format(_counted(abs(white - black), noun))
            yield f"{_leader(white, black)} {more}, {_score(white, black)}."


def _leader(white: int, black: int) -> str:
    return "White" if white > black else "Black"


def _score(white: int, black: int) -> str:
    """`4 to 2`: the side with more first."""
    return f"{max(white, black)} to {min(white, black)}"


def _counted(count: int, noun: str) -> str:
    """`one piece`, `8 squares`."""
    return f"{_SMALL.get(count, count)} {noun}{'' if count == 1 else 's'}"


def _pawns(name: str, side: SideFacts) -> Iterator[str]:
    for kind, one in _PAWNS.items():
        if squares := getattr(side, kind):
            pawns = f"{kind} pawns" if len(squares) > 1 else f"{one} pawn"
            yield f"{name} has {pawns} on {_all(squares)}."


def _the_files(files: Sequence[str]) -> str:
    """`The b-file is`, `The files b and c are`."""
    return f"The {files[0]}-file is" if len(files) == 1 else f"The files {_all(files)} are"


def _in_trouble(name: str, side: SideFacts) -> Iterator[str]:
    """What is pinned, what hangs, and who is in check."""
    if side.pinned:
        are = "is" if len(side.pinned) == 1 else "are"
        yield f"{name}'s {_all(side.pinned)} {are} pinned to the king."
    if side.hanging:
        hang = "hangs" if len(side.hanging) == 1 else "hang"
        yield f"{name}'s {_all(side.hanging)} {hang}: attacked and not defended."
    if side.checks:
        check = "check" if len(side.checks) == 1 else "double check"
        yield f"{name} is in {check} from {_all(side.checks)}."


def _out_of_trouble(facts: PositionFacts) -> Iterator[str]:
    pinned = facts.white.pinned + facts.black.pinned
    hanging = facts.white.hanging + facts.black.hanging
    if not pinned and not hanging:
        yield "Nothing is pinned and nothing hangs."
    elif not pinned:
        yield "Nothing is pinned."
    elif not hanging:
        yield "Nothing hangs."


def _centre_unlike(facts: PositionFacts) -> Iterator[str]:
    for (white, black), squares in _centre(facts).items():
        if white != black:
            more = f"{_leader(white, black)} covers {_all(squares)} more often"
            yield f"{more}, {_score(white, black)}."


def _centre_alike(facts: PositionFacts) -> Iterator[str]:
    for (white, black), squares in _centre(facts).items():
        if white == black == 0:
            yield f"Neither covers {listed(squares, 'or')}."
        elif white == black:
            yield f"Both cover {_all(squares)} {_OFTEN.get(white, f'{white} times')}."


def _centre(facts: PositionFacts) -> dict[tuple[int, int], list[str]]:
    """The central squares by how often White and Black cover them."""
    white, black = asdict(facts.white.centre), asdict(facts.black.centre)
    found: dict[tuple[int, int], list[str]] = {}
    for square in white:
        found.setdefault((white[square], black[square]), []).append(square)
    return found


def _all(names: Sequence[str]) -> str:
    return listed(list(names), "and")
