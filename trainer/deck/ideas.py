"""A chapter of ideas: the questions of a TOML file, each with the answer that grades it.

What the position contradicts is found here as far as the rules of chess tell it; what the
deck's own lines say of an answer is told where the lines are known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import chess

from trainer.deck.clean import clean_line
from trainer.deck.findings import FindingList
from trainer.deck.limits import CHOICES, IDEA_CHARS, IDEAS, LINE_CHARS, TITLE_CHARS
from trainer.deck.toml_file import parse_toml
from trainer.deck.toml_places import lines_of_keys
from trainer.deck.toml_table import TomlTable
from trainer.lines.idea import Form, Idea, idea_key
from trainer.lines.movetext import BadLine, movetext, read_movetext
from trainer.lines.position import BadPosition, board_from_fen, full_fen, position_key
from trainer.lines.reading import LegalMove, Unreadable
from trainer.lines.typed import read_move

_KEYS = ("id", "after", "fen", "ask", "squares", "move", "choose", "why")


def read_ideas(
    data: bytes, file: str, deck: str, side: str, findings: FindingList, most: int = IDEAS
) -> tuple[Idea, ...]:
    """The ideas of a file, those with faults left out.

    :param deck: the deck's id, part of what the ideas' cards are known by.
    :param side: `white` or `black`, who sees the board from below; empty for the side to move.
    :param most: how many ideas the deck may still hold.
    """
    text, values = parse_toml(data, file, findings)
    if values is None:
        return ()
    lines = lines_of_keys(text)
    top = TomlTable(values, findings, lines)
    top.warn_of_unknown(("idea",))
    written = values.get("idea", [])
    if not isinstance(written, list) or not all(isinstance(value, dict) for value in written):
        top.wrong_type("idea", "tables under [[idea]], in two pairs of brackets")
        return ()
    if not written:
        findings.error("no-ideas", f"{file} holds no idea; add one under [[idea]]")
    if len(written) > most:
        message = f"the deck holds more than {IDEAS} ideas"
        findings.refuse(message, lines.get(("idea", most, "")))
    ideas = []
    for place, value in enumerate(written):
        findings.game = place + 1
        table = TomlTable(value, findings, lines, ("idea", place))
        if idea := _Reader(table, deck, side).read(place + 1):
            ideas.append((table, idea))
    _check_keys(ideas)
    findings.game = None
    return tuple(idea for _, idea in ideas)


@dataclass(frozen=True, slots=True)
class _Place:
    start: str
    line: str
    board: chess.Board


class _Reader:
    """Reads one idea."""

    def __init__(self, table: TomlTable, deck: str, side: str) -> None:
        self._table = table
        self._deck = deck
        self._side = side

    def read(self, number: int) -> Idea | None:
        """The idea; None where a fault leaves nothing to ask."""
        table = self._table
        table.warn_of_unknown(_KEYS)
        given = table.id("id", required=False)
        ask = table.text("ask", required=True, most=IDEA_CHARS)
        why = table.paragraphs("why", most=IDEA_CHARS)
        place = self._place()
        form = self._only_one("an answer", tuple(Form))
        if not (ask and place and form):
            return None
        answer = self._answer(Form(form), place.board)
        if not answer:
            return None
        return Idea(
            key=idea_key(self._deck, given, position_key(place.board), _in_key(Form(form), answer)),
            start=place.start,
            line=place.line,
            side=self._side or chess.COLOR_NAMES[place.board.turn],
            ask=ask,
            form=Form(form),
            squares=answer if form == Form.SQUARES else (),
            move=answer[0] if form == Form.MOVE else "",
            choices=answer if form == Form.CHOOSE else (),
            why=why,
            place=number,
            file_line=table.line(),
        )

    def _only_one(self, what: str, keys: Sequence[str]) -> str:
        """The one key of these that is there; empty where it is none or several."""
        there = [key for key in keys if key in self._table.values]
        if len(there) == 1:
            return there[0]
        names = f"{', '.join(keys[:-1])} and {keys[-1]}"
        if there:
            message = f"the idea has {' and '.join(there)}; keep one of {names}"
            self._table.error("bad-value", message, there[1])
        else:
            self._table.error("missing-key", f"the idea lacks {what}: write one of {names}")
        return ""

    # --- Where it stands

    def _place(self) -> _Place | None:
        key = self._only_one("a position", ("after", "fen"))
        text = self._table.text(key, most=LINE_CHARS) if key else ""
        if key == "after":
            return self._after(text)
        return self._set_up(text) if text else None

    def _after(self, line: str) -> _Place | None:
        board = chess.Board()
        try:
            moves = read_movetext(line)
        except BadLine as bad:
            self._table.error("bad-line", f"after: {bad}; correct the line", "after")
            return None
        written = movetext(board, moves)
        for move in moves:
            board.push(move)
        return _Place(chess.STARTING_FEN, written, board)

    def _set_up(self, fen: str) -> _Place | None:
        try:
            board = board_from_fen(fen)
        except BadPosition as bad:
            self._table.error("bad-fen", f"fen: {clean_line(str(bad))[:200]}; correct it", "fen")
            return None
        return _Place(full_fen(board), "", board)

    # --- What answers it

    def _answer(self, form: Form, board: chess.Board) -> tuple[str, ...]:
        if form is Form.SQUARES:
            return self._squares()
        return self._move(board) if form is Form.MOVE else self._choices()

    def _squares(self) -> tuple[str, ...]:
        squares = self._texts("squares", 'squares in quotes, such as ["d4", "e5"]')
        for square in squares:
            if square not in chess.SQUARE_NAMES:
                message = f'squares: "{square[:20]}" is no square; write such as d4'
                self._table.error("bad-value", message, "squares")
                return ()
        return tuple(sorted(set(squares)))

    def _move(self, board: chess.Board) -> tuple[str, ...]:
        text = self._table.text("move", required=True)
        if not text:
            return ()
        read = read_move(board, text)
        if isinstance(read, LegalMove):
            return (read.move.uci(),)
        if isinstance(read, Unreadable):
            self._table.error("bad-value", f"move: {read.reason}; write such as Nf3", "move")
            return ()
        message = f'move: "{text[:20]}" cannot be played in this position: {read.reason}'
        self._table.error("idea-contradicted", f"{message}; correct the move or the line", "move")
        return ()

    def _choices(self) -> tuple[str, ...]:
        choices = self._texts("choose", "answers in quotes, the right one first")
        if not choices:
            return ()
        if not 2 <= len(choices) <= CHOICES:
            many = "one answer" if len(choices) == 1 else f"{len(choices)} answers"
            message = f"choose has {many}; write 2 to {CHOICES}"
            self._table.error("bad-value", message, "choose")
            return ()
        if len(set(choices)) < len(choices):
            self._table.error("bad-value", "choose has one answer twice; change one", "choose")
            return ()
        return choices

    def _texts(self, key: str, wanted: str) -> tuple[str, ...]:
        """A list of texts on one line each; empty where it is none."""
        value: Any = self._table.values[key]
        if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
            message = f"{key} must be a list of {wanted}; put each in quotes, between [ and ]"
            self._table.error("wrong-type", message, key)
            return ()
        texts = tuple(clean_line(text) for text in value[: max(CHOICES, 64) + 1])
        if not value or not all(texts):
            self._table.error("bad-value", f"{key} is empty or has an empty entry; fill it", key)
            return ()
        if any(len(text) > TITLE_CHARS for text in texts):
            message = f"an answer in {key} is longer than {TITLE_CHARS} characters; shorten it"
            self._table.error("too-large", message, key)
            return ()
        return texts


def _in_key(form: Form, answer: tuple[str, ...]) -> str:
    """What of an answer its card is known by; the wrong ones may change."""
    return answer[0] if form is Form.CHOOSE else " ".join(answer)


def _check_keys(ideas: list[tuple[TomlTable, Idea]]) -> None:
    """No two ideas of a file are one card."""
    seen: set[str] = set()
    for table, idea in ideas:
        if idea.key in seen:
            message = "this idea has the id of an earlier one, or asks the same; give it an id"
            table.error("duplicate-idea", f"{message} of its own", "id")
        seen.add(idea.key)
