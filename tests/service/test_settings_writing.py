"""Writing `settings.toml`: one value changes, all else stays as its writer had it."""

from __future__ import annotations

import re
import stat
from datetime import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from trainer.service.settings import read_settings
from trainer.service.settings.declared import BY_NAME, SETTINGS
from trainer.service.settings.file_text import SettingsFileError
from trainer.service.settings.places import Place
from trainer.service.settings.writing import HEADING, write_value
from trainer.service.study import open_study

HINT: Place = ("keys", "sitting.hint")
CREDIT: Place = ("schedule", "part_credit")


def written(file: Path, text: str | None, place: Place, value: Any) -> str:
    """The file's text after a change, line ends as they are."""
    if text is not None:
        file.write_bytes(text.encode())
    write_value(file, place, value)
    return file.read_bytes().decode()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "settings.toml"


# Worked by hand.
@pytest.mark.parametrize(
    ("before", "place", "value", "after"),
    [
        ("motion = true # c\n", ("motion",), False, "motion = false # c\n"),
        ("x = 1", ("theme",), "nord", 'x = 1\ntheme = "nord"  # The colours.\n'),
        ("# my own\n", ("theme",), "nord", '# my own\ntheme = "nord"  # The colours.\n'),
        (
            "x = 1\n\n# on the schedule\n[schedule]\n",
            ("theme",),
            "nord",
            'x = 1\ntheme = "nord"  # The colours.\n\n# on the schedule\n[schedule]\n',
        ),
        (
            "x = [\n  1,\n]\n\n[t]\n",
            ("theme",),
            "nord",
            'x = [\n  1,\n]\ntheme = "nord"  # The colours.\n\n[t]\n',
        ),
        ("x = 1\r\n", ("theme",), "a", 'x = 1\r\ntheme = "a"  # The colours.\r\n'),
        ("\ufeffx = 1\n", ("theme",), "a", '\ufeffx = 1\ntheme = "a"  # The colours.\n'),
        ("x = nan\nmotion = true\n", ("motion",), False, "x = nan\nmotion = false\n"),
        ("hesitation_seconds = 8\n", ("hesitation_seconds",), 6.5, "hesitation_seconds = 6.5\n"),
        ("hesitation_seconds = 8.5\n", ("hesitation_seconds",), 6.0, "hesitation_seconds = 6\n"),
        ("day_starts = '04:00'\n", ("day_starts",), time(5), 'day_starts = "05:00"\n'),
        ("[keys]\na.b = 'x'\n\n# t\n[t]\n", HINT, "f7", None),
        ("schedule = {part_credit = true} # c\n", CREDIT, False, None),
        ("schedule.part_credit = true\n", CREDIT, False, "schedule.part_credit = false\n"),
        ("[keys.sitting]\nhint = 'x' # c\n", HINT, "f7", '[keys.sitting]\nhint = "f7" # c\n'),
        ("[keys]\nsitting.hint = 'x'\n", HINT, "f7", '[keys]\nsitting.hint = "f7"\n'),
        # Taking out.
        ("motion = true # why\nx = 1\n", ("motion",), None, "# why\nx = 1\n"),
        ("theme = 'a'  # The colours.\nx = 1\n", ("theme",), None, "x = 1\n"),
        ("# above\ntheme = '''\na'''\n# below\n", ("theme",), None, "# above\n# below\n"),
        ("theme = '#' # a # b\n", ("theme",), None, "# a # b\n"),
        ("[keys]\nsitting.hint = 'x'\n'sitting.hint' = 'y'\n", HINT, None, "[keys]\n"),
        ("schedule = {part_credit = true}\n", CREDIT, None, "schedule = {}\n"),
        ("x = 1\n", ("theme",), None, "x = 1\n"),
    ],
)
def test_one_value_changes(
    file: Path, before: str, place: Place, value: Any, after: str | None
) -> None:
    text = written(file, before, place, value)
    if after is None:
        after = {
            HINT: '[keys]\na.b = \'x\'\n"sitting.hint" = "f7"\n\n# t\n[t]\n',
            CREDIT: "schedule = {part_credit = false} # c\n",
        }[place]
    assert text == after


