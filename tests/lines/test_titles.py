"""What a game is called. Common practice; no source."""

from __future__ import annotations

import pytest

from tests.trees import game, games, key
from trainer.lines.graph import Place, graph_from_data, graph_to_data
from trainer.lines.graph_builder import build_graph
from trainer.lines.titles import exercise_title, game_title


@pytest.mark.parametrize(
    ("tags", "title"),
    [
        ({}, ""),
        ({"Event": "?", "Opening": "?"}, ""),
        ({"Event": "The quiet 5...Be7", "Opening": "Vienna"}, "The quiet 5...Be7"),
        ({"Event": "?", "Opening": "Vienna"}, "Vienna"),
        ({"Opening": "Vienna", "Variation": "Gambit", "Event": "x"}, "Vienna, Gambit"),
        ({"Variation": "Gambit"}, "Gambit"),
        ({"Event": "  two\n lines "}, "two lines"),
    ],
)
def test_titles(tags: dict[str, str], title: str) -> None:
    assert game_title(tags) == title


def test_a_tactic_or_a_game_is_called_by_its_event() -> None:
    tags = {"Event": "King and rook", "Opening": "Vienna", "Variation": "Gambit"}
    assert exercise_title(tags) == "King and rook"
    assert exercise_title({**tags, "Event": "?"}) == "Vienna, Gambit"


def test_a_place_has_the_title_of_its_game() -> None:
    first, second = games("1. e4 e5", "1. e4 c5")
    first.tags, second.tags = {"Event": "Open"}, {"Event": "Sicilian"}
    book = build_graph("white", [("lines", first), ("lines", second)]).graph
    assert book.positions[key("1. e4")].places[0].title == "Open"
    assert book.positions[key("1. e4 c5")].places[0].title == "Sicilian"
    assert graph_from_data(graph_to_data(book)) == book


def test_lines_compiled_before_there_were_titles_still_load() -> None:
    data = graph_to_data(build_graph("white", [("lines", game("1. e4"))]).graph)
    for _, _, places in data["positions"]:
        places[:] = [place[:5] for place in places]
    position = graph_from_data(data).positions[key("1. e4")]
    assert position.places == (Place("lines", 1, "1. e4", key("") + " 0 1"),)
