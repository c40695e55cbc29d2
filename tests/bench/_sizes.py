"""Costs measured at growing sizes, for the chart. Each is the best of three, in milliseconds.

A kiosk with contacts records some 920 lines a week, 39 weeks a year (README, *How it grows*).
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

from kiosk.runtime.settings import TREE
from kiosk.store import Record
from tests.bench.collect import collected, weeks
from tests.bench.record import append, make, opening, take
from tests.collect.many import kiosk
from tests.collect.server import NoServer, started

A_WEEK, A_YEAR = 920, 39 * 920
RECORDS = (A_WEEK, 12 * A_WEEK, A_YEAR, 3 * A_YEAR, 10 * A_YEAR)
JOBS = (1, 10, 100, 1_000, 10_000)
KIOSKS = (1, 10, 100, 1_000)
TIMES = 3


class Curve(NamedTuple):
    """A cost by size: pairs of size and milliseconds."""

    name: str
    points: list[tuple[float, float]]


def panels() -> dict[str, list[Curve]]:
    """Every panel of the chart: its title and its curves."""
    with TemporaryDirectory(prefix="bench-sizes-") as name:
        found = {"lines of record (a week to 10 years)": records(Path(name))}
        found["jobs in the content"] = jobs(Path(name))
        try:
            found["kiosks, a week each collected"] = kiosks(Path(name))
        except NoServer as reason:
            print(f"no curve for kiosks: {reason}")
    return found


def ms(work: Callable[[], object]) -> float:
    """The best of some times."""
    taken = []
    for _ in range(TIMES):
        began = perf_counter()
        work()
        taken.append((perf_counter() - began) * 1000)
    return min(taken)


def records(folder: Path) -> list[Curve]:
    """Opening a record, one commit, all of its lines taken away."""
    opened, commit, taken = (Curve(n, []) for n in ("open, ms", "one commit, ms", "download, ms"))
    for size in RECORDS:
        path = folder / f"{size}.sqlite"
        make(path, size)
        opened.points.append((size, opening(path) * 1000))
        record = Record.open(path)
        commit.points.append((size, ms(lambda: append(record))))  # noqa: B023
        record.close()
        taken.points.append((size, ms(lambda: take(path, folder, size))))  # noqa: B023
    return [opened, commit, taken]


def jobs(folder: Path) -> list[Curve]:
    """Reading the content, and the page on which a teacher finds jobs; by a process of its own."""
    read, page = Curve("read the content, ms", []), Curve("page of jobs, ms", [])
    for size in JOBS:
        school = folder / f"school-{size}"
        write_jobs(school, size)
        words = [sys.executable, "-m", "tests.bench._jobs", str(school)]
        said = subprocess.run(words, cwd=TREE, check=True, stdout=subprocess.PIPE, text=True)
        for curve, cost in zip((read, page), said.stdout.split(), strict=True):
            curve.points.append((size, float(cost)))
    return [read, page]


def write_jobs(school: Path, count: int) -> None:
    """A school's folder with so many jobs, each a copy of a shipped one."""
    shipped = (TREE / "sequences" / "jobs" / "key_tag.yaml").read_text("utf-8")
    (school / "jobs").mkdir(parents=True)
    for number in range(count):
        text = shipped.replace("Key tag", f"Key tag {number}")
        (school / "jobs" / f"job_{number}.yaml").write_text(text, "utf-8")


def kiosks(folder: Path) -> list[Curve]:
    """A week of each kiosk taken into one database."""
    whole = Curve("collect, ms", [])
    with started() as server:
        for size in KIOSKS:
            downloads = folder / f"kiosks-{size}"
            for number in range(size):
                weeks(downloads, kiosk(number), A_WEEK)
            whole.points.append((size, collected(server, downloads)[1] * 1000))
    return [whole]
