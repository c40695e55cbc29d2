"""A package from a stick: whole or refused, whatever lies there and whenever the stick goes."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.units import Moment
from kiosk.export import PackageFault, amiss, bring, clear_copies
from kiosk.export.folder import Written
from kiosk.export.package import (
    LIST,
    NotAPackage,
    list_from_bytes,
    list_to_bytes,
    may_be_in,
    write_package,
)
from tests.recording import MAY_2026_US

MADE = Moment("office", 1, MAY_2026_US, 2)
ROSTER = b"group,number,level\n8B,1,supervised\n"
JOB = b"name: Tag\n"
FILES = {"roster.csv": ROSTER, "revoked.txt": b"Ms Invented\n", "school/jobs/tag.yaml": JOB}


def packed(stick: Path, files: dict[str, bytes] = FILES) -> Path:
    return write_package(stick, files, MADE, "pillarside test")


def refused(stick: Path, to: Path) -> str:
    """Why the stick's package is refused; nothing that is whole may be left of it."""
    with pytest.raises(PackageFault) as fault:
        bring(stick, to)
    assert "\n" not in str(fault.value)
    assert not to.exists() or all(amiss(copy) for copy in to.iterdir())
    return fault.value.why


def test_what_is_packed_comes_out_as_it_went_in(stick: Path, to: Path) -> None:
    packed(stick)

    brought = bring(stick, to)

    assert brought.package.made_us == MAY_2026_US
    assert brought.package.parts == ("roster", "revoked", "school")
    assert brought.lists == {"roster.csv": ROSTER, "revoked.txt": b"Ms Invented\n"}
    assert brought.school is not None
    assert (brought.school / "jobs" / "tag.yaml").read_bytes() == JOB
    assert amiss(brought.school.parent) == ""


def test_lists_of_people_are_not_left_on_the_card(stick: Path, to: Path) -> None:
    packed(stick)

    bring(stick, to)

    left = [path.read_bytes() for path in to.rglob("*") if path.is_file()]
    assert len(left) == 2
    assert not any(b"8B" in data or b"Invented" in data for data in left)


def test_the_newest_package_counts_and_none_is_written_over(stick: Path, to: Path) -> None:
    names = [
        packed(stick, {"roster.csv": ROSTER + b"8B,%d,shown\n" % n}).name for n in range(2, 13)
    ]

    brought = bring(stick, to)

    assert names == [f"PILLARSIDE-IN-{n}" for n in range(1, 12)]
    assert brought.lists["roster.csv"].endswith(b"8B,12,shown\n")
    assert brought.school is None and not to.exists()


def test_a_stick_without_one_says_so(stick: Path, to: Path) -> None:
    (stick / "PILLARSIDE-IN-0").mkdir()
    (stick / "PILLARSIDE-IN-x").mkdir()

    assert refused(stick, to) == "no_package"


# --- torn, changed, hostile ----------------------------------------------------------------------


@pytest.mark.parametrize("name", [*FILES, LIST])
@pytest.mark.parametrize("how", ["gone", "cut", "longer", "flipped", "link", "folder", "pipe"])
def test_one_file_that_is_not_as_listed_and_all_is_refused(
    stick: Path, to: Path, tmp_path: Path, name: str, how: str
) -> None:
    file = packed(stick) / name
    data = file.read_bytes()
    file.unlink()
    match how:
        case "cut":
            file.write_bytes(data[:-2])
        case "longer":
            file.write_bytes(data + b"x")
        case "flipped":
            file.write_bytes(bytes([data[0] ^ 1]) + data[1:])
        case "link":
            (tmp_path / "elsewhere").write_bytes(data)
            file.symlink_to(tmp_path / "elsewhere")
        case "folder":
            file.mkdir()
        case "pipe":
            os.mkfifo(file)

    assert refused(stick, to) == "torn"


def test_a_file_put_in_by_hand_is_told_and_not_passed_over(stick: Path, to: Path) -> None:
    (packed(stick) / "school" / "jobs" / "more.yaml").write_bytes(JOB)

    assert refused(stick, to) == "torn"


def test_what_other_systems_leave_behind_does_no_harm(stick: Path, to: Path) -> None:
    folder = packed(stick)
    for name in (".DS_Store", "Thumbs.db", "school/desktop.ini", "school/jobs/._tag.yaml"):
        (folder / name).write_bytes(b"theirs")
    (stick / "System Volume Information").mkdir()

    assert bring(stick, to).package.parts == ("roster", "revoked", "school")


def test_a_package_of_a_newer_format_is_refused_as_that(stick: Path, to: Path) -> None:
    listed = packed(stick) / LIST
    listed.write_text(json.dumps(json.loads(listed.read_text()) | {"format": 2}))

    assert refused(stick, to) == "newer"


OUTSIDE = (
    *("../roster.csv", "/etc/passwd", "school/../../x.yaml", "school/a/b/c.yaml"),
    *("school/x.yaml\n", "school/x.py", "ROSTER.CSV", "", ".", "school/", "school//x.yaml"),
    *(LIST, "school/jobs/é.yaml", "school/JOBS/x.yaml"),
)


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_list_can_name_nothing_outside_the_package(name: str) -> None:
    hostile = list_to_bytes((Written(name, 1, "0" * 64),), MADE, "hostile")

    assert not may_be_in(name)
    with pytest.raises(NotAPackage, match="no package has"):
        list_from_bytes(hostile)


@pytest.mark.parametrize(
    "files",
    [
        (),
        (Written("roster.csv", 1, "0"), Written("roster.csv", 1, "0")),
        (Written("roster.csv", 1, "0"), Written("roster.xlsx", 1, "0")),
        (Written("school/a.yaml", 33_000_000, "0"),),
        tuple(Written(f"school/a{n}.yaml", 1, "0") for n in range(501)),
    ],
    ids=["nothing", "twice", "two rosters", "too large", "too many"],
)
def test_a_list_without_sense_is_refused(files: tuple[Written, ...]) -> None:
    with pytest.raises(NotAPackage):
        list_from_bytes(list_to_bytes(files, MADE, "hostile"))


@given(st.binary(max_size=200) | st.recursive(st.none() | st.integers() | st.text(max_size=5),
       lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
           st.sampled_from(("format", "made", "files", "digest", "wall_us")), inner, max_size=5)
       ).map(lambda said: json.dumps(said).encode()))  # fmt: skip
def test_whatever_a_list_says_it_is_a_package_or_none(data: bytes) -> None:
    with pytest.raises(NotAPackage):
        list_from_bytes(data)


# --- copies on the card --------------------------------------------------------------------------


def test_a_copy_that_has_gone_bad_is_found_and_made_anew(stick: Path, to: Path) -> None:
    packed(stick)
    school = bring(stick, to).school
    assert school is not None
    (school / "jobs" / "tag.yaml").write_bytes(b"name: Tug\n")
    found = amiss(school.parent)

    bring(stick, to)

    assert "tag.yaml is not as the list says" in found
    assert amiss(school.parent) == ""


def test_what_nothing_goes_by_is_taken_away(stick: Path, to: Path) -> None:
    packed(stick)
    first = bring(stick, to).package.digest
    packed(stick, {**FILES, "school/jobs/more.yaml": JOB})
    second = bring(stick, to).package.digest
    (to / "half.part").mkdir()

    clear_copies(to, frozenset({second}))

    assert first != second
    assert [path.name for path in to.iterdir()] == [second]
