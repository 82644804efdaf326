"""The documents say what is there, and their commands run."""

import re
import tomllib
from dataclasses import fields
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from trainer.cli.main import trainer as command
from trainer.service.settings import Settings, read_settings

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def block_after(mark: str) -> str:
    found = re.search(rf"<!-- {mark} -->\n```\w*\n(.*?)```", README, re.DOTALL)
    assert found is not None, f"the README has no block marked {mark}"
    return found[1].strip()


@pytest.mark.parametrize("mark", ["the demo", "the tests"])
def test_the_two_commands_are_one_line_each(mark: str) -> None:
    assert "\n" not in block_after(mark)
    assert block_after(mark).startswith("python3 -m venv .venv && .venv/bin/pip install")


def commands(group: click.Group) -> list[tuple[str, ...]]:
    found: list[tuple[str, ...]] = []
    for name, entry in group.commands.items():
        below = commands(entry) if isinstance(entry, click.Group) else [()]
        found += [(name, *rest) for rest in below]
    return found


@pytest.mark.parametrize("words", commands(command), ids=" ".join)
def test_every_command_is_documented_and_has_help(words: tuple[str, ...]) -> None:
    rows = [line for line in README.splitlines() if line.startswith(f"| `trainer {words[0]}")]
    assert rows, f"the README's table has no trainer {words[0]}"
    told = " ".join(rows)
    assert all(f"`{word}`" in told or f" {word}" in told for word in words)
    shown = CliRunner().invoke(command, [*words, "--help"])
    assert shown.exit_code == 0
    assert len(shown.output.splitlines()) > 5


def test_the_readme_shows_every_setting_with_its_default(tmp_path: Path) -> None:
    found = re.search(r"```toml\n(.*?)```", README, re.DOTALL)
    assert found is not None
    table = tomllib.loads(found[1])
    shown = {name for name in table if name != "schedule"} | set(table["schedule"])
    assert shown == {field.name for field in fields(Settings)}
    file = tmp_path / "settings.toml"
    file.write_text(found[1])
    read = read_settings(file)
    assert (read.settings, read.problems) == (Settings(), ())


def test_every_benchmark_is_listed() -> None:
    names = {path.stem for path in (ROOT / "tests" / "bench").glob("*.py")} - {"pairs", "recorder"}
    assert {name for name in names if f"tests.bench.{name}" not in DEVELOPERS} == set()


def test_every_library_has_its_reason() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["dev"]]
    names = [re.split(r"[<>=]", text)[0] for text in wanted]
    assert [name for name in names if f"`{name}`" not in DEVELOPERS] == []
