"""The built wheel runs by itself, with its deck and its demo inside."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parent.parent


def test_the_demo_runs_from_a_built_wheel_in_an_empty_folder(tmp_path: Path) -> None:
    pip = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check"]
    build = ["wheel", "--no-deps", "--no-build-isolation", "--wheel-dir", str(tmp_path), str(ROOT)]
    subprocess.run([*pip, *build], check=True)
    (wheel,) = tmp_path.glob("*.whl")
    installed, empty = tmp_path / "installed", tmp_path / "empty"
    zipfile.ZipFile(wheel).extractall(installed)
    empty.mkdir()
    # The wheel's files come first; only its dependencies are the test's own.
    ran = subprocess.run(
        [sys.executable, "-c", "import trainer; print(trainer.__file__)"],
        cwd=empty,
        env=os.environ | {"PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert Path(ran.stdout.strip()).is_relative_to(installed)
    demo = subprocess.run(
        [sys.executable, "-m", "trainer", "demo", "--plain"],
        cwd=empty,
        env=os.environ | {"PYTHONPATH": str(installed)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
    assert (demo.returncode, demo.stderr) == (0, "")
    assert "The Vienna" in demo.stdout
    assert list(empty.iterdir()) == []
    made = subprocess.run(
        [sys.executable, "-m", "trainer", "deck", "new", str(empty / "mine")],
        cwd=empty,
        env=os.environ | {"PYTHONPATH": str(installed), "TRAINER_HOME": str(tmp_path / "home")},
        capture_output=True,
        text=True,
    )
    assert (made.returncode, made.stderr) == (0, "")
    assert (empty / "mine" / "deck.toml").is_file()
