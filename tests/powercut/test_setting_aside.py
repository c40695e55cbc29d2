"""Power cuts while a damaged record is set aside: it stays, and what it knew carries on."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest

from kiosk.core.events import AdultAdded, KioskStarted, RecordRenewed, StepDone, TakenOutOfUse
from kiosk.core.model import Adult
from kiosk.store import Record, RecordFault
from tests.powercut.cutting import (
    NOW,
    Point,
    Told,
    cut_at_all,
    in_memory,
    points,
    recorded,
    started_on,
)
from tests.powercut.session import RECORD
from tests.recording import Playing

SMALL, FULL = 60, 3000


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where there is one."""
    with in_memory() as folder:
        yield folder


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


def carried_on(head: tuple[int, str], spoilt: bytes, path: Path, _: Told, __: Point) -> str:
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


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_a_cut_while_it_is_set_aside_loses_nothing_of_it(
    memory: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    head = short_of_lines(memory / "s")
    spoilt = (memory / "s" / RECORD).read_bytes()
    before = {p.name: p.read_bytes() for p in (memory / "s").iterdir()}
    calls = recorded(memory / "s", "wal", "FULL", 1000, 0)
    wanted = points(calls, FULL if full else SMALL, random.Random(5))

    cuts = cut_at_all(calls, wanted, before, partial(carried_on, head, spoilt))

    bad = [f"{cut.point}: {cut.gone}" for cut in cuts if cut.gone]
    sum_up(f"powercut: {len(cuts)} points while a record is set aside, {len(bad)} lost")
    assert not bad, "\n".join(bad[:20])
