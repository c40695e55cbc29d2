"""Collecting against the floor: COPY of the same rows into the same keyed table, in the same run.

Downloads are made on the disk first, then read, judged and taken in, as the command does; the
floor copies the rows out of that database and into an empty one, ready-made and unjudged. The cost
of a row is compared between a small and the whole size. `EVENTS` in the environment asks for
fewer lines than 5 million. Exit code 1 if a target is missed.
"""

from __future__ import annotations

import os
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from kiosk.cli.gathered import gathered
from kiosk.cli.side_by_side import taken
from kiosk.store.collected import Database
from tests.bench._figures import Figure, tell
from tests.collect.many import kiosk, weeks
from tests.collect.server import NoServer, Server, started

EVENTS = int(os.environ.get("EVENTS", "5000000"))
SMALL, EACH = 10_000, 25_000
LEAST_RATE, MOST_GROWTH = 0.5, 1.25
ROUNDS = 3
OUT, IN = "COPY events TO STDOUT BINARY", "COPY events FROM STDIN BINARY"


def collected(server: Server, folder: Path) -> tuple[str, float]:
    """Collect all downloads of a folder into a new database; its name and the seconds."""
    address = server.database()
    database = Database(address)
    database.bring_up()
    began = perf_counter()
    for outcome in taken(database, gathered([folder]), "", int):
        assert not outcome.refused
    return address.rsplit("/", 1)[1], perf_counter() - began


def copied(server: Server, name: str, file: Path) -> float:
    """The floor: the same rows copied into the same empty table."""
    with (
        server.connect(name) as source,
        file.open("wb") as out,
        source.cursor().copy(OUT) as copy,
    ):
        for data in copy:
            out.write(data)
    address = server.database()
    Database(address).bring_up()
    began = perf_counter()
    with (
        server.connect(address.rsplit("/", 1)[1]) as target,
        file.open("rb") as rows,
        target.cursor().copy(IN) as copy,
    ):
        while data := rows.read(1 << 16):
            copy.write(data)
    return perf_counter() - began


def measured(server: Server, folder: Path, events: int) -> tuple[float, float]:
    """Seconds to collect so many lines, and to copy them; of small sizes the best of three."""
    for number in range(-(-events // EACH)):
        weeks(folder, kiosk(number), min(EACH, events - number * EACH))
    rounds = ROUNDS if events <= 20 * SMALL else 1
    taken, floors = [], []
    for _ in range(rounds):
        name, seconds = collected(server, folder)
        taken.append(seconds)
        floors.append(copied(server, name, folder / "rows.bin"))
    return min(taken), min(floors)


def main() -> int:
    """Run the bench. Returns its exit code."""
    try:
        with started() as server, TemporaryDirectory(prefix="bench-collect-") as folder:
            small, _ = measured(server, Path(folder) / "small", SMALL)
            whole, floor = measured(server, Path(folder) / "whole", EVENTS)
    except NoServer as reason:
        print(reason)
        return 2
    rate, alone, said = EVENTS / whole, EVENTS / floor, f"{EVENTS} lines; floor: COPY"
    cost, least, of = whole / EVENTS * 1e6, small / SMALL * 1e6, f"floor: of {SMALL} lines"
    met = (
        tell(Figure("collect", rate, "lines/s", "least", LEAST_RATE, alone, said)),
        tell(Figure("cost of a line collected", cost, "us", "times", MOST_GROWTH, least, of)),
    )
    return 0 if all(met) else 1
