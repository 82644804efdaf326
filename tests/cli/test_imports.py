"""What the quick commands must not load: each costs more than the command itself."""

import subprocess
import sys

import pytest

from tests.cli.runs import named


@pytest.mark.parametrize(
    ("arguments", "kept_out"),
    [
        (["--help"], {"textual", "sqlite_utils", "sqlite3", "chess"}),
        (["--version"], {"textual", "sqlite_utils", "sqlite3", "chess"}),
        (["practice", "--help"], {"textual", "sqlite_utils", "sqlite3", "chess"}),
        (["today"], {"textual", "chess", "tomllib"}),
        (["today", "--json"], {"textual", "chess", "tomllib"}),
        (["practice", "--plain"], {"textual"}),
        (["practice", "--json"], {"textual"}),
        (["deck", "list"], {"textual"}),
    ],
    ids=named,
)
@pytest.mark.usefixtures("shelf")
def test_modules_that_are_not_loaded(arguments: list[str], kept_out: set[str]) -> None:
    code = (
        "import sys, atexit\n"
        "atexit.register(lambda: print(*sys.modules, file=sys.stderr))\n"
        "from trainer.cli.main import main\n"
        "main()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    loaded = set(done.stderr.decode().split())
    assert "click" in loaded
    assert not loaded & kept_out
