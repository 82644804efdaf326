"""A deck with a chapter of each kind, and sittings of one of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from tests.app.shelf import AT_ONCE
from trainer.app.telling.teller import Teller
from trainer.service.decks.shelving import add_deck
from trainer.service.first_minute import note_introduced
from trainer.service.practice import Practice
from trainer.service.preparation import Wish, prepare_practice
from trainer.service.study import Study, open_study

LINES = '[Event "Lines"]\n\n1. e4 {Centre.} e5 2. Nf3 {Hits e5.} *\n'

TACTICS = """
[Event "Back row"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1"]

{The king has no air.} 1. Ra8# {Mate.} *

[Event "Two on one"]
[SetUp "1"]
[FEN "r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1"]

1. Nc7+ {A fork. [%theme fork]} (1. Nf6+? {Only a check.} Ke7) (1. Kd2 {Slow, but fine.})
1... Kd7 {Nearer.} (1... Kd8 2. Nxa8 {In the corner.} Kc8 3. Nb6+) (1... Kf7 2. Nxa8 {Won.})
2. Nxa8 {A rook.} Kc6 *
"""
"""The first is one move; the second has three defences: of 2, 3 and 2 moves asked, with the
first move asked once. An alternative and a known mistake stand beside the first move."""

GAMES = """
[Event "Club (invented)"]
[White "Asha Penrose"]
[Black "Otto Brandreth"]
[Date "2026.03.01"]
[Result "1-0"]

{Watch f7.} 1. e4 e5 2. Bc4 {Looking at f7.} Nc6 3. Qh5 {A threat.}
(3. Nf3 {Better.} Nf6) Nf6?? {Overlooks it.} 4. Qxf7# {Mate.} 1-0

[Event "Blitz (invented)"]
[White "Asha Penrose"]
[Black "Ilse Marlow"]
[Result "0-1"]

1. f4 e5 2. g4 Qh4# 0-1
"""
"""Four moves of White in one, two in the other."""

IDEAS = """
[[idea]]
id = "weak"
after = "1. e4 e5"
ask = "Which squares near Black's king does only the king guard?"
squares = ["f7", "d8"]
why = "No other piece looks there."
[[idea]]
id = "hit"
after = "1. e4 e5"
ask = "How does White attack e5 at once?"
move = "Nf3"
why = "The knight hits e5."
[[idea]]
id = "gift"
fen = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2"
ask = "What does 2. f4 offer?"
choose = ["a pawn", "a knight", "the queen"]
why = "The f-pawn."
"""

CHAPTERS = {"lines": LINES, "tactics": TACTICS, "games": GAMES, "ideas": IDEAS}


def write_kinds(
    folder: Path,
    chapters: Mapping[str, str] = CHAPTERS,
    *,
    deck: str = "kinds",
    title: str = "All kinds",
    more: Mapping[str, str] | None = None,
) -> Path:
    """A deck with a chapter a kind, whose id is the kind and whose title its first letter big.

    :param more: further lines of a chapter's table.
    """
    place = folder / deck
    place.mkdir(parents=True)
    text = f"id = '{deck}'\ntitle = '{title}'\nedition = 1\n"
    for kind, content in chapters.items():
        file = f"{kind}.{'toml' if kind == 'ideas' else 'pgn'}"
        side = "" if kind in ("ideas", "tactics") else "side = 'white'\n"
        text += f"\n[[chapter]]\nid = '{kind}'\nfile = '{file}'\ntitle = '{kind.title()}'\n"
        text += f"kind = '{kind}'\n{side}{(more or {}).get(kind, '')}\n"
        (place / file).write_text(content, encoding="utf-8")
    (place / "deck.toml").write_text(text, encoding="utf-8")
    return place


@contextmanager
def kinds_study(
    folder: Path,
    chapters: Mapping[str, str] = CHAPTERS,
    *,
    title: str = "All kinds",
    more: Mapping[str, str] | None = None,
) -> Iterator[Study]:
    """A study with such a deck, in which fresh cards are asked at once."""
    home = folder / "home"
    home.mkdir(parents=True)
    (home / "settings.toml").write_text(AT_ONCE, encoding="utf-8")
    with open_study(home) as study:
        note_introduced(study)
        add_deck(study, write_kinds(folder / "decks", chapters, title=title, more=more))
        yield study


def practice_of(study: Study, chapter: str) -> Practice:
    """A sitting of one chapter; answers to choose from stand in the order of the alphabet."""
    practice = prepare_practice(study, Wish(deck="kinds", chapter=chapter))
    ahead = []
    for prompt in practice.sitting.ahead:
        choices = getattr(getattr(prompt.card, "idea", None), "choices", ())
        order = sorted(range(len(choices)), key=lambda place: choices[place])
        ahead.append(replace(prompt, order=tuple(order)))
    practice.sitting = replace(practice.sitting, ahead=tuple(ahead))
    return practice


def teller_of(study: Study, chapter: str) -> Teller:
    """The same, told, at its first prompt."""
    told = Teller(study, practice_of(study, chapter), lambda: 0.0)
    told.begin()
    return told
