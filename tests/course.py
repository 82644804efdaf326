"""A small deck of all four kinds, for tests above the reader. All of it is invented."""

from __future__ import annotations

from pathlib import Path

TOML = """\
id = "course"
title = "A small course"
edition = {edition}
author = "Nobody"
language = "en"
licence = "GPL-3.0-or-later"
about = "For tests."

[[chapter]]
id = "first"
file = "first.pgn"
title = "First moves"
kind = "lines"
side = "white"

[[chapter]]
id = "tricks"
file = "tricks.pgn"
title = "Tricks"
kind = "tactics"

[[chapter]]
id = "games"
file = "games.pgn"
title = "Club games"
kind = "games"
side = "white"

[[chapter]]
id = "ideas"
file = "ideas.toml"
title = "Ideas"
kind = "ideas"
"""

LINES = """\
[Event "The gambit"]
[Result "*"]

1. e4 {Takes the centre.} e5 2. Nc3 {Guards e4.} *
"""

FORK_FEN = "r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1"

TRICKS = f"""\
[Event "King and rook"]
[SetUp "1"]
[FEN "{FORK_FEN}"]
[Result "*"]

{{Both stand within the knight's reach.}} 1. Nc7+ {{A fork. [%theme fork]}}
(1. Nf6+? {{A check and no more.}} Ke7)
(1. Nb6 {{It hits the rook as well.}})
1... Kd7 {{Towards the knight.}}
(1... Kd8 2. Nxa8 {{In the corner, but safe.}} Kc8 3. Nb6+ {{Out again.}})
(1... Kf7 2. Nxa8 {{Far from the king.}})
2. Nxa8 {{A whole rook.}} *
"""

GAMES = """\
[Event "Club evening (invented)"]
[White "Asha Penrose"]
[Black "Otto Brandreth"]
[Date "2026.05.02"]
[Result "1-0"]

{Watch f7.} 1. e4 e5 2. Bc4 {Looks at f7.} Nc6 3. Qh5 {Threatens mate.}
(3. Nf3 {Sounder.} 3... Nf6) 3... Nf6?? {Sees the queen, not the mate.} 4. Qxf7# {Mate.} 1-0
"""

IDEAS = """\
[[idea]]
id = "weak-square"
after = "1. e4 e5"
ask = "Which square beside its king does nothing but the king guard?"
squares = ["f7"]
why = "Every other square there has a second guard."

[[idea]]
id = "hit-e5"
after = "1. e4 e5"
ask = "With which knight move does White attack e5?"
move = "Nf3"
why = "From f3 the knight sees e5."

[[idea]]
id = "offer"
after = "1. e4 e5 2. f4"
ask = "What does White offer?"
choose = ["a pawn", "a knight", "the queen"]
why = "Black can take on f4."
"""


def write_course(folder: Path, *, edition: int = 1, **files: str) -> Path:
    """Write the deck; `files` are texts in place of `first`, `tricks`, `games` or `ideas`."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "deck.toml").write_text(TOML.format(edition=edition), encoding="utf-8")
    texts = {"first": LINES, "tricks": TRICKS, "games": GAMES, "ideas": IDEAS, **files}
    for name, text in texts.items():
        suffix = "toml" if name == "ideas" else "pgn"
        (folder / f"{name}.{suffix}").write_text(text, encoding="utf-8")
    return folder
