"""The group: help, version, homes, the terminal, and what errors come to."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import types
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from tests.cli.runs import PROGRAM, document, named, program, run
from trainer.cli.main import trainer

GOLDEN = Path(__file__).parent / "golden"


def every_command(group: click.Group, *names: str) -> Iterator[tuple[str, ...]]:
    """The words of every command and group below this one."""
    for name, command in group.commands.items():
        yield (*names, name)
        if isinstance(command, click.Group):
            yield from every_command(command, *names, name)


def test_help_is_as_published() -> None:
    assert run("--help").stdout == (GOLDEN / "trainer-help.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("words", list(every_command(trainer)), ids=" ".join)
def test_every_command_helps_with_an_example(words: tuple[str, ...]) -> None:
    told = run(*words, "--help").stdout
    assert f"Example:\n    trainer {words[0]}" in told
    assert max(map(len, told.splitlines())) <= 80


def test_the_version_is_told() -> None:
    assert run("--version").stdout.startswith("trainer")


def test_without_a_terminal_the_program_names_the_plain_face() -> None:
    result = run()
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith("trainer: the program needs a terminal")
    assert "`trainer practice --plain`" in result.stderr
    assert result.stderr.count("\n") == 1


@pytest.mark.parametrize(
    ("arguments", "home", "wish"),
    [
        ([], None, None),
        (["--home", "x"], Path("x"), None),
        (["practice"], None, (None, None, None, None)),
        (["--home", "x", "practice", "small"], Path("x"), ("small", None, None, None)),
        (["practice", "--branch", "1. e4", "--home", "x"], Path("x"), (None, None, "1. e4", None)),
        (["practice", "s", "--chapter", "c", "--fresh", "0"], None, ("s", "c", None, 0)),
    ],
    ids=named,
)
def test_on_a_terminal_the_program_opens(
    arguments: list[str],
    home: Path | None,
    wish: tuple[object, ...] | None,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    opened: list[tuple[object, object]] = []
    program = types.ModuleType("trainer.app.main")

    def run_app(folder: Path | None, wanted: object) -> int:
        opened.append((folder, wanted))
        return 3

    monkeypatch.setattr(program, "run_app", run_app, raising=False)
    monkeypatch.setitem(sys.modules, "trainer.app.main", program)
    for module in ("main", "practice"):
        monkeypatch.setattr(f"trainer.cli.{module}.on_a_terminal", lambda: True)
    assert run(*arguments).exit_code == 3
    ((folder, wanted),) = opened
    assert folder == home
    if wish is None:
        assert wanted is None
    else:
        from trainer.service.preparation import Wish

        assert wanted == Wish(*wish)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "arguments",
    [
        ["--home", "{}", "data", "where"],
        ["data", "--home", "{}", "where"],
        ["data", "where", "--home", "{}"],
    ],
    ids=["before", "between", "after"],
)
def test_a_home_may_be_named_anywhere(arguments: list[str], tmp_path: Path) -> None:
    found = document(*(word.format(tmp_path / "other") for word in arguments))
    assert found["home"] == str(tmp_path / "other")


def test_the_last_home_named_holds(tmp_path: Path) -> None:
    found = document(
        "--home", str(tmp_path / "one"), "data", "where", "--home", str(tmp_path / "two")
    )
    assert found["home"] == str(tmp_path / "two")


@pytest.mark.parametrize(
    "arguments",
    [
        ["nosuch"],
        ["today", "--nosuch"],
        ["practice", "--fresh", "-1"],
        ["practice", "--plain", "--json"],
        ["practice", "--branch", "1. e4", "--fresh", "3"],
        ["deck", "add"],
        ["deck", "add", "x.pgn", "--side", "red"],
        ["position"],
        ["--home", __file__, "today"],
    ],
    ids=named,
)
def test_wrong_usage_exits_with_2(arguments: list[str]) -> None:
    result = run(*arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Usage: trainer" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["practice", "nosuch"], "there is no deck 'nosuch'"),
        (["practice", "--branch", "1. e5"], "--branch: 1. e5 is not legal"),
        (["practice", "--branch", "1. c4"], "--branch: no open card"),
        (["practice", "small", "--chapter", "x"], "has no chapter 'x'"),
        (["deck", "show", "a\nb\x1b[31m"], "there is no deck"),
        (["deck", "add", "nosuch.pgn", "--side", "white"], "nosuch.pgn"),
        (["position", "1. e5"], "1. e5 is not legal"),
        (["position", "8/8/8/8/8/8/8/8 w - -"], "is no position"),
        (["position", "\x1b[31m"], "neither a FEN nor a line"),
        (["--home", "x" * 5000, "today"], "cannot be opened"),
        (["--home", "/dev/null/x", "today"], "cannot be opened"),
    ],
    ids=[str(number) for number in range(11)],
)
@pytest.mark.usefixtures("shelf")
def test_bad_input_gets_one_line_and_exits_with_1(arguments: list[str], told: str) -> None:
    result = run(*arguments)
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith("trainer: ")
    assert told in result.stderr
    assert result.stderr.count("\n") == 1
    assert "\x1b" not in result.stderr


def test_a_clock_that_cannot_be_read_is_bad_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TRAINER_NOW", "tomorrow")
    result = run("today")
    assert result.exit_code == 1
    assert "TRAINER_NOW is 'tomorrow'" in result.stderr


def test_settings_that_are_not_understood_leave_the_report_clean(home: Path) -> None:
    home.mkdir(parents=True)
    (home / "settings.toml").write_text('fresh_per_day = "many"\n', encoding="utf-8")
    result = run("today", "--json")
    assert result.exit_code == 0
    assert result.stdout.startswith("{")
    assert "fresh_per_day = 'many' cannot be used" in result.stderr


# --- As a program of its own


def test_usage_errors_repeat_arguments_without_control_characters() -> None:
    done = program("--a\x1b[31mb\u202e")
    assert done.returncode == 2
    assert b"No such option" in done.stderr
    assert b"\x1b" not in done.stderr
    assert "\u202e".encode() not in done.stderr


def test_domain_errors_exit_with_1_without_a_traceback() -> None:
    done = program("deck", "show", "nosuch")
    assert done.returncode == 1
    assert done.stderr.startswith(b"trainer: there is no deck 'nosuch'")
    assert done.stderr.count(b"\n") == 1


def test_a_terminal_with_few_characters_gets_question_marks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PYTHONIOENCODING", "latin-1")
    done = program("--home", str(tmp_path / "Łódź"), "data", "where")
    assert done.returncode == 0, done.stderr
    assert "?ód?".encode("latin-1") in done.stdout


@pytest.mark.usefixtures("shelf")
def test_ctrl_c_ends_quietly() -> None:
    sitting = subprocess.Popen(
        [*PROGRAM, "practice", "--json"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    with sitting:
        assert sitting.stdout is not None and sitting.stderr is not None
        while b'"ask"' not in sitting.stdout.readline():
            pass
        sitting.send_signal(signal.SIGINT)
        assert sitting.stderr.read().strip() == b""
    assert sitting.returncode == 130


def test_a_closed_pipe_ends_quietly() -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    try:
        done = subprocess.run([*PROGRAM, "--help"], stdout=write_end, stderr=subprocess.PIPE)
    finally:
        os.close(write_end)
    assert done.returncode == 1
    assert done.stderr == b""


def test_closed_standard_streams_are_no_crash() -> None:
    done = subprocess.run(
        ["sh", "-c", '"$@" <&- >&-', "sh", *PROGRAM, "practice", "--plain"], capture_output=True
    )
    assert (done.returncode, done.stderr) == (0, b"")
