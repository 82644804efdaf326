"""Whatever is written comes back as meant, and whatever is not meant raises nothing."""

from __future__ import annotations

from random import Random

import chess
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.odd_pgn import Game, Move, OddWriter, random_game
from tests.deck.reading import read
from trainer.deck.clean import decode
from trainer.deck.pgn import read_pgn
from trainer.lines.position import PositionPool, position_key
from trainer.lines.tree import GameTree, MoveNode


def meant(moves: list[Move]) -> list[object]:
    """What a line means, for comparing."""
    return [(move.san, move.nags, "\n".join(move.comments), meant(move.replies)) for move in moves]


def understood(nodes: list[MoveNode]) -> list[object]:
    """What was read, in the same form."""
    return [(node.san, node.nags, node.comment.text, understood(node.children)) for node in nodes]


def whole(game: Game) -> object:
    return game.tags, "\n".join(game.introduction), meant(game.moves)


def whole_tree(game: GameTree) -> object:
    return game.tags, game.introduction.text, understood(game.children)


@given(
    st.randoms(use_true_random=False),
    st.integers(1, 3),
    st.sampled_from(["\n", "\r\n", "\r"]),
    st.booleans(),
)
def test_odd_but_valid_text_is_read_as_meant(
    random: Random, count: int, line_end: str, with_marks: bool
) -> None:
    games = [random_game(random) for _ in range(count)]
    mark = "\ufeff" if with_marks else ""
    writer = OddWriter(random)
    text = "".join(mark + writer.write(game) for game in games)
    text = text.replace("\r\n", "\n").replace("\n", line_end)
    trees, findings = read_pgn(decode(text.encode()).text, "odd.pgn", PositionPool())
    # A comment may hold numbers and a brace by chance; that is doubtful, and read as meant.
    assert {found.code for found in findings} <= {"brace-in-comment"}
    assert [whole_tree(tree) for tree in trees] == [whole(game) for game in games]


@given(st.randoms(use_true_random=False))
def test_every_move_leads_where_the_rules_say(random: Random) -> None:
    trees, _ = read(OddWriter(random).write(random_game(random)))
    waiting = [(chess.Board(tree.start_fen), node) for tree in trees for node in tree.children]
    while waiting:
        board, node = waiting.pop()
        board = board.copy(stack=False)
        assert node.move in board.legal_moves
        assert node.san == board.san(node.move)
        board.push(node.move)
        assert node.after.key == position_key(board)
        waiting += [(board, child) for child in node.children]


SCRAPS = st.lists(
    st.sampled_from(
        (
            *("1. ", "1... ", "2. ", "e4 ", "e5 ", "Nf3 ", "Ke2 ", "Nf33 ", "-- ", "(", ")"),
            *("{", "}", ";", "\n", "\n\n", "%", '[Event "x"]', '[FEN "8 w"]', '[SetUp "1"]'),
            *("[", "]", '"', "*", "1-0 ", "!", "$1 ", "$999 ", "<", ">", "[%share 60]"),
            *("[%aside]", "...", "\x1b", "\ufeff"),
        )
    ),
    max_size=40,
).map("".join)


@given(SCRAPS | st.text())
def test_any_text_gives_games_and_findings(text: str) -> None:
    games, findings = read(text)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
    assert games or findings
    for found in findings:
        assert found.line is None or 1 <= found.line <= lines
        assert found.message.isprintable()
        assert found.code == found.code.lower().strip("-")


@given(st.binary())
def test_any_bytes_give_games_and_findings(data: bytes) -> None:
    games, findings = read(decode(data).text)
    assert games or findings
