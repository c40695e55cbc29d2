"""Power cuts while a damaged record is set aside: it stays, and what it knew carries on."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from kiosk.core.events import AdultAdded, KioskStarted, RecordRenewed, StepDone, TakenOutOfUse
from kiosk.core.model import Adult
from kiosk.store import Record, RecordFault
from tests.powercut import cutting
from tests.powercut.cutting import NOW, points, started_on
from tests.powercut.disk import Disk
from tests.powercut.session import ACKS, RECORD
from tests.powercut.tracing import Call
from tests.recording import Playing

SMALL, FULL = 60, 1000


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where there is one."""
    shared = Path("/dev/shm")
    with TemporaryDirectory(dir=shared if shared.is_dir() else None) as folder:
        yield Path(folder)


def short_of_lines(folder: Path) -> tuple[int, str]:
    """A record whose newest lines are gone from the card; the head that was acknowledged."""
    folder.mkdir()
    record = Record.open(folder / RECORD)
    record.keep_adult(Adult("a1", "Alex Invented", "technician"), "hash of a PIN")
    playing = Playing(record)
    added = AdultAdded("a1", "technician", "command")
    playing.happens(KioskStarted("drill-1", "0.1.0", "first"), added, TakenOutOfUse("guard"))
    playing.happens(*[StepDone("eyes", "pupil")] * 40)
    head = record.head
    record.close()
    with sqlite3.connect(folder / RECORD) as connection:
        connection.execute("DROP TRIGGER events_no_delete")
        connection.execute("DELETE FROM events WHERE seq > 30")
    connection.close()
    return head


def carried_on(path: Path, head: tuple[int, str], spoilt: bytes) -> str:
    """What is missing of the old record and of what it knew; empty if nothing is."""
    try:
        record = Record.open(path, NOW)
    except RecordFault as fault:
        return f"does not open: {fault}"
    try:
        first = next(record.entries()).event
        if not isinstance(first, RecordRenewed) or (first.last, first.head) != head:
            return f"begins with {first}, not with a pointer to {head}"
        if record.pin_hash("a1") is None or not record.restore().adults.find("a1"):
            return "the technician is gone"
        if record.restore().machine.out_of_use != "guard":
            return "out of use is forgotten"
        if not any(p.read_bytes() == spoilt for p in path.parent.glob(f"{RECORD}.damaged-?")):
            return "the damaged record is gone"
        return started_on(record)
    finally:
        record.close()


def cut_at(calls: list[Call], moment: int, disk: Disk, shape: str, seed: int, into: Path) -> Path:
    """What a cut leaves, in a folder of its own."""
    for call in calls[:moment]:
        if call.name != ACKS:
            disk.take(call)
    into.mkdir()
    disk.cut(shape, random.Random(seed), into)
    return into / RECORD


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_a_cut_while_it_is_set_aside_loses_nothing_of_it(memory: Path, full: bool) -> None:
    head = short_of_lines(memory / "s")
    spoilt = (memory / "s" / RECORD).read_bytes()
    before = {p.name: p.read_bytes() for p in (memory / "s").iterdir()}
    calls = cutting.recorded(memory / "s", "wal", "FULL", 1000, 0)
    bad = []
    wanted = [p for dice in range(3) for p in points(calls, FULL, random.Random(dice))]
    some = wanted if full else random.Random(5).sample(wanted, SMALL)
    for n, point in enumerate(some):
        kept = cut_at(
            calls, point.calls, Disk.holding(before), point.shape, point.seed, memory / f"c{n}"
        )
        gone = carried_on(kept, head, spoilt)
        bad += [f"{point}: {gone}"] if gone else []

    print(f"powercut: {n + 1} points while a record is set aside, {len(bad)} lost")
    assert not bad, "\n".join(bad[:20])
