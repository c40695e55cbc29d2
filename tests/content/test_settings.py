"""Settings that can't be: each told with file, line, what was found and what is allowed."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.content.settings import read_settings
from kiosk.content.starting import load_for
from kiosk.runtime.settings import TREE


def written(folder: Path, text: str) -> Path:
    path = folder / "settings.yaml"
    path.write_text(text, "utf-8")
    return path


def said(folder: Path, text: str) -> list[str]:
    """The problems of a settings' file with this text."""
    return [str(problem) for problem in read_settings(written(folder, text))[1]]


WRONG = [
    ("school: /nope", "school: there is no folder /nope; allowed: a folder that is there"),
    (
        "roster: /nope.csv",
        "roster: there is no file /nope.csv; allowed: a workbook (.xlsx) or a CSV file",
    ),
    (
        "record: /nope/r.sqlite",
        "record: there is no folder /nope; allowed: a file in a folder that is there",
    ),
    ("record: /", "record: / is a folder; allowed: a file in a folder that is there"),
    ("port: ttyUSB0", "port: ttyUSB0 is no path; allowed: such as /dev/serial/by-id/usb-..."),
    (
        "feed: localhost",
        "feed: localhost is no address of a database; allowed: "
        "postgresql+psycopg://NAME@HOST/DATABASE",
    ),
]


@pytest.mark.parametrize(("line", "told"), WRONG)
def test_each_wrong_setting_is_told_with_folder_file_and_line(
    tmp_path: Path, line: str, told: str
) -> None:
    found = said(tmp_path, f"# the workshop's\n{line}\n")

    assert found == [f"{tmp_path}/settings.yaml:2: {told}"]


RIGHT = [
    "school: .",
    "roster: settings.yaml",
    "download_to: /media/pillarside/not-put-in-yet",
    "download_to: /srv/mounted-late",
    "record: ./record.sqlite",
    "port: /dev/serial/by-id/unplugged",
    "feed: postgresql+psycopg://feeds@db.example/pillarside?sslmode=verify-full",
    "feed: postgresql+psycopg://feeds:pw@[::1]:5433/pillarside",
    "feed: postgresql+psycopg:///pillarside?host=/run/postgresql",
]


@pytest.mark.parametrize("line", RIGHT)
def test_a_right_setting_is_taken_as_it_is(tmp_path: Path, line: str) -> None:
    assert said(tmp_path, line + "\n") == []


def test_a_file_of_notes_alone_leaves_every_setting_to_its_default(tmp_path: Path) -> None:
    assert read_settings(written(tmp_path, "# machine: drill-1\n")) == ({}, ())


@pytest.mark.parametrize(
    "feed",
    ["mysql://u:hush@h/db", "u:hush@h", "postgresql://h/db?password=hush", "x://u:hu/hush@h/db"],
)
def test_a_wrong_address_is_shown_without_its_password(tmp_path: Path, feed: str) -> None:
    (line,) = said(tmp_path, f"feed: {feed}\n")

    assert "hush" not in line


def test_several_mistakes_come_by_their_lines_and_the_right_ones_are_settled(
    tmp_path: Path,
) -> None:
    text = "feed: x\nleft_hand: maybe\nlanguage: cy\nprot: /dev/x\nschool: /nope\n"

    settled, problems = read_settings(written(tmp_path, text))

    assert [problem.place.line for problem in problems] == [1, 2, 4, 5]
    assert settled == {"language": "cy"}


def test_a_machine_and_a_language_that_there_are_not_have_the_line_they_were_written_on(
    tmp_path: Path,
) -> None:
    settled, _ = read_settings(written(tmp_path, "language: fr\nmachine: drill-9\n"))

    found = load_for(settled["machine"], TREE / "sequences", None, settled["language"]).problems

    assert sorted(map(str, found)) == [
        f"{tmp_path}/settings.yaml:1: language: 'fr'; allowed: cy, en, pl, uk",
        f"{tmp_path}/settings.yaml:2: machine: 'drill-9'; allowed: drill-1, drill-2, drill-3; "
        "did you mean 'drill-3'?",
    ]


def test_the_same_given_as_options_names_the_options() -> None:
    found = load_for("drill-9", TREE / "sequences", None, "fr").problems

    assert sorted(str(problem.place) for problem in found) == ["--language", "--machine"]


UNREADABLE = [
    ("machine: drill-1\nport /dev/x\n", 2, "a line without a colon and a space"),
    ("port /dev/x\nmachine: drill-1\n", 1, "a line without a colon and a space"),
    ("machine: drill-1\n  port: /dev/x\n", 2, "a colon where none can stand"),
    ("machine: 'drill-1\nport: /dev/x\n", 1, "a quote that is never closed"),
    ("machine: [drill-1\nport: /dev/x\n", 1, "a [ that is not closed"),
    ("machine: {drill-1\nport: /dev/x\n", 1, "a { that is not closed"),
    ("machine: drill-1\n\tport: /dev/x\n", 2, "a tab"),
    ("  machine: drill-1\nport: /dev/x\n", 2, "a line that begins further left"),
    ("machine: drill-1\n---\nport: /dev/x\n", 2, "a line of three dashes"),
    ("port: /dev/x\nmachine: @x\n", 2, "a sign that no value can begin with"),
    ("port: /dev/x\nmachine: dr\x01ll\n", 2, "a sign that can't be seen"),
    ("machine: drill-1\n- port\n", 2, "what is no key and value"),
]


@pytest.mark.parametrize(("text", "line", "words"), UNREADABLE)
def test_what_is_no_yaml_is_told_in_plain_words_on_the_line_of_the_mistake(
    tmp_path: Path, text: str, line: int, words: str
) -> None:
    (found,) = said(tmp_path, text)

    assert found.startswith(f"{tmp_path}/settings.yaml:{line}: {words}")
    assert "expected" not in found
