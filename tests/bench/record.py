"""Five million events on one kiosk: taking them away, and starting with them.

Made first, by the record's own encoding and a plain connection; then, while the record is open
and written to, events.jsonl against the sqlite3 shell dumping the same rows, memory, and how
long the record takes to open beside a short one. Exit code 1 if a target is missed. `EVENTS`
in the environment asks for fewer.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from kiosk.core.events import Entry, StepDone
from kiosk.core.kiosk import EMPTY
from kiosk.core.units import Moment
from kiosk.store import Record
from kiosk.store.codec import BEFORE_FIRST, encode
from tests.bench._figures import Figure, tell

EVENTS, SHORT, ROUNDS = int(os.environ.get("EVENTS", "5000000")), 2000, 3
MOST_TIMES, MOST_MEMORY, MOST_START = 2.0, 1.25, 1.5
DUMP = "SELECT CAST(bytes AS TEXT) FROM events ORDER BY log, seq"
INSERT = "INSERT INTO events (log, seq, wall_us, quality, kind, v, prev, hash, bytes) VALUES "
CHILD = """
import re, sys
from pathlib import Path
from kiosk.export.download import write_evidence
from kiosk.export.folder import Folder
from kiosk.store import ReadOnlyRecord
with ReadOnlyRecord(Path(sys.argv[1])) as record, Folder.open(Path(sys.argv[2])) as folder:
    with folder.writing("events.jsonl") as part:
        write_evidence(part, record.stretch(1, int(sys.argv[3])))
print(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1])
"""


Columns = tuple[object, ...]


def rows(log: str, count: int) -> Iterator[Columns]:
    """The rows of so many events, each a second after the one before."""
    first = encode(log, BEFORE_FIRST, Entry(1, Moment("boot1", 1, 1, 2), StepDone("eyes", "pupil")))
    shape = first.bytes.replace(b'"seq":1,"us":1,', b'"seq":%d,"us":%d,')
    shape = shape.replace(b'"wall_us":1}', b'"wall_us":%d}').replace(BEFORE_FIRST.encode(), b"%b")
    prev = BEFORE_FIRST
    for seq in range(1, count + 1):
        us = seq * 1_000_000
        data = shape % (prev.encode(), seq, us, us)
        line_hash = sha256(data).hexdigest()
        yield (log, seq, us, 2, first.kind, first.v, prev, line_hash, data)
        prev = line_hash


def make(path: Path, count: int, made: Callable[[str, int], Iterator[Columns]] = rows) -> None:
    """A record of so many events, as `made` makes them; one more by the record itself."""
    record = Record.open(path)
    log = record.log
    record.close()
    with sqlite3.connect(path, isolation_level=None) as connection:
        for setting in ("synchronous = OFF", "cache_size = -400000"):
            connection.execute(f"PRAGMA {setting}")
        connection.execute("BEGIN")
        connection.executemany(f"{INSERT}({', '.join('?' * 9)})", made(log, count))
        connection.execute("COMMIT")
    connection.close()
    path.with_name(path.name + ".head").unlink()
    record = Record.open(path)
    assert record.log == log, "the record was set aside: a line of it is not right"
    append(record)
    record.close()


def append(record: Record) -> None:
    """One more event, with the state after it."""
    seq = record.head[0] + 1
    at = Moment("boot1", seq * 1_000_000, seq * 1_000_000, 2)
    record.append((Entry(seq, at, StepDone("eyes", "pupil")),), EMPTY)


def seconds(work: Callable[[], object]) -> float:
    """How long it takes at best."""
    taken = []
    for _ in range(ROUNDS):
        began = perf_counter()
        work()
        taken.append(perf_counter() - began)
    return min(taken)


def dump(path: Path, to: Path) -> None:
    """The floor: the shell writes the same rows."""
    with to.open("wb") as out:
        subprocess.run(["sqlite3", str(path), DUMP], stdout=out, check=True)
        os.fsync(out.fileno())


def take(path: Path, to: Path, count: int) -> int:
    """events.jsonl by the process that a running kiosk starts; its memory at most, in kB."""
    (to / "events.jsonl.part").unlink(missing_ok=True)
    words = [sys.executable, "-c", CHILD, str(path), str(to), str(count)]
    return int(subprocess.run(words, capture_output=True, text=True, check=True).stdout)


def opening(path: Path) -> float:
    """How long until the state is known."""

    def work() -> None:
        record = Record.open(path)
        record.restore()
        record.close()

    return seconds(work)


def measured(folder: Path) -> list[bool]:
    """Every line of the bench."""
    long, short = folder / "long.sqlite", folder / "short.sqlite"
    for path, count in ((short, SHORT), (long, EVENTS)):
        make(path, count)
    print(f"{EVENTS} events, {long.stat().st_size / 1e9:.2f} GB")
    floor = opening(short)
    told = f"{EVENTS} events; floor: a record of {SHORT}"
    met = [tell(Figure("open a long record", opening(long), "s", "times", MOST_START, floor, told))]
    record, done = Record.open(long), threading.Event()
    writing = threading.Thread(target=lambda: _write_until(record, done))
    writing.start()
    try:
        taken = seconds(lambda: take(long, folder, EVENTS))
        dumped = seconds(lambda: dump(long, folder / "dump.txt"))
        told = f"{EVENTS} events; floor: the sqlite3 shell"
        met.append(tell(Figure("events.jsonl", taken, "s", "times", MOST_TIMES, dumped, told)))
        all_kb, tenth_kb = take(long, folder, EVENTS), take(long, folder, EVENTS // 10)
        told, limit = "floor: a tenth of the events", MOST_MEMORY
        all_mb, least = all_kb / 1e3, tenth_kb / 1e3
        met.append(
            tell(Figure("memory of events.jsonl", all_mb, "MB", "times", limit, least, told))
        )
    finally:
        done.set()
        writing.join()
        record.close()
    return met


def _write_until(record: Record, done: threading.Event) -> None:
    """The kiosk goes on meanwhile."""
    while not done.wait(0.1):
        append(record)


def main() -> int:
    """Run the bench. Returns its exit code."""
    if shutil.which("sqlite3") is None:
        print("needs the sqlite3 shell: apt-get install sqlite3")
        return 2
    with TemporaryDirectory(prefix="bench-record-") as folder:
        return 0 if all(measured(Path(folder))) else 1
