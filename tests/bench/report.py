"""A report over five million events: at most 60 s and 500 MB.

The record is the invented term's first drill over and over, each time with other boots and later
by a term. `EVENTS` in the environment asks for fewer. Exit code 1 if a target is missed.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from hashlib import sha256
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from demo.recorded import unpacked
from kiosk.core.events import Purged
from kiosk.store.codec import BEFORE_FIRST, encode
from tests.bench._figures import Figure, tell
from tests.bench.record import Columns, make

EVENTS = int(os.environ.get("EVENTS", "5000000"))
MOST_S, MOST_MB = 60.0, 500.0
CHILD = """
import re, sys
from pathlib import Path
from time import process_time
from kiosk.cli.report import report_command
report_command(sys.argv[1:], standalone_mode=False)
print(process_time())
print(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1])
"""
TERM_US = 98 * 86_400_000_000


def rows(log: str, count: int) -> Iterator[Columns]:
    """The rows of so many events."""
    whole = unpacked()[0].entries
    entries = tuple(each for each in whole if not isinstance(each.event, Purged))
    shapes = [_shape(log, entry) for entry in entries]
    prev, seq = BEFORE_FIRST, 0
    for entry, (kind, shape) in islice(cycle(zip(entries, shapes, strict=True)), count):
        turn, seq = seq // len(entries), seq + 1
        wall_us = entry.at.wall_us + turn * TERM_US
        boot = f"{entry.at.boot}-{turn}".encode()
        data = shape % (boot, prev.encode(), seq, wall_us)
        line_hash = sha256(data).hexdigest()
        yield (log, seq, wall_us, entry.at.quality, kind, 1, prev, line_hash, data)
        prev = line_hash


def _shape(log: str, entry: object) -> tuple[str, bytes]:
    """A line with places for its boot, the hash before, its number and its wall clock."""
    line = encode(log, BEFORE_FIRST, entry)  # type: ignore[arg-type]
    at, seq = entry.at, entry.seq  # type: ignore[attr-defined]
    shape = line.bytes.replace(b"%", b"%%")
    for told, place in (
        (f'"boot":"{at.boot}"'.encode(), b'"boot":"%b"'),
        (f'"prev":"{BEFORE_FIRST}"'.encode(), b'"prev":"%b"'),
        (f'"seq":{seq},"us"'.encode(), b'"seq":%d,"us"'),
        (f'"wall_us":{at.wall_us}}}'.encode(), b'"wall_us":%d}'),
    ):
        shape = shape.replace(told, place)
    return line.kind, shape


def main() -> int:
    """Run the bench. Returns its exit code."""
    with TemporaryDirectory(prefix="bench-report-") as folder:
        path = Path(folder) / "record.sqlite"
        make(path, EVENTS, rows)
        size = sum(each.stat().st_size for each in Path(folder).iterdir())
        print(f"{EVENTS} events, {size / 1e9:.2f} GB")
        words = [sys.executable, "-c", CHILD, "--all", "--record", str(path), "--to", folder]
        began = perf_counter()
        said = subprocess.run(words, check=True, capture_output=True, text=True).stdout
        taken = perf_counter() - began
        worked, most_kb = map(float, said.split()[-2:])
        print(f"of it at work on a processor: {worked:.1f} s; the rest it waited for others")
        met = [tell(Figure("report, page and workbook", taken, "s", "most", MOST_S))]
        met.append(tell(Figure("memory of a report", most_kb / 1e3, "MB", "most", MOST_MB)))
        return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
