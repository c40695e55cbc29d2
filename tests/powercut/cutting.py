"""Cuts a recorded session at one call after another and starts the kiosk on what is left."""

from __future__ import annotations

import random
import shutil
import sys
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from hashlib import blake2b
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from kiosk.core.events import Entry
from kiosk.core.inputs import KioskBegan
from kiosk.core.kiosk import advance, decide
from kiosk.core.units import Moment
from kiosk.store import Record, RecordFault
from kiosk.store.queries import TAIL
from tests.core.story import shop
from tests.powercut.disk import SHAPES, Disk
from tests.powercut.session import ACKS, RECORD
from tests.powercut.tracing import Call, traced
from tests.recording import ROOT

FOLDED_EACH = 8
THROWS = {"none": 1, "prefix": 2, "subset": 2, "torn": 2}
"""How often the dice are thrown for each shape at a moment."""

PIECE = 250
"""Cuts that one process does at a time."""

NOW = Moment("after", 5_000_000, 1_800_000_000_000_000, 1)


@dataclass
class Told:
    """What had been acknowledged by a moment."""

    log: str = ""
    seq: int = 0
    hash: str = ""
    adults: dict[str, str] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    packages: int = 0

    def take(self, line: str) -> None:
        """One more line of what was acknowledged."""
        match line.split():
            case ["log", log]:
                self.log = log
            case ["events", seq, found]:
                self.seq, self.hash = int(seq), found
            case ["adult", ref, hashed]:
                self.adults[ref] = hashed
            case ["note", note, digest]:
                self.notes[note] = digest
            case ["package", number]:
                self.packages = int(number)

    def missing_in(self, record: Record) -> str:
        """What of it a record no longer has; empty if it has all."""
        if record.set_aside is not None:
            return f"set aside, {self.seq} events had been acknowledged"
        if self.log and record.log != self.log:
            return f"another log, {self.seq} events had been acknowledged"
        if record.head[0] < self.seq:
            return f"ends at event {record.head[0]} of {self.seq}"
        if self.seq and hash_of(record, self.seq) != self.hash:
            return f"event {self.seq} is another one"
        adults = [ref for ref, hashed in self.adults.items() if record.pin_hash(ref) != hashed]
        notes = [n for n, d in self.notes.items() if (record.note_text(n) or ("", ""))[1] != d]
        return f"gone: {adults}, {notes}" if adults or notes else ""


@dataclass(frozen=True)
class Point:
    """One cut: after how many calls, in which shape, by which throw of the dice."""

    calls: int
    shape: str
    seed: int


class Cut(NamedTuple):
    """A cut and what came of it: a print of what was left and of what had been acknowledged, and
    what was lost there; an empty text where nothing was.
    """

    point: Point
    image: bytes
    gone: str


Look = Callable[[Path, Told, Point], str]


def recorded(folder: Path, journal: str, sync: str, pages: int, lessons: int) -> list[Call]:
    """The calls of some sessions played on the real store."""
    folder.mkdir(exist_ok=True)
    words = [str(folder), journal, sync, str(pages), str(lessons)]
    return traced([sys.executable, "-m", "tests.powercut.session", *words], folder, ROOT)


def points(calls: list[Call], count: int, chance: random.Random) -> list[Point]:
    """`count` cuts spread over all calls, in every shape, in the calls' order."""
    moments = [n for n, call in enumerate(calls, 1) if call.name != ACKS]
    all_of_them = [(n, shape) for n in moments for shape in SHAPES for _ in range(THROWS[shape])]
    taken = chance.sample(all_of_them, min(count, len(all_of_them)))
    return [Point(n, shape, chance.randrange(1 << 30)) for n, shape in sorted(taken)]


