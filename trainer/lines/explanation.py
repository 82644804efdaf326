"""The moves after a mistake or an aside, as the text that explains it."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.lines.tree import MoveNode


def explanation(mistake: MoveNode, ply: int) -> str:
    """The moves after a mistake as movetext with their comments, variations in brackets.

    :param ply: plies before the mistake, by the move numbers of its game.
    """
    words: list[str] = []
    # Text to write, or moves to read: the siblings after the first stand in brackets.
    waiting: list[tuple[Sequence[MoveNode], int, bool] | str] = [(mistake.children, ply + 1, True)]
    while waiting:
        entry = waiting.pop()
        if entry == ")":
            words[-1] += ")"
        elif isinstance(entry, str):
            words.append(entry)
        elif entry[0]:
            (main, *others), ply, numbered = entry
            words.append(_spoken(main, ply, numbered))
            waiting.append((main.children, ply + 1, bool(main.comment.text or others)))
            for other in reversed(others):
                waiting.extend((")", (other.children, ply + 1, bool(other.comment.text))))
                waiting.append("(" + _spoken(other, ply, True))
    return " ".join(words)


def _spoken(node: MoveNode, ply: int, numbered: bool) -> str:
    comment = " ".join(node.comment.text.split())
    return numbered_move(node, ply, numbered) + (f" – {comment}" if comment else "")


def numbered_move(node: MoveNode, ply: int, always: bool) -> str:
    """A move as movetext; Black's gets its number only where `always` is set.

    :param ply: plies before the move, by the move numbers of its game.
    """
    if ply % 2 == 0:
        return f"{ply // 2 + 1}. {node.san}"
    return f"{ply // 2 + 1}... {node.san}" if always else node.san
