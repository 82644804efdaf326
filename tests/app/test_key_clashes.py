"""Keys of one's own: which are read, which clash, and which steps there are at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual.screen import Screen
from textual.widget import Widget

from tests.app.shelf import AT_ONCE, SHORT, start, still_app, study_of
from trainer.app.app import TrainerApp
from trainer.app.key_clashes import Refused, Scope, Step, in_force, sort_out
from trainer.app.key_names import is_typed, key_name, key_names, read_key
from trainer.app.key_scopes import FOCUSED, bindings_of, scopes_of
from trainer.app.screens.lines import LinesScreen
from trainer.app.screens.sitting import SittingScreen

PLAY = Step("sit.play", ("enter",), "play")
NEXT = Step("sit.next", ("enter",), "next")
STOP = Step("sit.stop", ("escape",), "stop")
UNDO = Step("sit.undo", ("ctrl+z",), "undo")
HINT = Step("sit.hint", ("question_mark",), "hint")
TAKE = Step("board.take", ("enter", "space"), "take")
LEFT = Step("box.left", ("left",), "left")
QUIT = Step("app.quit", ("ctrl+q",), "quit")
START = Step("today.start", ("enter",), "start")
LINES = Step("today.lines", ("l",), "lines")

SITTING = (PLAY, NEXT, STOP, UNDO, HINT, QUIT)
SCOPES = (
    Scope("Sitting", (*SITTING, LEFT), typing=True),
    Scope("Sitting", (*SITTING, TAKE), typing=True),
    Scope("Today", (START, LINES, QUIT)),
)


# Worked by hand.
@pytest.mark.parametrize(
    ("wanted", "taken"),
    [
        pytest.param({}, {}, id="nothing"),
        pytest.param({"sit.hint": "ctrl+t"}, {"sit.hint": ("ctrl+t",)}, id="a free key"),
        pytest.param({"sit.hint": "?"}, {"sit.hint": ("question_mark",)}, id="its own key"),
        pytest.param({"sit.hint": "?,F7"}, {"sit.hint": ("question_mark", "f7")}, id="one more"),
        pytest.param(
            {"sit.undo": "escape", "sit.stop": "ctrl+z"},
            {"sit.undo": ("escape",), "sit.stop": ("ctrl+z",)},
            id="exchanged",
        ),
        pytest.param(
            {"sit.play": "f7", "sit.next": "f7"},
            {"sit.play": ("f7",), "sit.next": ("f7",)},
            id="shared as before",
        ),
        pytest.param({"sit.undo": "up", "today.lines": "up"}, None, id="on two screens"),
        pytest.param({"today.lines": "n"}, {"today.lines": ("n",)}, id="a letter where none types"),
        pytest.param({"box.left": "space,f7"}, {}, id="a letter in the box"),
        pytest.param({"board.take": "space"}, {"board.take": ("space",)}, id="the board's own"),
        pytest.param(
            {"box.left": "f7", "board.take": "f7"},
            {"box.left": ("f7",), "board.take": ("f7",)},
            id="never at once",
        ),
    ],
)
def test_what_is_taken(wanted: dict[str, str], taken: dict[str, tuple[str, ...]] | None) -> None:
    outcome = sort_out(wanted, SCOPES)
    if taken is None:
        taken = {name: (key,) for name, key in wanted.items()}
    assert outcome.taken == taken
    assert {refused.id for refused in outcome.refused} == set(wanted) - set(taken)


# Worked by hand.
@pytest.mark.parametrize(
    ("wanted", "refused"),
    [
        pytest.param(
            {"sit.hnt": "f7"},
            [Refused("sit.hnt", "there is no such step (did you mean sit.hint?)")],
            id="an unknown step, one near",
        ),
        pytest.param({"zzz": "f7"}, [Refused("zzz", "there is no such step")], id="none near"),
        pytest.param(
            {"sit.hint": "ctrl+foo"},
            [Refused("sit.hint", '\'ctrl+foo\' is no key; write "ctrl+t" or "f7,pagedown"')],
            id="no key",
        ),
        pytest.param(
            {"sit.hint": ""},
            [Refused("sit.hint", '\'\' is no key; write "ctrl+t" or "f7,pagedown"')],
            id="nothing",
        ),
        pytest.param(
            {"sit.hint": "ctrl+z"},
            [Refused("sit.hint", "Ctrl+Z is undo (sit.undo) on Sitting")],
            id="on one screen",
        ),
        pytest.param(
            {"sit.hint": "ctrl+q"},
            [Refused("sit.hint", "Ctrl+Q is quit (app.quit) on Sitting")],
            id="with the app's",
        ),
        pytest.param(
            {"sit.undo": "left"},
            [Refused("sit.undo", "← is left (box.left) on Sitting")],
            id="with the focused widget's",
        ),
        pytest.param(
            {"sit.undo": "n"},
            [Refused("sit.undo", "n is needed to type moves")],
            id="a letter",
        ),
        pytest.param(
            {"sit.undo": "?", "sit.hint": "f7"},
            [Refused("sit.undo", "? is needed to type moves")],
            id="a sign, be it free",
        ),
        pytest.param(
            {"app.quit": "q"},
            [Refused("app.quit", "q is needed to type moves")],
            id="a letter everywhere",
        ),
        pytest.param(
            {"sit.undo": "f7", "sit.hint": "f7"},
            [Refused("sit.hint", "F7 is undo (sit.undo) on Sitting")],
            id="the later of two goes",
        ),
        pytest.param(
            {"sit.hint": "ctrl+z", "sit.undo": "n"},
            [
                Refused("sit.hint", "Ctrl+Z is undo (sit.undo) on Sitting"),
                Refused("sit.undo", "n is needed to type moves"),
            ],
            id="one falls with the other",
        ),
        pytest.param(
            {"sit.undo": "ctrl+m"},
            [Refused("sit.undo", "Enter is play (sit.play) on Sitting")],
            id="the same key to a terminal",
        ),
    ],
)
def test_what_is_refused(wanted: dict[str, str], refused: list[Refused]) -> None:
    assert list(sort_out(wanted, SCOPES).refused) == refused


def test_the_keymap_names_every_step() -> None:
    keymap = in_force({"sit.play": ("f7", "f8")}, SCOPES)
    assert keymap["sit.play"] == "f7,f8" and keymap["sit.next"] == "enter"
    assert set(keymap) == {step.id for scope in SCOPES for step in scope.steps}


# Agrees with textual 8.2.8's names of keys, run live; else worked by hand.
@pytest.mark.parametrize(
    ("text", "key", "name"),
    [
        ("ctrl+t", "ctrl+t", "Ctrl+T"),
        (" Ctrl + T ", "ctrl+t", "Ctrl+T"),
        ("F7", "f7", "F7"),
        ("PgDn", "pagedown", "PgDn"),
        ("Esc", "escape", "Esc"),
        ("shift+ctrl+left", "ctrl+shift+left", "Ctrl+Shift+←"),
        ("?", "question_mark", "?"),
        ("question_mark", "question_mark", "?"),
        ("+", "plus", "+"),
        ("ctrl++", "ctrl+plus", "Ctrl++"),
        ("comma", "comma", ","),
        ("-", "minus", "-"),
        ("n", "n", "N"),
        ("shift+n", "N", "Shift+N"),
        ("ctrl+i", "tab", "Tab"),
        ("↑", "up", "↑"),
    ],
)
def test_names_of_keys_are_read_and_shown(text: str, key: str, name: str) -> None:
    assert read_key(text) == key
    assert key_name(key) == name
    assert read_key(key) == key


@pytest.mark.parametrize("text", ["", "ctrl+", "foo", "ctrl+foo", "f99", "tab+x", "\x1b", "a b"])
def test_what_is_no_key(text: str) -> None:
    assert read_key(text) is None


def test_which_keys_write_a_sign() -> None:
    assert all(map(is_typed, ["n", "N", "1", "plus", "question_mark", "space", "é"]))
    assert not any(map(is_typed, ["ctrl+n", "up", "f7", "enter", "tab", "escape"]))
    assert key_names("tab,shift+tab") == "Tab, Shift+Tab"


def test_by_default_nothing_is_refused_and_every_key_can_be_read() -> None:
    scopes = scopes_of(TrainerApp)
    steps = {step.id: step for scope in scopes for step in scope.steps}
    assert {"sitting.hint", "today.start", "board.up", "app.quit", "help.back"} <= set(steps)
    for step in steps.values():
        assert step.does and step.about.endswith("."), step
        assert all(read_key(key) == key for key in step.keys), step
        outcome = sort_out({step.id: ",".join(step.keys)}, scopes)
        assert (outcome.taken, outcome.refused) == ({step.id: step.keys}, ())


def test_every_screen_is_among_the_scopes() -> None:
    names = {scope.screen for scope in scopes_of(TrainerApp)}
    assert {"Today", "Sitting", "Settings", "Help", "Welcome"} <= names


async def test_the_widgets_that_can_have_the_focus_are_known(tmp_path: Path) -> None:
    with study_of(tmp_path, SHORT, settings=AT_ONCE) as study:
        app = still_app(study)
        async with app.run_test(size=(80, 24)) as pilot:
            assert _focused(app.screen) == set()
            app.push_screen(LinesScreen(study))
            await pilot.press("slash")
            assert _focused(app.screen) == set(FOCUSED[LinesScreen])
            app.pop_screen()
            assert _focused(await start(pilot)) == set(FOCUSED[SittingScreen])


def _focused(screen: Screen[Any]) -> set[type[Widget]]:
    """The widgets that can have the focus and have steps of their own."""
    return {type(widget) for widget in screen.focus_chain if any(bindings_of(type(widget)))}
