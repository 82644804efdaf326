"""`trainer deck handout`: by id and by path, to standard output and into a file."""

from __future__ import annotations

import subprocess
from html import unescape
from pathlib import Path

import pytest

from tests.cli.runs import PROGRAM, run
from tests.small_decks import BLACK, FIRST, SECOND, write_deck
from trainer.cli import deck_handout


def page(*arguments: str) -> str:
    """What the command writes when all is well."""
    result = run("deck", "handout", *arguments)
    assert result.exit_code == 0, result.output
    assert result.stderr == ""
    return result.stdout


@pytest.mark.usefixtures("shelf")
def test_a_deck_on_the_shelf_becomes_a_page() -> None:
    text = page("small")
    assert text.startswith("<!DOCTYPE html>\n")
    assert text.endswith("</html>\n")
    assert "Chapter first" in text
    assert "Chapter answer" in text


def test_a_path_gives_the_same_without_being_added(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST, "second": SECOND})
    text = page(str(folder))
    assert "there is no deck 'small'" in run("deck", "show", "small").stderr
    run("deck", "add", str(folder))
    assert page("small") == text


@pytest.mark.usefixtures("shelf")
def test_the_shelf_comes_before_a_folder_of_the_same_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    write_deck(tmp_path / "small", {"first": SECOND}, title="Another")
    assert "<title>Small</title>" in page("small")
    assert "<title>Another</title>" in page("./small")


def test_a_single_pgn_file_needs_its_side(tmp_path: Path) -> None:
    file = tmp_path / "mine.pgn"
    file.write_text(BLACK, encoding="utf-8")
    result = run("deck", "handout", str(file))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--side white or --side black" in result.stderr
    text = page(str(file), "--side", "black")
    assert "Lines for Black." in text
    file.write_text(BLACK.replace("dxe4", "g6"), encoding="utf-8")
    run("deck", "add", str(file), "--side", "black")
    file.write_text(BLACK, encoding="utf-8")
    run("deck", "add", str(file), "--side", "black")
    # On the shelf its edition has risen, and its side is known.
    assert page("mine-black") == text.replace("Edition 1", "Edition 2").replace(
        "edition 1", "edition 2"
    )


@pytest.mark.usefixtures("shelf")
def test_into_a_file(tmp_path: Path) -> None:
    target = tmp_path / "class.html"
    target.write_text("an earlier one", encoding="utf-8")
    result = run("deck", "handout", "small", "--to", str(target))
    assert result.exit_code == 0
    assert result.stdout == f"{target}: Small, edition 1: 3 chapters, 3 diagrams.\n"
    # What goes to standard output spells letters beyond ASCII by their numbers.
    assert unescape(target.read_text(encoding="utf-8")) == unescape(page("small"))


@pytest.mark.usefixtures("shelf")
def test_as_text_and_one_chapter_alone() -> None:
    text = page("small", "--format", "text", "--chapter", "answer")
    assert text.startswith("Small\n=====\nEdition 1\n")
    assert "3 Chapter answer\n================\nLines for Black.\n" in text
    assert "Chapter first" not in text
    assert max(map(len, text.splitlines())) <= 78


def test_letters_beyond_the_terminals_survive(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST}, title="Ägäis Łódź")
    command = [*PROGRAM, "deck", "handout", str(folder)]
    done = subprocess.run(command, capture_output=True, env={"PYTHONIOENCODING": "ascii"})
    assert done.returncode == 0, done.stderr
    assert b"<title>&#196;g&#228;is &#321;&#243;d&#378;</title>" in done.stdout
    target = tmp_path / "page.html"
    run("deck", "handout", str(folder), "--to", str(target))
    assert "<title>Ägäis Łódź</title>" in target.read_text(encoding="utf-8")


def test_a_page_is_not_poured_over_a_terminal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST})
    monkeypatch.setattr(deck_handout, "_is_terminal", lambda: True)
    result = run("deck", "handout", str(folder))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--to FILE" in result.stderr
    assert page(str(folder), "--format", "text").startswith("Small\n")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["nosuch"], "there is no deck 'nosuch'; the decks are: small"),
        (["no/such"], "no/such: "),
        (["nosuch.deck.zip"], "nosuch.deck.zip"),
        (["small", "--chapter", "x"], "has no chapter 'x'; its chapters are: first, second"),
        (["small", "--to", "."], ".: is no plain file"),
        (["small", "--to", "/dev/null"], "/dev/null: is no plain file"),
        (["small", "--to", "no/such/folder/x.html"], "no/such/folder/x.html: cannot be written"),
        (["small", "--to", "x" * 5000], "cannot be written"),
        (["x" * 5000], "there is no deck"),
        (["a\x00b"], "there is no deck"),
    ],
    ids=[str(number) for number in range(10)],
)
@pytest.mark.usefixtures("shelf")
def test_bad_input_gets_one_line(arguments: list[str], told: str) -> None:
    result = run("deck", "handout", *arguments)
    assert (result.exit_code, result.stdout) == (1, "")
    assert told in result.stderr
    assert result.stderr.count("\n") == 1


def test_a_deck_with_errors_is_not_printed(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST.replace("fxe5", "fxe6")})
    result = run("deck", "handout", str(folder), "--to", str(tmp_path / "x.html"))
    assert (result.exit_code, result.stdout) == (1, "")
    assert "first.pgn, line 11: " in result.stderr
    assert not (tmp_path / "x.html").exists()


@pytest.mark.usefixtures("shelf")
def test_files_missing_in_the_home_are_told(home: Path) -> None:
    (home / "decks" / "small" / "edition-1" / "first.pgn").unlink()
    result = run("deck", "handout", "small")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "add the deck again" in result.stderr


def test_a_file_that_is_no_handout_is_not_replaced_unasked(tmp_path: Path) -> None:
    folder = write_deck(tmp_path / "small", {"first": FIRST})
    chapter = folder / "first.pgn"
    result = run("deck", "handout", str(folder), "--to", str(chapter))
    assert (result.exit_code, chapter.read_text(encoding="utf-8")) == (1, FIRST)
    assert "looks like no handout" in result.stderr
    page = tmp_path / "page.html"
    for _ in range(2):
        assert run("deck", "handout", str(folder), "--to", str(page)).exit_code == 0
    other = tmp_path / "notes.md"
    other.write_text("mine", encoding="utf-8")
    assert run("deck", "handout", str(folder), "--to", str(other), "--yes").exit_code == 0