def test_a_missing_file_is_made_with_a_heading_and_what_was_changed(file: Path) -> None:
    text = written(file, None, ("fresh_per_day",), 12)
    assert text == f"{HEADING}fresh_per_day = 12  # {BY_NAME['fresh_per_day'].help}\n"
    assert written(file, None, ("fresh_per_day",), None) == HEADING


def test_taking_out_makes_no_file(file: Path) -> None:
    write_value(file, ("motion",), None)
    assert not file.exists()


# Worked by hand: what is no TOML, or is no table where one has to be.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("motion = \n", "line 1, column 10: invalid value"),
        ("x = " + "[" * 5000, "nested too deeply"),
        ("a" + ".a" * 5000 + " = 1\n", "motion cannot be changed as it is written there"),
        ("[motion]\na = 1 # mine\n", "motion cannot be changed as it is written there"),
    ],
    ids=["no value", "deep", "deep tables", "a table"],
)
def test_what_cannot_be_changed_is_left_alone(file: Path, text: str, said: str) -> None:
    file.write_text(text)
    with pytest.raises(SettingsFileError, match=said):
        write_value(file, ("motion",), False)
    assert file.read_text() == text


@pytest.mark.parametrize("text", ["schedule = 1\n", "[[schedule]]\n"])
def test_a_table_that_is_none_is_left_alone(file: Path, text: str) -> None:
    file.write_text(text)
    with pytest.raises(SettingsFileError, match="part_credit cannot be changed"):
        write_value(file, CREDIT, False)
    assert file.read_text() == text


def test_the_mode_stays_and_nothing_else_is_left(file: Path) -> None:
    file.write_text("motion = true\n")
    file.chmod(0o640)
    write_value(file, ("motion",), False)
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert list(file.parent.iterdir()) == [file]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    target, link = tmp_path / "elsewhere" / "mine.toml", tmp_path / "settings.toml"
    target.write_text("motion = true\n")
    link.symlink_to(target)
    write_value(link, ("motion",), False)
    assert link.is_symlink() and target.read_text() == "motion = false\n"


def test_what_cannot_be_written_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a file where the folder has to be")
    with pytest.raises(SettingsFileError, match=r"settings\.toml: cannot be .* \(") as error:
        write_value(tmp_path / "home" / "settings.toml", ("motion",), False)
    assert "\n" not in str(error.value)


def test_an_editor_meanwhile_is_not_overwritten(home: Path) -> None:
    with open_study() as study:
        study.change("fresh_per_day", value=5)
        file = study.home.settings_file
        file.write_text(f'{file.read_text()}theme = "nord"\n')
        study.change("motion", value=False)
        found = study.settings
        assert (found.fresh_per_day, found.theme, found.motion) == (5, "nord", False)
    assert read_settings(home / "settings.toml").settings == found


def test_a_change_holds_at_once_and_can_be_taken_back(home: Path) -> None:
    with open_study() as study:
        day = study.today
        study.change("day_starts", value=time(19))  # it is 18:00
        assert (day - study.today).days == 1
        study.change("day_starts", value=None)
        assert study.today == day
        (home / "settings.toml").write_text("motion = =")
        with pytest.raises(SettingsFileError):
            study.change("day_starts", value=time(19))
        assert study.today == day


# Any file, any changes

_COMMENTS = st.sampled_from(["# a note", "# on = 1", "#", "", "   # far in", '# "quoted'])
_UNKNOWN = st.sampled_from(
    ["x = 0o17", "y = 'it is'", "z = [\n  1, # one\n]", 'w = """\nmotion = 1\n"""', "v = 1_000"]
)
_KNOWN = st.sampled_from(
    ["motion = true", "motion = false # m", "theme = 'nord'  # t", "fresh_per_day=7", "pieces = 3"]
)
_KEYS = st.sampled_from(
    ["'sitting.hint' = 'f7' # h", "sitting.hint = 'f7'", "today.start = 'f8'", "'a.b' = 'f9'"]
)
_HEADS = st.sampled_from(["[schedule]", "[ schedule ] # s", "[other]", "[other.more]", "[[list]]"])


