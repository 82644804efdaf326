"""The same deck as a pack is the same bytes, and any zip program can read them."""

from __future__ import annotations

import io
import shutil
import subprocess
import zipfile
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.pack import packed_bytes
from trainer.deck.packed import PackedFiles

FILES = {"deck.toml": b"id = 1\n", "part/Größe.pgn": b"1. e4 *\n"}

PARTS = st.text("abcxyz0-ä", min_size=1, max_size=9)
NAMES = st.lists(PARTS, min_size=1, max_size=2).map("/".join).map(lambda name: f"{name}.pgn")


def test_the_bytes_are_fixed() -> None:
    # No source: what the first version wrote, on Python 3.11. A change of it makes every pack
    # of an unchanged deck another file.
    data = packed_bytes("small", FILES)
    assert data == packed_bytes("small", dict(FILES))
    assert (
        sha256(data).hexdigest()
        == "3b8d736b00fa078ea61879468ec15bf3be0b99f881ab1bcbe8d197fb2bc182db"
    )


def test_no_time_and_no_machine_is_in_it() -> None:
    for entry in zipfile.ZipFile(io.BytesIO(packed_bytes("small", FILES))).infolist():
        assert entry.date_time == (1980, 1, 1, 0, 0, 0)
        assert (entry.create_system, entry.external_attr >> 16) == (3, 0o100644)
        assert entry.compress_type == zipfile.ZIP_STORED


@given(st.dictionaries(NAMES, st.binary(max_size=50), max_size=5), st.binary(max_size=50))
def test_what_was_packed_comes_out_again(
    tmp_path_factory: pytest.TempPathFactory, chapters: dict[str, bytes], manifest: bytes
) -> None:
    files = {"deck.toml": manifest, **chapters}
    path = tmp_path_factory.mktemp("pack") / "x.deck.zip"
    path.write_bytes(packed_bytes("a-deck", files))
    pack = PackedFiles(path, path.name)
    assert {name: pack.read(name, 50) for name in files} == files


@pytest.mark.skipif(shutil.which("unzip") is None, reason="needs the unzip program")
def test_another_program_unpacks_the_folder(tmp_path: Path) -> None:
    # Agrees with Info-ZIP UnZip 6.00, run live.
    (tmp_path / "x.zip").write_bytes(packed_bytes("small", FILES))
    subprocess.run(["unzip", "-q", "x.zip"], cwd=tmp_path, check=True)
    for name, data in FILES.items():
        assert (tmp_path / "small" / name).read_bytes() == data
