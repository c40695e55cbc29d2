"""A package taken in at the running kiosk's screen, and what it is at the next start."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.core.events import PackageAccepted, PackageAsked, PackageTaken
from kiosk.core.inputs import Act, AskAdult, LeavePage
from kiosk.core.kiosk import from_outside
from kiosk.core.units import Moment
from kiosk.core.view import View
from kiosk.export import bring, write_package
from kiosk.people import group_as_plain, package_in, roster_of
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import start
from kiosk.store import ReadOnlyRecord, Record, copies
from tests.recording import MAY_2026_US, Playing
from tests.runtime.test_start import People, kiosk, recorded

ROSTER = b"group,number,level\n7X,1,shown\n7X,2,shown\n"
JOB = (TREE / "sequences" / "jobs" / "key_tag.yaml").read_bytes()
FILES = {"roster.csv": ROSTER, "school/jobs/name_plate.yaml": JOB}


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """A folder that stands for the stick."""
    at = tmp_path / "stick"
    at.mkdir()
    return at


def pack(stick: Path, files: dict[str, bytes]) -> Path:
    return write_package(stick, files, Moment("office", 1, MAY_2026_US, 2), "pillarside test")


def shown(people: People) -> View:
    """The package's screen, once the stick has been read."""
    people.touch(AskAdult("menu"))
    people.sign()
    people.touch(Act("package"))
    is_read = "It is read and checked. Leave the stick where it is."
    return people.see(lambda v: v.screen == "package" and is_read not in v.lines, "what it brings")


def ended(people: People) -> View:
    return people.see(lambda v: v.screen == "package" and "Done" in labels(v), "the end of it")


def labels(view: View) -> list[str]:
    return [b.label for b in view.buttons if b.live]


def test_it_is_shown_with_its_date_taken_in_at_a_touch_and_there_at_the_next_start(
    tmp_path: Path, stick: Path
) -> None:
    """The stick is in a pocket by the time it is taken in."""
    pack(stick, FILES)
    with kiosk(tmp_path, download_to=stick) as people:
        preview = shown(people)
        pulled(stick)
        people.touch(next(b.touch for b in preview.buttons if b.look == "adult"))
        done = ended(people)
        people.touch(LeavePage())
        people.touch(AskAdult("menu"))
        people.sign()
        people.touch(Act("open"))
        people.touch(Act("pre_use_right"))
        groups = people.see(lambda v: v.title == "Which group?", "the groups")
    again = start(Settings(record=tmp_path / "record.sqlite"))
    jobs = [job.id for job in again.loop.shop.content.jobs] if again.loop else []
    again.stop()

    assert preview.title == "From the stick, put together on 2026-05-03"
    assert preview.lines[0] == "Read it through. Nothing is changed yet."
    assert "Comes as shown: 7X 1 - 2" in preview.lines
    assert "New file: jobs/name_plate.yaml" in preview.lines
    assert done.lines[0] == "All of it is taken in."
    assert labels(done) == ["Restart the kiosk", "Done"]
    assert [b.label for b in groups.choices] == ["7X"]
    assert "name_plate" in jobs
    assert len(recorded(tmp_path, PackageAsked)) == len(recorded(tmp_path, PackageAccepted)) == 1
    assert [e.parts for e in recorded(tmp_path, PackageTaken)] == [("roster", "school")]


def test_what_is_broken_is_refused_in_plain_words_and_nothing_is_changed(
    tmp_path: Path, stick: Path
) -> None:
    views = []
    with kiosk(tmp_path, download_to=stick) as people:
        for spoil in (nothing, one_mistake, torn, pulled):
            spoil(stick)
            views.append(shown(people))
            people.touch(next(b.touch for b in views[-1].buttons if b.live))

    assert [view.lines[0] for view in views] == [
        "There is no package on the stick. Make one with pillarside pack.",
        "There are mistakes in it. Nothing was changed.",
        "The package is not whole. Nothing was changed. Pack it again.",
        "The stick was taken out. Nothing was changed. Put it in and try again.",
    ]
    assert all(labels(view) == ["Done"] for view in views)
    assert views[1].lines[1].startswith("roster.csv:4: level 'superb'")
    assert recorded(tmp_path, PackageTaken) == []


def nothing(stick: Path) -> None:
    (stick / "holiday").mkdir()


def one_mistake(stick: Path) -> None:
    pack(stick, FILES | {"roster.csv": ROSTER + b"7X,3,superb\n"})


def torn(stick: Path) -> None:
    (pack(stick, FILES) / "roster.csv").unlink()


def pulled(stick: Path) -> None:
    stick.rename(stick.with_name("in a pocket"))


def test_a_copy_that_has_gone_bad_on_the_card_is_told_at_the_start(
    tmp_path: Path, stick: Path
) -> None:
    path = tmp_path / "record.sqlite"
    pack(stick, FILES)
    school = taken_in(path, stick)
    assert school is not None
    (school / "jobs" / "name_plate.yaml").write_bytes(b"name: half of i")

    running = start(Settings(record=path))
    view = running.latest()
    running.stop()

    assert view.screen == "content_fault"
    assert "name_plate.yaml is not as the list says" in view.lines[0]
    assert "take-in" in view.lines[0]


def test_the_roster_of_the_starting_line_does_not_take_back_what_came_since(
    tmp_path: Path, stick: Path
) -> None:
    """A kiosk is started by the same line every day, with the roster of September in it."""
    path, roster = tmp_path / "record.sqlite", tmp_path / "september.csv"
    roster.write_text("group,number,level\n8B,1,shown\n")
    start(Settings(record=path, roster=roster)).stop()
    pack(stick, {"roster.csv": ROSTER})
    taken_in(path, stick)

    start(Settings(record=path, roster=roster)).stop()
    after = groups_of(path)
    roster.write_text("group,number,level\n9C,1,shown\n")
    start(Settings(record=path, roster=roster)).stop()

    assert after == ["7X"]
    assert groups_of(path) == ["9C"]  # a file that was changed counts again


def taken_in(path: Path, stick: Path) -> Path | None:
    """Take the stick's package in by the record alone; the school's folder that was in it."""
    brought = bring(stick, copies(path))
    record = Record.open(path)
    groups, _ = roster_of("roster.csv", brought.lists["roster.csv"])
    told = {"package": brought.package.digest, "made_us": MAY_2026_US, "names": False}
    told |= {"parts": brought.package.parts, "revoked": [], "groups": map(group_as_plain, groups)}
    kiosk = record.restore()
    given, _ = package_in(record, kiosk, told, "command")
    Playing(record).happens(*from_outside(kiosk, given).events)
    record.close()
    return brought.school


def groups_of(path: Path) -> list[str]:
    with ReadOnlyRecord(path) as read:
        return [group.name for group in read.groups()]
