"""Reading `settings.toml`: what is good holds, what is not is named with its line."""

from __future__ import annotations

import os
import tomllib
from datetime import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from trainer.lines.letters import LANGUAGES as KNOWN_LETTERS
from trainer.service.settings import ReadSettings, Settings, read_settings
from trainer.service.settings.declared import LANGUAGES, SETTINGS
from trainer.service.settings.kinds import as_toml
from trainer.service.settings.places import lines_of_places


def read(folder: Path, text: str | bytes) -> ReadSettings:
    file = folder / "settings.toml"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_settings(file)


def problems(folder: Path, text: str | bytes) -> list[str]:
    """The sentences, the folder cut off."""
    return [sentence.replace(f"{folder}{os.sep}", "") for sentence in read(folder, text).problems]


def test_without_a_file_the_defaults_hold(tmp_path: Path) -> None:
    found = read_settings(tmp_path / "settings.toml")
    assert (found.settings, found.problems) == (Settings(), ())


@pytest.mark.parametrize("setting", SETTINGS, ids=lambda it: it.name)
def test_every_default_is_a_good_value_with_a_line_of_help(setting) -> None:  # type: ignore[no-untyped-def]
    assert setting.kind.read(as_toml(setting.default)) == setting.default
    assert setting.help.endswith(".") and "\n" not in setting.help
    assert setting.default in (setting.kind.choices or [setting.default])


def test_the_languages_are_those_whose_letters_are_known() -> None:
    assert sorted(LANGUAGES) == sorted(KNOWN_LETTERS)


# Worked by hand.
@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("hesitation_seconds = 6", "hesitation_seconds", 6.0),
        ("hesitation_seconds = 6.5", "hesitation_seconds", 6.5),
        ("fresh_per_day = 0", "fresh_per_day", 0),
        ('day_starts = "5:30"', "day_starts", time(5, 30)),
        ("day_starts = 05:30:00", "day_starts", time(5, 30)),
        ('first_look = "ask"', "first_look", "ask"),
        ('piece_letters = "de"', "piece_letters", "de"),
        ('pieces = "letters"', "pieces", "letters"),
        ('board_size = "small"', "board_size", "small"),
        ("show_targets = false", "show_targets", False),
        ('theme = "nord"', "theme", "nord"),
        ("motion = false", "motion", False),
        ("[schedule]\npart_credit = false", "part_credit", False),
        ("schedule.part_credit = false", "part_credit", False),
        ('[keys]\n"sitting.hint" = "f7"', "keys", {"sitting.hint": "f7"}),
        ('[keys]\nsitting.hint = "f7"', "keys", {"sitting.hint": "f7"}),
        ('[keys.sitting]\nhint = "f7"', "keys", {"sitting.hint": "f7"}),
        ("\ufeffmotion = false\r\n", "motion", False),
    ],
)
def test_what_is_read(tmp_path: Path, text: str, name: str, value: object) -> None:
    found = read(tmp_path, text)
    assert getattr(found.settings, name) == value
    assert found.problems == ()


# Worked by hand: where, what, and what is to be done.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            '\nfresh_per_day = "many"',
            "settings.toml, line 2: fresh_per_day = 'many' cannot be used "
            "(wanted: a whole number from 0 to 10000); 10 holds for this run",
        ),
        (
            "hesitation_seconds = inf",
            "settings.toml, line 1: hesitation_seconds = inf cannot be used (wanted: a number "
            "of seconds above 0, at most 3600); 8 holds for this run",
        ),
        ("hesitation_seconds = nan", "hesitation_seconds = nan cannot be used"),
        ("hesitation_seconds = 0", "hesitation_seconds = 0 cannot be used"),
        ("hesitation_seconds = true", "hesitation_seconds = true cannot be used"),
        ("fresh_per_day = 2.5", "fresh_per_day = 2.5 cannot be used"),
        ("fresh_per_day = 0x" + "F" * 9000, "fresh_per_day = so large a number cannot be used"),
        ('day_starts = "25:00"', "'04:00' holds for this run"),
        ("day_starts = 1979-05-27", "day_starts = a date cannot be used"),
        ('board_size = "huge"', 'wanted: "largest", "large", "medium" or "small"'),
        ("theme = {a = 1}", "theme = a table cannot be used"),
        ("motion = [true]", "motion = a list cannot be used"),
        ("[schedule]\npart_credit = 1", "settings.toml, line 2: schedule.part_credit = 1 cannot"),
        ("schedule = 1", "schedule = 1 cannot be used (wanted: a table [schedule])"),
        ("[[keys]]", "keys = a list cannot be used (wanted: a table [keys])"),
        (
            "\n\nhesitation_second = 3",
            "settings.toml, line 3: hesitation_second is no setting "
            "(did you mean hesitation_seconds?)",
        ),
        ("part_credit = true", "is no setting (did you mean part_credit, in [schedule]?)"),
        (
            "[schedule]\nmotion = true",
            "settings.toml, line 2: schedule.motion is no setting "
            "(did you mean motion, above the first [table]?)",
        ),
        ("[schedul]", "settings.toml, line 1: schedul is no setting (did you mean [schedule]?)"),
        ("zzz = 1", "settings.toml, line 1: zzz is no setting"),
        ('"\\u001b[31m" = 1', "'\\x1b[31m' is no setting"),
        ("[keys]\nsitting.hint = 3", "settings.toml, line 2: sitting.hint = 3 cannot be used"),
        ("[keys]\na.b.c = 'x'", "settings.toml, line 2: a.b = a table cannot be used"),
        ("[keys]\n'a.b' = 'x'\na.b = 'y'", "a.b is given twice; the first one holds"),
    ],
)
def test_what_is_not_understood_is_named(tmp_path: Path, text: str, said: str) -> None:
    (sentence,) = problems(tmp_path, text)
    assert said in sentence
    assert len(sentence) < 250


