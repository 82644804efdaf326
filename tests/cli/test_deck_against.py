"""What stands under `deck check --against`."""

from __future__ import annotations

from pathlib import Path

import click
import pytest

from tests.cli.runs import document, run
from tests.small_decks import FIRST, write_deck
from trainer.cli.deck_against import account_against, as_data, told
from trainer.errors import TrainerError

END = "1. e4 e5 2. Nc3 Nf6 3. f4 d5 4. fxe5 Nxe4"


def test_an_account_of_two_paths_makes_no_home(tmp_path: Path, home: Path) -> None:
    old = write_deck(tmp_path / "old", {"first": FIRST})
    better = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3")
    new = write_deck(tmp_path / "new", {"first": better}, edition=2)
    account = account_against(new, None, str(old))
    assert list(told(account)) == [
        "Against edition 1: 5 cards kept, 0 new, 1 with another answer, 0 withdrawn.",
        f"  {END}: Qf3 in place of Nf3; asked afresh.",
    ]
    data = as_data(account)
    assert (data["edition"], data["cards"]["changed"], len(data["changes"])) == (1, 1, 1)
    assert not home.exists()


@pytest.mark.parametrize("name", ["nosuch", "x" * 5000, "nul\0"])
def test_what_is_neither_a_path_nor_a_deck_is_refused(tmp_path: Path, name: str) -> None:
    with click.Context(click.Command("check")), pytest.raises(TrainerError, match="no deck"):
        account_against(write_deck(tmp_path / "new", {"first": FIRST}), None, name)


def test_the_check_tells_it_beside_its_findings(tmp_path: Path) -> None:
    old = write_deck(tmp_path / "old", {"first": FIRST})
    better = FIRST.replace("5. Nf3 {Keeps the queen off h4.}", "5. Qf3 {Hits e4.}")
    new = str(write_deck(tmp_path / "new", {"first": better}, edition=2))
    checked = document("deck", "check", new, "--against", str(old))
    assert checked["against"]["cards"] == {"kept": 5, "new": 0, "changed": 1, "withdrawn": 0}
    told_lines = run("deck", "check", new, "--against", str(old)).stdout.splitlines()
    assert told_lines[-1] == f"  {END}: Qf3 in place of Nf3; asked afresh."
    run("deck", "add", str(old))
    assert document("deck", "check", new, "--against", "small")["against"] == checked["against"]
