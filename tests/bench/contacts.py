"""What polling the contacts costs, and how long a change of theirs takes to the screen.

Two kiosks run side by side in real windows for the same stretch, one with the reader and one
without: the difference of their processor times is what polling costs, the loop's and the screen's
part included. Then the isolator of a simulated drill is turned at random moments, and the time
is taken until the log of what was shown has the new word.
"""

from __future__ import annotations

import json
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from demo.displays import Displays, NoDisplay
from demo.kiosk import command
from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.clock import Clock
from kiosk.core.model import ContactPair, ContactTimes, Wiring
from kiosk.runtime.commissioning.machine_file import write_contacts
from kiosk.runtime.settings import TREE
from tests.bench._figures import Figure, tell

CPU_LIMIT_PERCENT, CHANGE_LIMIT_S = 1.0, 0.5
SETTLE_S, STRETCH_S, TURNS, APART_S = 6.0, 30.0, 40, (0.7, 1.3)
PATIENCE_S = 30.0
INPUTS = (("isolator", ContactPair(0, 1)), ("starter", ContactPair(make=2)))
WIRING = Wiring("modbus", inputs=INPUTS, times=ContactTimes(chatter_per_min=9999))


@dataclass(frozen=True)
class Kiosk:
    """A kiosk in a window of its own."""

    process: subprocess.Popen[bytes]
    shown: Path

    def cpu_s(self) -> float:
        """Processor time of all its threads so far, from the kernel's own count."""
        tasks = Path(f"/proc/{self.process.pid}/task").glob("*/schedstat")
        return sum(int(task.read_text().split()[0]) for task in tasks) / 1e9

    def word(self) -> tuple[str, int]:
        """The isolator's word shown last, and when, in microseconds since boot."""
        lines = self.shown.read_text("utf-8").splitlines() if self.shown.exists() else []
        whole = [line for line in lines if line.endswith("}")]
        last = json.loads(whole[-1]) if whole else {"isolator": "", "us": 0}
        return last["isolator"], last["us"]

    def wait(self, word: str) -> int:
        """When the word was first seen to be shown."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            shown, us = self.word()
            if shown == word:
                return us
            time.sleep(0.02)
        raise TimeoutError(f"{word!r} was not shown within {PATIENCE_S} s, but {self.word()[0]!r}")


@contextmanager
def kiosk(folder: Path, display: str, port: str) -> Iterator[Kiosk]:
    """A kiosk at this port; with an empty one it reads nothing."""
    folder.mkdir()
    school, shown = folder / "school", folder / "shown.jsonl"
    write_contacts(TREE / "sequences", school, "drill-1", WIRING)
    words = ["run", "--school", str(school), "--record", str(folder / "record.sqlite")]
    words += ["--shown", str(shown), "--port", port]
    process = subprocess.Popen(
        ["env", f"DISPLAY={display}", *command(*words)],
        cwd=TREE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield Kiosk(process, shown)
    finally:
        process.terminate()
        process.wait(15)


def polling_percent(reading: Kiosk, idle: Kiosk) -> tuple[float, float, float]:
    """Processor time in percent of one core: what polling adds, with it, and without it."""
    time.sleep(SETTLE_S)
    began, before = time.monotonic(), (reading.cpu_s(), idle.cpu_s())
    time.sleep(STRETCH_S)
    after, lasted = (reading.cpu_s(), idle.cpu_s()), time.monotonic() - began
    with_it, without = ((a - b) / lasted * 100 for a, b in zip(after, before, strict=True))
    return with_it - without, with_it, without


def changes_s(reading: Kiosk, drill: SimulatedDrill) -> list[float]:
    """Seconds from the turn of the handle to the new word, for each turn."""
    clock, chance, taken = Clock(), random.Random(20261125), []
    for turn in range(TURNS):
        time.sleep(chance.uniform(*APART_S))
        on = turn % 2 == 0
        began = clock.us()
        drill.turn_isolator(on)
        taken.append((reading.wait(f"Isolator {'on' if on else 'off'}") - began) / 1e6)
    return taken


def measured(folder: Path, display: str) -> bool:
    """Measure and print both rows."""
    drill = SimulatedDrill()
    with SimulatedUnit(drill.levels) as unit, ExitStack() as stack:
        reading = stack.enter_context(kiosk(folder / "reading", display, unit.port))
        with kiosk(folder / "idle", display, "") as idle:
            reading.wait("Isolator off")
            idle.wait("Isolator unknown")
            added, with_it, without = polling_percent(reading, idle)
        taken = sorted(changes_s(reading, drill))
    cost = f"{with_it:.2f} % with, {without:.2f} % without"
    change = f"longest of {len(taken)}; median {statistics.median(taken):.3f} s"
    limit, name = CHANGE_LIMIT_S, "reading change to screen"
    rows = (
        tell(Figure("polling", added, "% of core", "most", CPU_LIMIT_PERCENT, note=cost)),
        tell(Figure(name, taken[-1], "s", "most", limit, note=change)),
    )
    return all(rows)


def main() -> int:
    """Measure. Returns 0 only if both targets are met."""
    try:
        with Displays() as displays, tempfile.TemporaryDirectory(prefix="bench-") as folder:
            return 0 if measured(Path(folder), displays.of(800, 480)) else 1
    except NoDisplay as reason:
        print(reason)
        return 1


if __name__ == "__main__":
    sys.exit(main())