# Worked by hand: no TOML, no text, or a text made to hurt.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("motion = false\ntheme = =", "settings.toml, line 2, column 9: invalid value"),
        ("motion = false\nx = [", "settings.toml, line 2, column 6: invalid value"),
        (b"motion = false\n\xff", "settings.toml, line 2: not UTF-8; save it as UTF-8"),
        ("a = " + "[" * 5000, "settings.toml: nested too deeply"),
        ("motion = false\na = " + "9" * 5000, "settings.toml, line 2, column 5: a number that"),
        ("#" * (1 << 21), "settings.toml: larger than 1 MB"),
    ],
    ids=["no value", "cut off", "no utf-8", "deep", "a long number", "large"],
)
def test_a_file_that_is_no_toml_is_one_line(tmp_path: Path, text: str | bytes, said: str) -> None:
    (sentence,) = problems(tmp_path, text)
    assert sentence.startswith(said)
    assert sentence.endswith("; the defaults hold for this run")
    assert read_settings(tmp_path / "settings.toml").settings == Settings()


def test_deep_tables_are_named_once(tmp_path: Path) -> None:
    assert len(problems(tmp_path, "keys" + ".a" * 5000 + " = 1")) == 1
    assert len(problems(tmp_path, "a" + ".a" * 5000 + " = 1")) == 1


def test_a_folder_in_its_place_is_named(tmp_path: Path) -> None:
    (sentence,) = read_settings(tmp_path).problems
    assert "this is no file" in sentence


def test_problems_come_in_the_order_of_their_lines(tmp_path: Path) -> None:
    found = problems(tmp_path, "zzz = 1\nmotion = 2\n[keys]\nx = 1\n[schedule]\nyyy = 1\n")
    assert [sentence.split(":")[0] for sentence in found] == [
        f"settings.toml, line {line}" for line in (1, 2, 4, 6)
    ]


# Worked by hand.
@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("a = 1\n\nb = 2", {("a",): 1, ("b",): 3}),
        ("[t]\na = 1", {("t",): 1, ("t", "a"): 2}),
        ("[t]\na.b = 1", {("t",): 1, ("t", "a"): 2, ("t", "a", "b"): 2}),
        ("'a.b' = 1\n\"c d\" = 2", {("a.b",): 1, ("c d",): 2}),
        ('a = """\nb = 1\n"""\nc = 1', {("a",): 1, ("c",): 4}),
        ("a = '''\nb = 1\n'''\nc = '#'\nd = 1", {("a",): 1, ("c",): 4, ("d",): 5}),
        ("# a = 1\nb = [\n  [1],\n]\nc = 1", {("b",): 2, ("c",): 5}),
        ("[[x]]\na = 1\n[t]\nb = 1", {("t",): 3, ("t", "b"): 4}),
    ],
)
def test_lines_of_keys(text: str, lines: dict[tuple[str, ...], int]) -> None:
    assert lines_of_places(text, tomllib.loads(text)) == lines


_VALUES = st.one_of(
    st.integers(),
    st.booleans(),
    st.floats(),
    st.text(max_size=8).map(repr),
    st.sampled_from(["[]"]),
)


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.one_of(
        st.binary(max_size=60),
        st.text(max_size=60),
        st.builds("{} = {}\n".format, st.sampled_from([it.name for it in SETTINGS]), _VALUES),
    )
)
def test_nothing_makes_it_raise(tmp_path: Path, text: str | bytes) -> None:
    data = text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass")
    found = read(tmp_path, data)
    for sentence in found.problems:
        assert "\n" not in sentence and sentence.isprintable()