def cut_at_all(
    calls: list[Call], wanted: list[Point], safe: Mapping[str, bytes], look: Look
) -> list[Cut]:
    """What comes of every cut, on all cores where there are many; the same image counts once.

    `safe` are the files that were on the disk before the calls.
    """
    pieces = [wanted[n : n + PIECE] for n in range(0, len(wanted), PIECE)]
    if len(pieces) < 2:
        return cut_some(calls, wanted, safe, look)
    with ProcessPoolExecutor(mp_context=get_context("spawn")) as pool:
        done = [pool.submit(cut_some, calls, piece, safe, look) for piece in pieces]
        return list({cut.image: cut for one in done for cut in one.result()}.values())


def cut_some(
    calls: list[Call], wanted: list[Point], safe: Mapping[str, bytes], look: Look
) -> list[Cut]:
    """What comes of some cuts, each in a new folder; of those that leave the same, the first."""
    cuts: dict[bytes, Cut] = {}
    with in_memory() as folder:
        for number, (point, left, told) in enumerate(images(calls, wanted, Disk.holding(safe))):
            image = print_of(left, told)
            if image not in cuts:
                path = put(left, folder / str(number))
                cuts[image] = Cut(point, image, look(path, told, point))
                shutil.rmtree(path.parent)
    return list(cuts.values())


def images(
    calls: list[Call], wanted: list[Point], disk: Disk
) -> Iterator[tuple[Point, dict[str, bytes], Told]]:
    """Each point with the files that are left there and what had been acknowledged by then."""
    told, done = Told(), 0
    for point in wanted:
        for call in calls[done : point.calls]:
            told.take(call.data.decode()) if call.name == ACKS else disk.take(call)
        done = point.calls
        yield point, disk.left(point.shape, random.Random(point.seed)), told


def print_of(left: Mapping[str, bytes], told: Told) -> bytes:
    """The same for the same files under the same names with as much acknowledged."""
    found = blake2b(str(told).encode(), digest_size=16)
    for name, data in sorted(left.items()):
        found.update(f"{name} {len(data)}\n".encode() + data)
    return found.digest()


def put(left: Mapping[str, bytes], folder: Path) -> Path:
    """The record as it is left, in a new folder."""
    folder.mkdir()
    for name, data in left.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return folder / RECORD


@contextmanager
def in_memory() -> Iterator[Path]:
    """A folder in memory where there is one: the disk is a model, so syncing need not be slow."""
    shared = Path("/dev/shm")
    with TemporaryDirectory(dir=shared if shared.is_dir() else None) as folder:
        yield Path(folder)


def lost(path: Path, told: Told, point: Point) -> str:
    """What of that which was told is gone, or why the kiosk does not start; empty if all is well.

    The record is opened as the kiosk opens it, and the start is recorded; at one point of
    `FOLDED_EACH` the checkpoints are held against the log.
    """
    try:
        record = Record.open(path, NOW)
    except RecordFault as fault:
        return f"does not open: {fault}"
    try:
        return told.missing_in(record) or started_on(record, point.seed % FOLDED_EACH == 0)
    except RecordFault as fault:
        return f"does not start: {fault}"
    finally:
        record.close()


def hash_of(record: Record, seq: int) -> str:
    """The hash of an event, taken from the chain that opening has checked."""
    if record.head[0] == seq:
        return record.head[1]
    assert record.head[0] - seq < TAIL
    with record._connected.transaction() as connection:
        found = "SELECT prev FROM events WHERE seq = ?"
        return str(connection.exec_driver_sql(found, (seq + 1,)).scalar())


def started_on(record: Record, folded: bool = True) -> str:
    """Why the kiosk can't start on a record: its state, and one more event; empty if it can."""
    kiosk = record.restore()
    if folded and kiosk != record.rebuild():
        return "the checkpoints say another state than the log"
    decided = decide(shop(), kiosk, KioskBegan("drill-1", "test", record.after), NOW)
    first = record.head[0] + 1
    begun = tuple(Entry(first + n, NOW, event) for n, event in enumerate(decided.events))
    for entry in begun:
        kiosk = advance(kiosk, entry)
    record.append(begun, kiosk)
    return "" if begun else "the start was not recorded"