def _key_of(line: str) -> str:
    return re.split(r"[ .=]", line)[0].strip("'")


@st.composite
def _files(draw: st.DrawFn) -> str:
    """A file of any order in which no key stands twice."""
    top = draw(st.lists(_COMMENTS | _UNKNOWN | _KNOWN, max_size=6, unique_by=_key_or_all))
    parts = list(top)
    for head in draw(st.lists(_HEADS, max_size=3, unique_by=lambda it: it.strip("[ ")[:3])):
        parts += [*draw(st.lists(_COMMENTS, max_size=2)), head]
        if "schedule" in head:
            parts += draw(st.sampled_from([[], ["part_credit = true # p"], ["q = 1", "# end"]]))
        else:
            parts += draw(st.lists(_UNKNOWN, max_size=2, unique_by=_key_of))
    keys = draw(st.lists(_COMMENTS | _KEYS, max_size=4, unique_by=_key_or_all))
    if keys:
        parts += [*draw(st.lists(_COMMENTS, max_size=1)), "[keys]", *keys]
    return "\n".join(parts) + draw(st.sampled_from(["", "\n", "\n\n"]))


def _key_or_all(line: str) -> str:
    """What must not stand twice; comments may."""
    return line if line.lstrip().startswith("#") or not line else _key_of(line)


_VALUES: dict[Place, st.SearchStrategy[Any]] = {
    ("motion",): st.booleans(),
    ("theme",): st.text("ab'\"\\#é ", min_size=1, max_size=8),
    ("fresh_per_day",): st.integers(0, 10_000),
    ("hesitation_seconds",): st.sampled_from([0.5, 6.0, 12.25]),
    ("day_starts",): st.times().map(lambda it: time(it.hour, it.minute)),
    CREDIT: st.booleans(),
    HINT: st.sampled_from(["f7", "ctrl+t,f9"]),
    ("keys", "today.start"): st.just("f10"),
}
_CHANGES = st.lists(
    st.sampled_from(sorted(_VALUES)).flatmap(
        lambda place: st.tuples(st.just(place), st.none() | _VALUES[place])
    ),
    max_size=6,
)


def _about(line: str, places: set[Place]) -> bool:
    """Whether a line is the one of a changed value."""
    names = {place[-1] for place in places}
    plain = line.replace("'", "").replace('"', "")
    return any(re.match(rf"\s*{re.escape(name)}\s*=", plain) for name in names)


def _is_part(lines: list[str], whole: list[str]) -> bool:
    """Whether the lines stand in the whole in their order."""
    rest = iter(whole)
    return all(any(line == other for other in rest) for line in lines)


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(_files(), st.booleans(), _CHANGES)
@example("# a\n# b\n[keys]\n", False, [(("motion",), False), (HINT, "f7"), (HINT, None)])
def test_any_changes_leave_all_else_as_it_was(
    tmp_path: Path, text: str, crlf: bool, changes: list[tuple[Place, Any]]
) -> None:
    file = tmp_path / "settings.toml"
    ending = "\r\n" if crlf else "\n"
    file.write_bytes(text.replace("\n", ending).encode())
    before = read_settings(file)
    wanted: dict[Place, Any] = {}
    for place, value in changes:
        write_value(file, place, value)
        wanted[place] = value
    after = read_settings(file)
    for setting in SETTINGS:
        old = getattr(before.settings, setting.name)
        value = wanted.get(setting.place, old)
        expected = setting.default if value is None else value
        assert getattr(after.settings, setting.name) == expected
    keys = dict(before.settings.keys)
    for place, value in wanted.items():
        if place[0] == "keys":
            keys.pop(place[1], None)
            keys |= {place[1]: value} if value is not None else {}
    assert after.settings.keys == keys
    result = file.read_bytes().decode()
    assert not (crlf and re.search(r"(?<!\r)\n", result) and "\n" in text)
    kept = [line for line in text.split("\n") if line and not _about(line, set(wanted))]
    assert _is_part(kept, result.replace("\r\n", "\n").split("\n"))
    comments = re.findall(r"# [mtph]$", text, re.MULTILINE)
    assert all(comment in result for comment in comments)
