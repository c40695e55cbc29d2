"""`pillarside pack` and `pillarside take-in`: shown with its date first, all or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import Result

from kiosk.core.events import AdultAdded, AdultRevoked, LevelSet, PackageTaken, RosterTaken
from kiosk.core.model import Adult, Level
from kiosk.store import ReadOnlyRecord, Record, school_of
from tests.cli.conftest import Listening, Run
from tests.recording import ROOT, Playing

JOB = (ROOT / "sequences" / "jobs" / "key_tag.yaml").read_text()
ROSTER = "group,number,level,name\n8B,1,supervised,Zephyrine\n8B,2,shown,Ignatz\n8B,3,shown,Odd\n"


@pytest.fixture
def office(tmp_path: Path) -> Path:
    """What a technician has at a desk: a roster, names to revoke, the school's own folder."""
    at = tmp_path / "office"
    (at / "school" / "jobs").mkdir(parents=True)
    (at / "school" / "jobs" / "name_plate.yaml").write_text(JOB)
    (at / "roster.csv").write_text(ROSTER)
    (at / "left.txt").write_text("ms  INVENTED\nMr Elsewhere  # not at this drill\n")
    return at


@pytest.fixture
def kiosk(record: Path) -> Path:
    """The record of a kiosk with a technician and a teacher."""
    opened = Record.open(record)
    for ref, name, role in (("a1", "Ms Invented", "teacher"), ("a2", "Mr Two", "technician")):
        opened.keep_adult(Adult(ref, name, role), "a hash")
        Playing(opened).happens(AdultAdded(ref, role, "test"))
    opened.close()
    return record


def pack(run: Run, office: Path, stick: Path) -> Result:
    return run(
        *("pack", "--to", stick, "--roster", office / "roster.csv"),
        *("--revoked", office / "left.txt", "--school", office / "school"),
    )


def take_in(run: Run, kiosk: Path, stick: Path, *more: str) -> Result:
    return run("take-in", "--record", kiosk, "--from", stick, *more)


def state_of(kiosk: Path) -> tuple[object, ...]:
    """All that a package may change."""
    with ReadOnlyRecord(kiosk) as opened:
        return opened.groups(), opened.adults(), opened.taken_in(), opened.head


def test_what_is_packed_is_shown_with_its_date_and_changes_nothing_yet(
    run: Run, office: Path, stick: Path, kiosk: Path
) -> None:
    packed, before = pack(run, office, stick), state_of(kiosk)

    done = take_in(run, kiosk, stick)

    assert (packed.exit_code, done.exit_code, done.stderr) == (0, 0, "")
    date, *lines = done.stdout.splitlines()
    assert date.startswith("Put together on 20")
    assert lines == [
        "+ 8B 1: supervised",
        "+ 8B 2: shown",
        "+ 8B 3: shown",
        "- no longer let in: Ms Invented",
        "  to be revoked, but not known here: Mr Elsewhere",
        "+ file jobs/name_plate.yaml",
        "Nothing is changed yet. Take it in with --accept.",
    ]
    assert state_of(kiosk) == before


def test_all_of_it_is_taken_in_in_one_go(run: Run, office: Path, stick: Path, kiosk: Path) -> None:
    pack(run, office, stick)

    done = take_in(run, kiosk, stick, "--accept")

    assert done.exit_code == 0 and done.stdout.endswith("Taken in.\n")
    opened = Record.open(kiosk)
    refs = {p.number: p.ref for g in opened.groups() for p in g.pupils}
    levels = {p.number: p.level for g in opened.groups() for p in g.pupils}
    taken, events = opened.taken_in(), [e.event for e in opened.entries()][-6:]
    school = school_of(kiosk, taken)
    pin = opened.pin_hash("a1")
    opened.close()
    (package,) = {one.package for one in taken}
    (made_us,) = {one.made_us for one in taken}
    assert events == [
        PackageTaken("command", package, made_us, ("roster", "revoked", "school")),
        RosterTaken("command", 3, 3, 0, 0),
        LevelSet(refs[1], "supervised", "command"),
        LevelSet(refs[2], "shown", "command"),
        LevelSet(refs[3], "shown", "command"),
        AdultRevoked("a1", "command"),
    ]
    assert levels == {1: Level.SUPERVISED, 2: Level.SHOWN, 3: Level.SHOWN}
    assert school is not None and (school / "jobs" / "name_plate.yaml").read_text() == JOB
    assert pin == ""


def test_what_is_there_now_is_told_with_its_date(
    run: Run, office: Path, stick: Path, kiosk: Path
) -> None:
    pack(run, office, stick)
    take_in(run, kiosk, stick, "--accept")
    (office / "roster.csv").write_text("group,number,level\n8B,1,supervised\n9A,7,shown\n")
    (office / "school" / "jobs" / "name_plate.yaml").write_text(JOB + "# again\n")
    pack(run, office, stick)

    done = take_in(run, kiosk, stick)

    lines = done.stdout.splitlines()[1:-1]
    assert lines[:3] == ["+ 9A 7: shown", "- 8B 2", "- 8B 3"]
    assert lines[3].startswith("  in its place now: what was put together on 20")
    assert "~ file jobs/name_plate.yaml" in lines


