"""Lines of standard input: whatever comes, a line is bounded and the next one is whole."""

import io

from hypothesis import given
from hypothesis import strategies as st

from trainer.cli.lines_in import LONGEST_LINE, TimedLines


def all_lines(data: bytes) -> list[str]:
    lines = TimedLines(io.BytesIO(data))
    found = []
    while (text := lines.next()[0]) is not None:
        found.append(text)
    return found


@given(st.lists(st.binary().filter(lambda line: b"\n" not in line)))
def test_every_line_comes_once(raw: list[bytes]) -> None:
    wanted = [line.decode(errors="replace").rstrip("\r") for line in raw]
    assert all_lines(b"".join(line + b"\n" for line in raw)) == wanted


def test_a_last_line_needs_no_end() -> None:
    assert all_lines(b"e4\r\nNf3") == ["e4", "Nf3"]


@given(st.integers(min_value=-2, max_value=2), st.integers(min_value=1, max_value=3))
def test_a_long_line_is_cut_and_the_next_one_is_whole(more: int, times: int) -> None:
    length = times * LONGEST_LINE + more
    cut, last = all_lines(b"x" * length + b"\ne4")
    assert (len(cut), last) == (min(length, LONGEST_LINE), "e4")
