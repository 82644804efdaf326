"""Which of the student's own keys can be taken. Textual takes all of them, silently.

Keys that steps share by default are shared on purpose: those steps never wait at the same
moment. What is looked for are clashes that a remapping brings in. Pure: it knows steps by
their ids and keys by their names, and no screen.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import chain

from trainer.app.key_names import is_typed, key_name, read_key

Keys = tuple[str, ...]
"""The keys of one step, any of which takes it."""


@dataclass(frozen=True, slots=True)
class Step:
    """Something that a key does."""

    id: str
    """Of its binding."""
    keys: Keys
    """Those it has by default."""
    does: str
    """A word or two."""
    about: str = ""
    """A sentence."""


@dataclass(frozen=True, slots=True)
class Scope:
    """Steps that can wait for a key at the same time."""

    screen: str
    steps: tuple[Step, ...]
    typing: bool = False
    """Whether moves are typed meanwhile."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A remapping that is not taken."""

    id: str
    reason: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """The remappings that hold, and those that do not."""

    taken: Mapping[str, Keys]
    refused: tuple[Refused, ...] = ()


def sort_out(wanted: Mapping[str, str], scopes: Sequence[Scope]) -> Outcome:
    """Take what can be taken together; of two that clash the later one goes.

    :param wanted: id to `key` or `key,key`.
    """
    known = {step.id: step for scope in scopes for step in scope.steps}
    taken: dict[str, Keys] = {}
    refused: list[Refused] = []
    for name, text in wanted.items():
        keys = [read_key(key) for key in text.split(",")]
        if name not in known:
            refused.append(Refused(name, f"there is no such step{_near(name, known)}"))
        elif None in keys:
            refused.append(
                Refused(name, f'{text[:40]!r} is no key; write "ctrl+t" or "f7,pagedown"')
            )
        else:
            taken[name] = tuple(dict.fromkeys(key for key in keys if key))
    while clash := next(_clashes(taken, scopes), None):
        del taken[clash.id]
        refused.append(clash)
    order = list(wanted)
    return Outcome(taken, tuple(sorted(refused, key=lambda it: order.index(it.id))))


def in_force(taken: Mapping[str, Keys], scopes: Iterable[Scope]) -> dict[str, str]:
    """The keys of every step, as Textual wants them.

    Every step, because a keymap that names one takes its old key from all others that have
    it, too.
    """
    steps = chain.from_iterable(scope.steps for scope in scopes)
    return {step.id: ",".join(taken.get(step.id, step.keys)) for step in steps}


def _clashes(taken: Mapping[str, Keys], scopes: Sequence[Scope]) -> Iterator[Refused]:
    """The clashes, beginning with what was wanted last."""
    for name in reversed(list(taken)):
        for scope in scopes:
            mine = next((step for step in scope.steps if step.id == name), None)
            if mine is not None and (reason := _reason(mine, scope, taken)):
                yield Refused(name, reason)


def _reason(mine: Step, scope: Scope, taken: Mapping[str, Keys]) -> str:
    """Why a step cannot have its new keys in a scope; empty where it can."""
    keys = taken[mine.id]
    if scope.typing:
        typed = next((key for key in keys if is_typed(key) and key not in mine.keys), None)
        if typed:
            return f"{typed if len(typed) == 1 else key_name(typed)} is needed to type moves"
    for other in scope.steps:
        if other.id == mine.id or set(other.keys) & set(mine.keys):
            continue
        if shared := [key for key in keys if key in taken.get(other.id, other.keys)]:
            return f"{key_name(shared[0])} is {other.does} ({other.id}) on {scope.screen}"
    return ""


def _near(name: str, known: Mapping[str, Step]) -> str:
    near = get_close_matches(name[:60], known, n=1)
    return f" (did you mean {near[0]}?)" if near else ""
