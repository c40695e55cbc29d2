"""`python -m tests.bench NAME`: one of the benches beside this file; without a name all of them.

The table is the design's: what a touch, a start, a rest, a reading, a plan and a record may cost,
each against a floor from the same run. `--chart` adds what they cost at growing sizes. It needs a
computer with nothing else to do, and the better part of an hour; `EVENTS` in the environment asks
for smaller records.
"""

from __future__ import annotations

import json
import sys
from datetime import UTC, datetime
from importlib import import_module
from pathlib import Path

from kiosk.runtime.settings import TREE
from tests.bench._figures import TOLD

TABLE = {
    "screens": (
        "tap to next screen, safe",
        "start to first frame",
        "start to ready, reading shown",
        "idle, no reader",
        "memory",
        "memory growth",
    ),
    "contacts": ("polling", "reading change to screen"),
    "plan": ("one plan",),
    "check": ("all of check",),
    "record": ("events.jsonl", "memory of events.jsonl"),
    "collect": ("collect",),
}
"""Each bench of the table with its rows; what it measures beside them is told but not asked for."""

OUT = TREE / "build" / "bench"


def names() -> list[str]:
    """Every bench there is."""
    return sorted(p.stem for p in Path(__file__).parent.glob("*.py") if p.stem[0] != "_")


def run(name: str) -> int:
    """Run one bench. Returns its exit code."""
    code: int = import_module(f"tests.bench.{name}").main()
    return code


def whole() -> int:
    """Every row of the table from this run, kept as JSON. Returns 0 only if all are met."""
    for name in TABLE:
        print(f"--- {name}", flush=True)
        try:
            run(name)
        except Exception as error:  # one that fails leaves its rows unmet; the others are measured
            print(f"{name}: {type(error).__name__}: {error}", flush=True)
    known = {figure.what: figure for figure in TOLD}
    wanted = [row for rows in TABLE.values() for row in rows]
    print("--- all rows", flush=True)
    for row in wanted:
        print(known.get(row, f"{row:<30} NOT MET: it was not measured"))
    met = [row for row in wanted if row in known and known[row].met]
    print(f"bench: {len(met)} of {len(wanted)} rows met; {keep()}")
    return 0 if len(met) == len(wanted) else 1


def keep() -> Path:
    """Keep all figures of this run; the file they are in."""
    OUT.mkdir(parents=True, exist_ok=True)
    path = OUT / f"{datetime.now(UTC):%Y-%m-%dT%H%M%S}.json"
    path.write_text(json.dumps([figure.plain() for figure in TOLD], indent=1) + "\n", "utf-8")
    return path


def main(words: list[str]) -> int:
    """One bench, all of them, or the chart. Returns the exit code."""
    if words == ["--chart"]:
        from tests.bench._chart import chart

        print(chart(OUT))
        return 0
    if not words:
        return whole()
    if len(words) != 1 or words[0] not in names():
        print(f"python -m tests.bench [NAME | --chart]; NAME is one of: {', '.join(names())}")
        return 2
    return run(words[0])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
