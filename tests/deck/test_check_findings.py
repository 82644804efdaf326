"""Each thing that a check finds: a deck that causes it, and the sound one that does not."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.deck.check_decks import LINES, SOUND, TACTICS, Place, changed, found_in, place
from tests.small_decks import write_deck
from trainer.deck.check.chapters import waits_for_nothing
from trainer.deck.compiled import compile_deck
from trainer.deck.reader import read_deck

QUIET_KNIGHT = """
[Event "By another way"]
[Result "*"]

1. e4 Nc6
2. Nf3 {Develops.}
2... d6
3. g3 {Prepares Bg2.} *
"""

OTHER_KNIGHT = """
[Event "Another move"]
[Result "*"]

1. e4 e5
2. Nc3 {Guards e4.} *
"""


def test_the_sound_deck_has_no_finding(tmp_path: Path) -> None:
    assert found_in(tmp_path / "deck", SOUND) == []


# Worked by hand; the severities are those of the design's list of findings.
CASES: dict[str, tuple[dict[str, str], Place]] = {
    "an illegal move": (
        changed("lines.pgn", ("3. Bb5", "3. Bb6")),
        ("illegal-move", "error", "lines.pgn", 1, 8),
    ),
    "a mistake as the first move": (
        changed("lines.pgn", ("3. Bb5 {Presses the knight.}", "3. Bb5? d6")),
        ("mistake-first", "error", "lines.pgn", 1, 8),
    ),
    "a move that is mistake and book": (
        changed("lines.pgn", ("(2. Qh5?", "(2. Qh5? $1")),
        ("mistake-and-book", "error", "lines.pgn", 1, 6),
    ),
    "an idea with an illegal move": (
        changed("ideas.toml", ('move = "Nf3"', 'move = "Nf4"')),
        ("idea-contradicted", "error", "ideas.toml", 2, 12),
    ),
    "an idea that the lines contradict": (
        changed("ideas.toml", ('move = "Nf3"', 'move = "Qh5"')),
        ("idea-against-lines", "warning", "ideas.toml", 2, 8),
    ),
    "a chapter that waits for itself": (
        changed("deck.toml", ('after = "lines"', 'after = "ideas"')),
        ("never-opens", "error", "deck.toml", None, 26),
    ),
    "a solution without a move of the solver": (
        {
            **changed("deck.toml", ('kind = "tactics"', 'kind = "tactics"\nside = "black"')),
            "tactics.pgn": TACTICS.split("\n\n")[0] + "\n\n1. Qd8+ *\n",
        },
        ("nothing-asked", "error", "tactics.pgn", 1, 1),
    ),
    "a model game without a move of its side": (
        changed("games.pgn", ("1. f3 e5 2. g4 Qh4#", "1. f3")),
        ("nothing-asked", "error", "games.pgn", 1, 1),
    ),
    "games that disagree": (
        changed("lines.pgn", (LINES, LINES + OTHER_KNIGHT)),
        ("moves-disagree", "warning", "lines.pgn", 2, 14),
    ),
    "a mistake without a refutation": (
        changed("lines.pgn", (" Nc6 3. Bc4 g6)", ")")),
        ("mistake-without-refutation", "warning", "lines.pgn", 1, 6),
    ),
    "a solver's mistake without a refutation": (
        changed("tactics.pgn", ("(1. Qd7? Ne7)", "(1. Qd7? {Too slow.})")),
        ("mistake-without-refutation", "warning", "tactics.pgn", 1, 6),
    ),
    "a defence without an answer": (
        changed("tactics.pgn", (" 2. Rxd8+)", ")")),
        ("defence-without-answer", "warning", "tactics.pgn", 1, 8),
    ),
    "a misspelt command": (
        changed("lines.pgn", ("{Hits e5.}", "{Hits e5. [%cls Re5]}")),
        ("misspelt-command", "warning", "lines.pgn", 1, 5),
    ),
    "an unknown key": (
        changed("deck.toml", ("edition = 1", "edition = 1\nautor = 'x'")),
        ("unknown-key", "warning", "deck.toml", None, 4),
    ),
    "a FEN without SetUp": (
        changed("tactics.pgn", ('[SetUp "1"]\n', "")),
        ("fen-without-setup", "warning", "tactics.pgn", 1, 1),
    ),
    "a Result that differs": (
        changed("games.pgn", ("Qh4# 0-1", "Qh4# 1-0")),
        ("result-differs", "warning", "games.pgn", 1, 5),
    ),
    "a chapter that waits for games": (
        changed("deck.toml", ('after = "lines"', 'after = "games"')),
        ("opens-at-once", "warning", "deck.toml", None, 26),
    ),
    "a card without a reason": (
        changed("lines.pgn", (" {Presses the knight.}", "")),
        ("card-without-reason", "note", "lines.pgn", 1, 8),
    ),
    "a solution without a reason": (
        changed("tactics.pgn", (" {The back rank is weak.}", "")),
        ("card-without-reason", "note", "tactics.pgn", 1, 1),
    ),
    "an idea without a reason": (
        changed("ideas.toml", ('why = "It develops, too."', "")),
        ("card-without-reason", "note", "ideas.toml", 2, 8),
    ),
    "a line that ends at the student's turn": (
        changed("lines.pgn", ("3. Bb5 {Presses the knight.}", "")),
        ("position-without-move", "note", "lines.pgn", 1, 7),
    ),
    "a reply that another line answers": (
        changed("lines.pgn", (LINES, LINES + QUIET_KNIGHT)),
        ("answered-by-transposition", "note", "lines.pgn", 2, 14),
    ),
}


@pytest.mark.parametrize(("files", "expected"), CASES.values(), ids=CASES)
def test_a_fault_is_found_alone_and_in_its_place(
    files: dict[str, str], expected: Place, tmp_path: Path
) -> None:
    (found,) = found_in(tmp_path / "deck", files)
    assert place(found) == expected
    assert found.message == " ".join(found.message.split())


def only_lines(movetext: str, fen: str = "") -> dict[str, str]:
    """The sound deck with one game in its lines."""
    setup = f'[SetUp "1"]\n[FEN "{fen}"]\n' if fen else ""
    return {**SOUND, "lines.pgn": f'{setup}[Result "*"]\n\n{movetext} *\n'}


def more_lines(movetext: str, first: bool = False) -> dict[str, str]:
    """The sound deck with one more game, before the others or behind them."""
    game = f'[Result "*"]\n\n{movetext} *\n'
    return {**SOUND, "lines.pgn": f"{game}\n{LINES}" if first else f"{LINES}\n{game}"}


def only_tactic(movetext: str, fen: str) -> dict[str, str]:
    """The sound deck with one tactic."""
    return {
        **SOUND,
        "tactics.pgn": f'[SetUp "1"]\n[FEN "{fen}"]\n[Result "*"]\n\n{movetext} *\n',
    }


# Worked by hand.
SOUND_TOO = {
    "a mistake that stalemates": only_lines(
        "1. Qf8# {Mate.} (1. Qf7? {Stalemate.})", "7k/8/6K1/8/8/8/8/5Q2 w - - 0 1"
    ),
    "a line that ends with the student mated": only_lines("1. f3 {a} e5 2. g4 {b} Qh4#"),
    "a line that another goes on": more_lines("1. e4 Nc6 2. Nf3 {Develops.} e5"),
    "a reason in a later game": more_lines("1. e4 e5 2. Nf3 Nc6", first=True),
    "a refutation in a later game": more_lines("1. e4 e5 2. Nf3 (2. Qh5?) 2... Nc6", first=True),
    "a reply that is given here, too": {
        **SOUND,
        "lines.pgn": LINES + QUIET_KNIGHT.replace("2... d6", "2... d6 (2... e5)"),
    },
    "a defence that mates the solver": only_tactic(
        "2. g4 {a} Nc6 (2... Qh4#) 3. h3",
        "rnbqkbnr/pppp1ppp/8/4p3/8/5P2/PPPPP1PP/RNBQKBNR w KQkq - 0 2",
    ),
    "a solution introduced in words": changed(
        "tactics.pgn",
        ("1. Qd8+ {The back rank is weak.}", "{White to move and win.} 1. Qd8+"),
    ),
    "an idea about a position nowhere in the deck": changed(
        "ideas.toml", ('after = "1. e4 e5 2. Nf3"', 'after = "1. c4 e5"')
    ),
}


@pytest.mark.parametrize("files", SOUND_TOO.values(), ids=SOUND_TOO)
def test_what_looks_like_a_fault_and_is_none(files: dict[str, str], tmp_path: Path) -> None:
    assert found_in(tmp_path / "deck", files) == []


def test_messages_say_what_where_and_what_to_do(tmp_path: Path) -> None:
    told = {
        name: found_in(tmp_path / name.replace(" ", "-"), CASES[name][0])[0].message
        for name in (
            "a line that ends at the student's turn",
            "a card without a reason",
            "a mistake without a refutation",
            "a reply that another line answers",
            "an idea that the lines contradict",
        )
    }
    assert list(told.values()) == [
        "the line ends after 1. e4 e5 2. Nf3 Nc6 with the student to move; "
        "add the move to play, or end the line one move earlier",
        "nothing says why Bb5 is played after 1. e4 e5 2. Nf3 Nc6; add a comment",
        "no move shows what is wrong with Qh5 after 1. e4 e5; "
        "write the refutation after it, in its variation",
        "2... e5 is not given after 1. e4 Nc6 2. Nf3, but leads to the position after "
        "1. e4 e5 2. Nf3 Nc6, which Bb5 answers; add the reply here if students should meet it "
        "in this line too",
        "the answer Qh5 is marked as a mistake in the deck's lines; "
        "correct one of the two, or ask for the mistake with choose",
    ]


@pytest.mark.parametrize(("moves", "wanted"), [("1... Ke7", 1), ("1... Ke7 2. O-O", 0)])
def test_a_chapter_that_waits_for_one_without_a_card(
    moves: str, wanted: int, tmp_path: Path
) -> None:
    fen = '[SetUp "1"]\n[FEN "4k3/8/8/8/8/8/8/4K2R b K - 0 1"]\n'
    chapters = {
        "first": f'[Event "x"]\n{fen}[Result "*"]\n\n{moves} *\n',
        "second": '[Event "x"]\n[Result "*"]\n\n1. e4 {Centre.} *\n',
    }
    folder = write_deck(tmp_path / "deck", chapters, more={"second": 'after = "first"'})
    deck = read_deck(folder).deck
    assert deck is not None
    found = waits_for_nothing(deck, compile_deck(deck))
    assert [(one.code, one.file) for one in found] == [("opens-at-once", "deck.toml")] * wanted
