"""What a comment says, and the bracket commands in it: `[%csl]`, `[%cal]`, `[%theme]`,
`[%aside]`, `[%share]`.

Makes a `Comment` of clean text; a command that it does not know is kept whole. Which move
a comment belongs to is the reader of moves' business.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from trainer.deck.findings import FindingList
from trainer.lines.tree import NO_COMMENT, Comment

_COMMANDS = ("csl", "cal", "theme", "aside", "share")

# A command never holds a bracket: so each `[` is looked at once, however many there are.
_COMMAND = re.compile(r"\[%\s*+(?P<name>\w*+)(?P<rest>[^\[\]]*+)\]")
_NO_COMMAND = re.compile(rf"\[\s*+%?\s*+(?P<name>{'|'.join(_COMMANDS)})\b[^\[\]]*+\]")
_NOT_CLOSED = re.compile(r"\[%\w*+")

_SQUARE = re.compile(r"[GRYB][a-h][1-8]")
_ARROW = re.compile(r"[GRYB][a-h][1-8][a-h][1-8]")
_PERCENT = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,9})?")

_PLACE_OF_COMMAND = "\0"
"""Stands where a command was: a line with nothing else is no blank line. Clean text never
holds it."""


def read_comment(text: str, findings: FindingList, place: tuple[int, int]) -> Comment:
    """The comment that this clean text makes; what is wrong with it joins the findings."""
    if "[" not in text:
        return Comment(text=_folded(text)) if text and not text.isspace() else NO_COMMENT
    commands = _Commands(findings, place)
    text = _COMMAND.sub(commands.take, text)
    if lost := _NO_COMMAND.search(text):
        message = f"{lost[0][:30]} is shown as text: a command begins with [%{lost['name']}"
        findings.warn("misspelt-command", message, *place)
    if open_command := _NOT_CLOSED.search(text):
        message = f"{open_command[0][:30]} has no closing ]; add it"
        findings.warn("misspelt-command", message, *place)
    return commands.comment(_folded(text))


def joined(first: Comment, second: Comment) -> Comment:
    """Two comments on one move as one, each text a paragraph of its own."""
    if first is NO_COMMENT or second is NO_COMMENT:
        return second if first is NO_COMMENT else first
    return Comment(
        text="\n".join(text for text in (first.text, second.text) if text),
        squares=first.squares + second.squares,
        arrows=first.arrows + second.arrows,
        themes=_each_once(first.themes + second.themes),
        aside=first.aside or second.aside,
        share=first.share if second.share is None else second.share,
        unknown=first.unknown + second.unknown,
    )


@dataclass(slots=True)
class _Commands:
    """The commands of one comment, gathered while they are taken out of its text."""

    findings: FindingList
    place: tuple[int, int]
    squares: list[str] = field(default_factory=list)
    arrows: list[str] = field(default_factory=list)
    themes: list[str] = field(default_factory=list)
    aside: bool = False
    share: float | None = None
    unknown: list[str] = field(default_factory=list)

    def take(self, match: re.Match[str]) -> str:
        """Note one command; gives back what stays in its place."""
        name, rest = match["name"], " ".join(match["rest"].split())
        if name == "csl":
            self.squares += self._marks(_SQUARE, name, rest)
        elif name == "cal":
            self.arrows += self._marks(_ARROW, name, rest)
        elif name == "theme":
            self.themes += [theme.strip() for theme in rest.split(",") if theme.strip()]
        elif name == "aside":
            self.aside = True
        elif name == "share":
            self.share = self._share_of(rest)
        else:
            self.unknown.append(" ".join(match[0].split()))
            self._suspect(name)
        return _PLACE_OF_COMMAND

    def comment(self, text: str) -> Comment:
        """All of it, with the text that is left."""
        made = Comment(
            text,
            tuple(self.squares),
            tuple(self.arrows),
            _each_once(tuple(self.themes)),
            self.aside,
            self.share,
            tuple(self.unknown),
        )
        return NO_COMMENT if made == NO_COMMENT else made

    def _marks(self, form: re.Pattern[str], name: str, rest: str) -> list[str]:
        marks = [mark.strip() for mark in rest.split(",")]
        wrong = [mark for mark in marks if not form.fullmatch(mark)]
        if wrong:
            like = "Gd5" if name == "csl" else "Gf1c4"
            message = (
                f'[%{name}] takes marks such as {like} (G, R, Y or B); correct "{wrong[0][:20]}"'
            )
            self.findings.warn("bad-mark", message, *self.place)
        return [mark for mark in marks if form.fullmatch(mark)]

    def _share_of(self, rest: str) -> float | None:
        if _PERCENT.fullmatch(rest) and float(rest) <= 100:
            return float(rest) / 100
        message = f"[%share {rest[:20]}] is no percentage; write a number from 0 to 100, such as 60"
        self.findings.error("bad-share", message, *self.place)
        return None

    def _suspect(self, name: str) -> None:
        meant = next((known for known in _COMMANDS if _is_slip_of(name.lower(), known)), None)
        if meant:
            message = f"[%{name}] is no command; write [%{meant}]"
            self.findings.warn("misspelt-command", message, *self.place)


def _is_slip_of(name: str, command: str) -> bool:
    """One sign too many, missing, wrong, or two changed places (or only capitals)."""
    if name == command:
        return True
    if abs(len(name) - len(command)) > 1:
        return False
    start = 0
    while start < min(len(name), len(command)) and name[start] == command[start]:
        start += 1
    left, wanted = name[start:], command[start:]
    swapped = left[1:2] + left[:1] + left[2:]
    return left[1:] == wanted or left == wanted[1:] or left[1:] == wanted[1:] or swapped == wanted


def _folded(text: str) -> str:
    """Lines joined to paragraphs; a blank line between paragraphs becomes one newline."""
    paragraphs = re.split(r"\n\s*\n", text)
    folded = (" ".join(paragraph.split()) for paragraph in paragraphs)
    without = (re.sub(rf" ?{_PLACE_OF_COMMAND}", "", paragraph).strip() for paragraph in folded)
    return "\n".join(paragraph for paragraph in without if paragraph)


def _each_once(themes: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(themes))
