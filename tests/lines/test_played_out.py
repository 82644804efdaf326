"""A tactic's solution and a model game, laid out turn by turn. All worked by hand."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trees import Growth, game, grown
from trainer.lines.graph import Standing
from trainer.lines.movetext import read_movetext
from trainer.lines.played_out import (
    PlayedOut,
    model_game_of,
    played_out_from_data,
    played_out_to_data,
    tactic_of,
)
from trainer.lines.tree import NO_COMMENT

KNIGHT = "[r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1]"
FORK = (
    f"{KNIGHT}1. Nc7+ (1. Nf6+? Ke7 2. Kd2) (1. Nb6 Ke7) 1... Kd7 "
    "(1... Kd8 2. Nxa8 Kc8 (2... Ke7 3. Kd2) 3. Nb6+) (1... Kf7 2. Nxa8) "
    "2. Nxa8 Kc6 (2... Kc8 3. Nb6+) 3. Kd2"
)


def told(played: PlayedOut) -> list[str]:
    """Each turn as the line to it, a stroke, and the move asked."""
    return [
        f"{played.movetext(turn.defence, 0, turn.ply)} | "
        f"{played.defences[turn.defence].moves[turn.ply].move.san}"
        for turn in played.turns
    ]


def test_defences_come_in_file_order_and_each_asks_what_no_earlier_one_has_asked() -> None:
    assert told(tactic_of(game(FORK), "white")) == [
        " | Nc7+",
        "1. Nc7+ Kd7 | Nxa8",
        "1. Nc7+ Kd7 2. Nxa8 Kc6 | Kd2",
        "1. Nc7+ Kd8 | Nxa8",
        "1. Nc7+ Kd8 2. Nxa8 Kc8 | Nb6+",
        "1. Nc7+ Kd8 2. Nxa8 Ke7 | Kd2",
        "1. Nc7+ Kf7 | Nxa8",
        "1. Nc7+ Kd7 2. Nxa8 Kc8 | Nb6+",
    ]


def test_a_tactic_is_known_by_its_start_and_main_line() -> None:
    # Source: design of the deck format, section 4: "starting position key + the main line in UCI".
    assert tactic_of(game(FORK), "").key == (
        "r3k3/8/8/3N4/8/8/8/4K3 w - - d5c7 e8d7 c7a8 d7c6 e1d2"
    )


def test_other_moves_of_the_solver_stand_as_in_lines() -> None:
    first = tactic_of(game(FORK), "white").defences[0].moves[0]
    assert [(move.san, move.standing) for move in (first.move, *first.others)] == [
        ("Nc7+", Standing.DECK),
        ("Nf6+", Standing.MISTAKE),
        ("Nb6", Standing.ACCEPTED),
    ]
    assert first.others[0].explanation == "1... Ke7 2. Kd2"


@pytest.mark.parametrize(
    ("side", "turns"),
    [
        ("", ["1. Nc7+ | Kd7", "1. Nb6 | Ke7"]),
        ("white", [" | Nc7+"]),
        ("black", ["1. Nc7+ | Kd7", "1. Nb6 | Ke7"]),
    ],
)
def test_the_solver_is_the_side_of_the_chapter_else_the_side_to_move(
    side: str, turns: list[str]
) -> None:
    text = f"{KNIGHT}1. Nc7+ (1. Nb6 Ke7) 1... Kd7"
    if side == "":
        text = "[r3k3/8/8/3N4/8/8/8/4K3 b - - 0 1]1... Kd7 2. Nb6+ (2. Kd2 Rc8) 2... Kd6"
        assert tactic_of(game(text), side).side == "black"
        turns = [" | Kd7", "1... Kd7 2. Nb6+ | Kd6", "1... Kd7 2. Kd2 | Rc8"]
    assert told(tactic_of(game(text), side)) == turns


def test_a_game_is_its_main_line_and_what_stands_beside_is_no_answer() -> None:
    text = "1. e4 (1. f4 {Bird}) 1... e5 (1... c5 2. Nf3) 2. Nf3 {hits e5} Nc6"
    played = model_game_of(game(text), "white")
    assert told(played) == [" | e4", "1. e4 e5 | Nf3"]
    first, second, *_ = played.defences[0].moves
    assert [move.standing for move in first.others] == [Standing.ASIDE]
    assert [move.explanation for move in second.others] == ["2. Nf3"]
    assert told(model_game_of(game(text), "black")) == ["1. e4 | e5", "1. e4 e5 2. Nf3 | Nc6"]


@pytest.mark.parametrize("side", ["white", "black"])
def test_nothing_is_asked_of_a_side_without_moves(side: str) -> None:
    empty = tactic_of(game(f"{KNIGHT}"), side)
    assert empty.turns == ()
    assert tactic_of(game(f"{KNIGHT}1. Nc7+"), "black").turns == ()


MOVES = st.tuples(
    st.integers(0, 40), st.integers(0, 60), st.just(NO_COMMENT), st.sampled_from([None, 1, 2, 6])
)
GROWTHS: st.SearchStrategy[Growth] = st.lists(MOVES, max_size=40)


@given(GROWTHS, st.sampled_from(["white", "black", ""]))
def test_every_turn_can_be_reached_and_nothing_is_asked_twice(growth: Growth, side: str) -> None:
    (tree,) = grown([growth])
    for played in (tactic_of(tree, side), model_game_of(tree, side or "white")):
        turns = told(played)
        assert len(turns) == len(set(turns))
        for turn in played.turns:
            line = played.movetext(turn.defence, 0, turn.ply)
            ours = "white" if len(read_movetext(line)) % 2 == 0 else "black"
            assert ours == played.side
            read_movetext(played.movetext(turn.defence, 0))
        read = played_out_from_data(json.loads(json.dumps(played_out_to_data(played))))
        assert read == played
        assert read.turns == played.turns
