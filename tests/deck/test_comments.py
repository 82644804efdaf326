"""What comments say, and the commands in them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.comments import joined, read_comment
from trainer.deck.findings import FindingList, Severity
from trainer.lines.tree import NO_COMMENT, Comment


def read(text: str) -> tuple[Comment, list[tuple[str, Severity]]]:
    """The comment, and the findings it makes."""
    findings = FindingList("test.pgn")
    comment = read_comment(text, findings, (3, 7))
    assert all((found.line, found.column) == (3, 7) for found in findings.finished())
    return comment, [(found.code, found.severity) for found in findings.finished()]


# design.md, section 3: paragraphs, and commands that are taken out.
SAID = {
    "nothing": ("", NO_COMMENT),
    "blanks": (" \n ", NO_COMMENT),
    "a text": (" Guards e4. ", Comment("Guards e4.")),
    "wrapped lines": ("Guards\ne4  and\n eyes d5.", Comment("Guards e4 and eyes d5.")),
    "paragraphs": ("One.\n\nTwo\nlines.\n \n\nThree.", Comment("One.\nTwo lines.\nThree.")),
    "brackets that are no commands": ("[e4] [x] [R e4]", Comment("[e4] [x] [R e4]")),
    "squares": ("[%csl Gd5,Re4]", Comment(squares=("Gd5", "Re4"))),
    "arrows": ("[%cal Gf1c4, Yd1h5]", Comment(arrows=("Gf1c4", "Yd1h5"))),
    "squares over a wrapped line": ("[%csl Gd5,\nRe4]", Comment(squares=("Gd5", "Re4"))),
    "two commands of one kind": ("[%csl Gd5] [%csl Re4]", Comment(squares=("Gd5", "Re4"))),
    "themes": (
        "[%theme long  castling, pin,]",
        Comment(themes=("long castling", "pin")),
    ),
    "a theme twice": ("[%theme pin, pin]", Comment(themes=("pin",))),
    "aside": ("[%aside] Sound.", Comment("Sound.", aside=True)),
    "share": ("[%share 60]", Comment(share=0.6)),
    "share with a fraction": ("[%share 12.5]", Comment(share=0.125)),
    "share of all, of none": ("[%share 100] [%share 0]", Comment(share=0.0)),
    "unknown, kept whole": (
        "[%clk 0:01:00] Fast. [%eval\n0.3]",
        Comment("Fast.", unknown=("[%clk 0:01:00]", "[%eval 0.3]")),
    ),
    "command in the middle": ("Guards [%csl Gd5] e4", Comment("Guards e4", squares=("Gd5",))),
    "command before a full stop": ("Guards e4 [%csl Gd5].", Comment("Guards e4.", ("Gd5",))),
    "command on a line of its own": ("One\n[%csl Gd5]\ntwo.", Comment("One two.", ("Gd5",))),
    "command as a paragraph": ("One.\n\n[%csl Gd5]\n\nTwo.", Comment("One.\nTwo.", ("Gd5",))),
    "command before a paragraph": ("One.\n\n[%csl Gd5] Two.", Comment("One.\nTwo.", ("Gd5",))),
    "no blank behind the percent sign": ("[% share 60]", Comment(share=0.6)),
}


@pytest.mark.parametrize(("text", "comment"), SAID.values(), ids=SAID.keys())
def test_comment_says(text: str, comment: Comment) -> None:
    assert read(text) == (comment, [])


W, E = Severity.WARNING, Severity.ERROR

# Worked by hand: one slip each.
FAULTS = {
    "sign missing": ("[%shar 60]", "misspelt-command", W),
    "signs changed": ("[%tehme x]", "misspelt-command", W),
    "sign too many": ("[%asides]", "misspelt-command", W),
    "sign wrong": ("[%cak Gd1d4]", "misspelt-command", W),
    "two changed at the end": ("[%cls Gd1]", "misspelt-command", W),
    "capital": ("[%Aside]", "misspelt-command", W),
    "no percent sign": ("[aside]", "misspelt-command", W),
    "blank before the percent sign": ("[ %share 60]", "misspelt-command", W),
    "not closed": ("Sound. [%aside", "misspelt-command", W),
    "no colour": ("[%csl d5]", "bad-mark", W),
    "no such square": ("[%csl Gd9]", "bad-mark", W),
    "a square for an arrow": ("[%cal Gd5]", "bad-mark", W),
    "no square at all": ("[%csl]", "bad-mark", W),
    "more than all": ("[%share 101]", "bad-share", E),
    "less than none": ("[%share -1]", "bad-share", E),
    "no number": ("[%share many]", "bad-share", E),
    "nothing": ("[%share]", "bad-share", E),
    "colon": ("[%share:60]", "bad-share", E),
    "comma for the point": ("[%share 12,5]", "bad-share", E),
    "thousands of digits": (f"[%share {'9' * 5000}]", "bad-share", E),
    "other digits": ("[%share ６０]", "bad-share", E),
    "infinite": ("[%share inf]", "bad-share", E),
}


@pytest.mark.parametrize(("text", "code", "severity"), FAULTS.values(), ids=FAULTS.keys())
def test_fault_in_a_command(text: str, code: str, severity: Severity) -> None:
    assert read(text)[1] == [(code, severity)]


@pytest.mark.parametrize("name", ["clk", "emt", "eval", "evp", "depth", "mct", "egt", "tqu", ""])
def test_other_programs_commands_are_kept_silently(name: str) -> None:
    assert read(f"[%{name} 1]") == (Comment(unknown=(f"[%{name} 1]",)), [])


def test_sound_marks_survive_a_bad_one() -> None:
    assert read("[%csl Gd4,x,Re4]")[0] == Comment(squares=("Gd4", "Re4"))


def test_comments_on_one_move_join() -> None:
    first = Comment("One.", ("Gd5",), ("Gd1d5",), ("pin",), False, 0.4, ("[%clk 1]",))
    second = Comment("Two.", ("Re4",), (), ("pin", "trap"), True, None, ())
    assert joined(first, second) == Comment(
        "One.\nTwo.", ("Gd5", "Re4"), ("Gd1d5",), ("pin", "trap"), True, 0.4, ("[%clk 1]",)
    )
    assert joined(second, first).share == 0.4
    assert joined(NO_COMMENT, first) is first
    assert joined(first, NO_COMMENT) is first
    assert joined(Comment(squares=("Gd5",)), Comment("Two.")).text == "Two."


SIGNS = st.text("[]%aside share csl,60Gd4\n ", max_size=80)


@given(SIGNS | st.text())
def test_any_text_is_a_comment(text: str) -> None:
    comment, _ = read(text)
    assert comment.text == comment.text.strip()
    assert "\n\n" not in comment.text


@pytest.mark.parametrize("text", ["[%" * 200_000, "[" * 400_000, "\n" * 400_000, "[%a " * 99_999])
def test_hostile_comments_are_read_in_one_pass(text: str) -> None:
    read(text)
