"""Random trees, and PGN that means them, written in odd but valid ways.

The writer's own knowledge is the truth that the reader is held to; no second reader is
asked. Source of what is valid: PGN standard (Edwards, 1994), 5, 6, 7, 8.1, 8.2.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

import chess

STARTS = (
    chess.STARTING_FEN,
    "4k3/P7/8/2pP4/8/8/8/R3K2R w KQ c6 0 9",
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R b KQkq - 3 40",
)

WORDS = (
    *("Guards", "e4.", "1-0", "*", "(2.", "Nf3)", "{", ";", "[x]", "a%", "$3", "Grüße", "…b5!?"),
    *("\\", "'s", "♘f3", "[Event", "--", "Persian: می\u200cخ"),
)


@dataclass
class Move:
    """One move of a tree, as its author means it."""

    san: str
    nags: tuple[int, ...]
    comments: list[str]
    """Paragraphs of words; each is one comment."""
    replies: list[Move] = field(default_factory=list)


@dataclass
class Game:
    """One game, as its author means it."""

    tags: dict[str, str]
    fen: str
    introduction: list[str]
    moves: list[Move]
    result: str


def random_game(random: Random) -> Game:
    """A game with up to some thirty moves."""
    fen = random.choice(STARTS)
    result = random.choice(("1-0", "0-1", "1/2-1/2", "*"))
    tags = {"Event": _comment(random).replace("\n", " "), "Result": result}
    if fen != chess.STARTING_FEN:
        tags |= {"SetUp": "1", "FEN": fen}
    names = random.sample(list(tags), len(tags))
    moves = _grow(random, chess.Board(fen), random.randint(1, 8))
    return Game({name: tags[name] for name in names}, fen, _comments(random), moves, result)


def _grow(random: Random, board: chess.Board, depth: int) -> list[Move]:
    legal = list(board.legal_moves)
    if not depth or not legal:
        return []
    moves = []
    for place, move in enumerate(
        random.sample(legal, min(len(legal), random.choice((1, 1, 2, 3))))
    ):
        nags = tuple(random.sample((1, 2, 3, 4, 5, 6, 10, 13, 255), random.choice((0, 0, 1, 2))))
        grown = Move(board.san(move), nags, _comments(random))
        board.push(move)
        grown.replies = _grow(
            random, board, depth - 1 if place == 0 else random.randint(0, depth // 2)
        )
        board.pop()
        moves.append(grown)
    return moves


def _comments(random: Random) -> list[str]:
    return [_comment(random) for _ in range(random.choice((0, 0, 0, 1, 2)))]


def _comment(random: Random) -> str:
    paragraphs = random.choice((1, 1, 2))
    return "\n".join(
        " ".join(random.choices(WORDS, k=random.randint(1, 4))) for _ in range(paragraphs)
    )


class OddWriter:
    """Writes one game; every choice that changes nothing is left to chance."""

    def __init__(self, random: Random) -> None:
        self._random = random
        self._words: list[str] = []

    def write(self, game: Game) -> str:
        """The whole game, tags first."""
        self._words = []
        for comment in game.introduction:
            self._comment(comment)
        self._line(game.moves, chess.Board(game.fen))
        self._words.append(game.result)
        return self._tags(game.tags) + self._joined() + self._gap()

    def _tags(self, tags: dict[str, str]) -> str:
        text = ""
        for name, value in tags.items():
            value = value.replace("\\", "\\\\").replace('"', '\\"')
            inside, after = self._pick("", " ", "\n", "\n%]\n"), self._pick("", " ", "\n")
            text += f'[{inside}{name}{self._pick(" ", "", chr(10))}"{value}"{inside}]{after}'
        return text + self._pick("", "\n", "\n\n", "\n\n\n")

    def _line(self, moves: list[Move], board: chess.Board) -> None:
        board = board.copy(stack=False)
        while moves:
            main, *others = moves
            self._move(main, board, main.comments)
            for other in others:
                self._words.append("(")
                early = self._random.randint(0, len(other.comments))
                for comment in other.comments[:early]:
                    self._comment(comment)
                self._move(other, board, other.comments[early:])
                after = board.copy(stack=False)
                after.push_san(other.san)
                self._line(other.replies, after)
                self._words.append(")")
            board.push_san(main.san)
            moves = main.replies

    def _move(self, move: Move, board: chess.Board, comments: list[str]) -> None:
        number = str(board.fullmove_number)
        periods = (".", " .", "", "\n.") if board.turn else ("...", " ...", "", "..", ". ..")
        for _ in range(self._random.choice((0, 1, 1, 2))):
            self._words.append(number + self._pick(*periods))
        self._words.append(self._spelled(move.san))
        for place, nag in enumerate(move.nags):
            suffix = nag <= 6 and place == 0 and self._random.random() < 0.5
            self._words.append(("!", "?", "!!", "??", "!?", "?!")[nag - 1] if suffix else f"${nag}")
        for comment in comments:
            self._comment(comment)

    def _spelled(self, san: str) -> str:
        if self._random.random() < 0.8:
            return san
        san = san.rstrip("+#") + self._pick("", "+", "#")
        return san.replace("O", "0") if "O-O" in san else san.replace("=", self._pick("", "="))

    def _comment(self, text: str) -> None:
        if "\n" not in text and self._random.random() < 0.4:
            self._words.append(f";{self._pick('', ' ')}{text}\n")
            return
        paragraphs = text.split("\n")
        ends = ("\n\n", "\n \n", "\n%}\n\n", "\n\n\n")
        folded = [
            self._pick(" ", "\n", "\n%} *\n", "  ").join(words.split(" ")) for words in paragraphs
        ]
        self._words.append("{" + self._pick(*ends).join(folded) + self._pick("", " ", "\n") + "}")

    def _joined(self) -> str:
        text = ""
        for word in self._words:
            # A number with its period, a comment and a parenthesis end by themselves.
            loose = not text or text[-1] in "})(\n." or word[0] in "{();!?$"
            text += ("" if loose and self._random.random() < 0.5 else self._gap()) + word
        return text

    def _gap(self) -> str:
        return self._pick(" ", " ", "\n", "\n\n", "\t", "\u00a0", "\n% 1. Ka9 {\n", "\r\n")

    def _pick(self, *choices: str) -> str:
        return self._random.choice(choices)
