"""How tests call the command line: inside this process, or as a program of its own."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from tests.small_decks import BLACK, FIRST, SECOND, write_deck
from trainer.cli.main import trainer

PROGRAM = (sys.executable, "-m", "trainer")


def run(*arguments: str, typed: str | bytes = "") -> Result:
    """Call a command with these lines on its standard input, which is no terminal."""
    result = CliRunner().invoke(trainer, arguments, input=typed, prog_name="trainer")
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def document(*arguments: str) -> Any:
    """The one JSON document of a command that ends well."""
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def events(*arguments: str, answers: Iterable[object] = ()) -> list[dict[str, Any]]:
    """The events of `practice --json`; answers are objects, or text as it is."""
    lines = [answer if isinstance(answer, str) else json.dumps(answer) for answer in answers]
    result = run("practice", *arguments, "--json", typed="".join(f"{line}\n" for line in lines))
    assert result.exit_code == 0, result.output
    return [json.loads(line) for line in result.stdout.splitlines()]


def program(*arguments: str, typed: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    """Run the command line as a program of its own."""
    return subprocess.run([*PROGRAM, *arguments], input=typed, capture_output=True, timeout=60)


def add_small_deck(tmp_path: Path) -> None:
    """Add the deck `small`: White's e4 e5 Nc3 and Black's answer to e4."""
    folder = write_deck(
        tmp_path / "small",
        {"first": FIRST, "second": SECOND, "answer": BLACK},
        sides={"answer": "black"},
    )
    result = run("deck", "add", str(folder))
    assert result.exit_code == 0, result.output


def named(value: object) -> str | None:
    """The name of a case: the words of its command, or whatever pytest makes of others."""
    return " ".join(value) if isinstance(value, list) else None