def test_an_older_package_is_marked_as_older(
    run: Run, office: Path, stick: Path, kiosk: Path
) -> None:
    pack(run, office, stick)
    opened = Record.open(kiosk)
    in_a_year = 2_000_000_000_000_000
    Playing(opened).happens(PackageTaken("command", "0" * 64, in_a_year, ("roster",)))
    opened.close()

    done = take_in(run, kiosk, stick)

    assert "! older than what is here, put together on 2033-05-18" in done.stdout


# --- refused whole -------------------------------------------------------------------------------


@pytest.mark.parametrize("broken", ["roster", "names"])
def test_one_mistake_and_it_is_not_packed(run: Run, office: Path, stick: Path, broken: str) -> None:
    spoil(office, broken)

    done = pack(run, office, stick)

    assert done.exit_code == 1 and "nothing was written" in done.stderr
    assert list(stick.iterdir()) == []


@pytest.mark.parametrize("broken", ["roster", "job", "machine", "retention", "names"])
def test_one_mistake_and_nothing_is_taken_in(
    run: Run, office: Path, stick: Path, kiosk: Path, broken: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As if it had been put together by a version that knew no better."""
    spoil(office, broken)
    monkeypatch.setattr("kiosk.cli.pack._mistakes", lambda files, school: ())
    pack(run, office, stick)
    before = state_of(kiosk)

    done = take_in(run, kiosk, stick, "--accept")

    assert done.exit_code == 1 and "nothing was taken in" in done.stderr
    assert str(kiosk.parent) not in done.stderr.splitlines()[0]
    assert state_of(kiosk) == before


def spoil(office: Path, what: str) -> None:
    school = office / "school"
    match what:
        case "roster":
            (office / "roster.csv").write_text(ROSTER + "8B,4,superb,\n")
        case "job":
            (school / "jobs" / "name_plate.yaml").write_text(JOB.replace("material", "materiel"))
        case "machine":
            (school / "machines").mkdir()
            (school / "machines" / "drill-1.yaml").write_text("name: Nothing else\n")
        case "retention":
            (school / "retention.yaml").write_text("country: nowhere\n")
        case "names":
            (office / "left.txt").write_text("# nobody\n")


def test_the_only_technician_is_not_revoked_and_nothing_else_happens(
    run: Run, office: Path, stick: Path, kiosk: Path
) -> None:
    (office / "left.txt").write_text("Mr Two\n")
    pack(run, office, stick)
    before = state_of(kiosk)

    done = take_in(run, kiosk, stick, "--accept")

    assert done.exit_code == 1 and "the only technician" in done.stderr
    assert state_of(kiosk)[:3] == before[:3]


def test_without_names_none_is_left_at_the_kiosk(
    run: Run, office: Path, stick: Path, kiosk: Path
) -> None:
    pack(run, office, stick)
    take_in(run, kiosk, stick, "--accept")

    beside = list(kiosk.parent.glob("record.sqlite*"))
    files = [p for at in beside for p in (at.rglob("*") if at.is_dir() else [at]) if p.is_file()]
    assert len(files) > 3
    assert not any(b"Zephyrine" in path.read_bytes() for path in files)


@pytest.mark.parametrize("name", ["a job.yaml", "jöb.yaml", "job.yml"])
def test_a_name_that_no_kiosk_takes_is_told_before_it_is_packed(
    run: Run, office: Path, stick: Path, name: str
) -> None:
    (office / "school" / "jobs" / name).write_text(JOB)

    done = pack(run, office, stick)

    assert done.exit_code == 1 and name in done.stderr
    assert list(stick.iterdir()) == []


def test_with_nothing_to_pack_it_says_what_there_is(run: Run, stick: Path) -> None:
    done = run("pack", "--to", stick)

    assert done.exit_code == 2 and "--roster" in done.stderr


def test_an_empty_stick_says_how_to_make_one(run: Run, stick: Path, kiosk: Path) -> None:
    done = take_in(run, kiosk, stick)

    assert done.exit_code == 1 and "pillarside pack" in done.stderr


def test_without_a_record_it_asks_for_a_start(run: Run, stick: Path, tmp_path: Path) -> None:
    done = take_in(run, tmp_path / "none.sqlite", stick)

    assert done.exit_code == 1 and "start the kiosk once" in done.stderr


# --- beside a running kiosk ----------------------------------------------------------------------


def test_a_running_kiosk_is_asked_and_may_refuse(
    run: Run, office: Path, stick: Path, kiosk: Path, tmp_path: Path
) -> None:
    pack(run, office, stick)
    far = Listening(tmp_path / "record.sqlite.sock", b'{"ok": false, "why": "not now"}\n')

    with far:
        done = take_in(run, kiosk, stick, "--accept")

    assert done.exit_code == 1 and "not now" in done.stderr
    (asked,) = far.asked
    assert (asked["do"], asked["revoked"]) == ("take_in", ["ms INVENTED", "Mr Elsewhere"])
    assert [p["name"] for g in asked["groups"] for p in g["pupils"]] == ["", "", ""]
