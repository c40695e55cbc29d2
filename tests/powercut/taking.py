"""What is cut: packages taken in from a stick, by the real code, on the real record.

`python -m tests.powercut.taking FOLDER STICK JOURNAL SYNC` takes in each package of `PACKAGES`
in turn and writes into FOLDER/acks which one was acknowledged, the moment it was.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from kiosk.core.events import AdultAdded, Entry, Event
from kiosk.core.inputs import KioskBegan
from kiosk.core.kiosk import advance, from_outside
from kiosk.core.model import Adult, Group
from kiosk.core.units import Moment
from kiosk.export import amiss, bring, clear_copies, write_package
from kiosk.people import group_as_plain, package_in, roster_of
from kiosk.store import Record, copies, school_of
from tests.powercut.cutting import Point, Told, started_on
from tests.powercut.session import ACKS, RECORD, turn_down
from tests.recording import MAY_2026_US, SECOND_US

PACKAGES = 3
TECHNICIAN = Adult("a0", "Mx Zero", "technician")


def teacher(number: int) -> Adult:
    """Who is revoked by the package of this number."""
    return Adult(f"a{number}", f"Mx Number {number}", "teacher")


def files(number: int) -> dict[str, bytes]:
    """A package that shows its number in everything that it changes."""
    rows = "".join(f"P{number},{n},shown\n" for n in range(1, 3 * number + 1))
    return {
        "roster.csv": f"group,number,level\n{rows}".encode(),
        "revoked.txt": f"{teacher(number).name}\n".encode(),
        "school/jobs/plate.yaml": f"number: {number}\n".encode() * 300,
        f"school/machines/drill-{number}.yaml": b"name: invented\n",
    }


def pack(stick: Path) -> None:
    """All packages, each on a stick of its own."""
    for number in range(1, PACKAGES + 1):
        at = stick / str(number)
        at.mkdir(parents=True)
        made = Moment("office", 1, MAY_2026_US + number * SECOND_US, 2)
        write_package(at, files(number), made, "test")


def play(folder: Path, stick: Path, journal: str) -> None:
    """The first start, and each package."""
    acks = os.open(folder / ACKS, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    record = Record.open(folder / RECORD, journal=journal)
    for adult in (TECHNICIAN, *map(teacher, range(1, PACKAGES + 1))):
        record.keep_adult(adult, "a hash")
        given = AdultAdded(adult.ref, adult.role, "test")
        _append(record, (given,), 1)
    _append(
        record, from_outside(record.restore(), KioskBegan("drill-1", "test", "first")).events, 2
    )
    os.write(acks, f"log {record.log}\n".encode())
    for number in range(1, PACKAGES + 1):
        take_in(record, stick / str(number), 10 * number)
        os.write(acks, f"package {number}\nevents {record.head[0]} {record.head[1]}\n".encode())
    record.close()


def take_in(record: Record, stick: Path, us: int) -> None:
    """As a kiosk does, and tidying afterwards as it does."""
    brought = bring(stick, copies(record.path))
    groups, _ = roster_of("roster.csv", brought.lists["roster.csv"])
    request = {
        "package": brought.package.digest,
        "made_us": brought.package.made_us,
        "parts": brought.package.parts,
        "groups": [group_as_plain(group) for group in groups],
        "names": False,
        "revoked": brought.lists["revoked.txt"].decode().splitlines(),
    }
    given, _ = package_in(record, record.restore(), request, "command")
    _append(record, from_outside(record.restore(), given).events, us)
    used = frozenset(one.package for one in record.taken_in())
    clear_copies(copies(record.path), used)


def _append(record: Record, events: tuple[Event, ...], us: int) -> None:
    kiosk, first = record.restore(), record.head[0] + 1
    at = Moment("boot0", us, MAY_2026_US + us, 1)
    entries = tuple(Entry(first + n, at, event) for n, event in enumerate(events))
    for entry in entries:
        kiosk = advance(kiosk, entry)
    record.append(entries, kiosk)


# --- what is left of it --------------------------------------------------------------------------


def halves(path: Path, told: Told, point: Point) -> str:
    """What is in by half, or gone though it was acknowledged; empty if all is well."""
    now = Moment("after", 5_000_000, MAY_2026_US + 3600 * SECOND_US, 1)
    record = Record.open(path, now)
    try:
        return told.missing_in(record) or _halves(record, told) or started_on(record)
    finally:
        record.close()


def _halves(record: Record, told: Told) -> str:
    """Everything that a package changes says which number it is of: they must be the same."""
    taken = record.taken_in()
    school = school_of(record.path, taken)
    numbers = {
        "date": [(one.made_us - MAY_2026_US) // SECOND_US for one in taken][-1:],
        "roster": [
            int(g.name[1:]) for g in record.groups() if len(g.pupils) == 3 * int(g.name[1:])
        ],
        "state": [n for n in range(1, PACKAGES + 1) if _is_revoked(record, n)][-1:],
        "PINs": [n for n in range(1, PACKAGES + 1) if record.pin_hash(f"a{n}") == ""][-1:],
        "files": _numbered(school) if school else [],
    }
    if len({tuple(of) for of in numbers.values()}) > 1:
        return f"in by half: {numbers}"
    if numbers["date"] < [told.packages] and told.packages:
        return f"package {told.packages} had been acknowledged, there is {numbers['date']}"
    return ""


def _is_whole(group: Group) -> bool:
    """Whether a group has as many pupils as its package gave it."""
    return len(group.pupils) == 3 * int(group.name[1:])


def _is_revoked(record: Record, number: int) -> bool:
    ref = teacher(number).ref
    known = [adult for adult in record.restore().adults.known if adult.ref == ref]
    return bool(known) and known[0].revoked


def _numbered(school: Path) -> list[int]:
    """The number that the copied files tell; none where they are not whole."""
    if amiss(school.parent):
        return []
    return [int((school / "jobs" / "plate.yaml").read_text().splitlines()[0].split()[1])]


if __name__ == "__main__":
    _, at, sticks, kept_in, how = sys.argv
    turn_down(how, 1000)
    play(Path(at), Path(sticks), kept_in)
