"""What a live feed costs the kiosk: a touch's way to its commit, with no feed and with one.

The same record takes the same events in turns, first with no feed, then with the feed's process
running against a network that refuses, that never answers, and against a server that takes all.
The screen comes after the commit in the kiosk's own process, which no feed touches. Exit code 1 if
the middle one of the times is over 1.1 times that without a feed.
"""

from __future__ import annotations

import socket
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, sleep

from kiosk.core.events import StepDone
from kiosk.runtime.feeding import Feeding
from kiosk.runtime.settings import Settings
from kiosk.store import Record
from kiosk.store.collected import Database
from tests.collect.server import NoServer, started
from tests.recording import Playing

ROUNDS, TOUCHES = 6, 80
PAUSE_S, BEGUN_S = 0.005, 3.0
MOST = 1.1


@dataclass
class Kiosk:
    """A record that takes touches; `times` in seconds by the name of the network."""

    playing: Playing
    times: dict[str, list[float]] = field(default_factory=dict)

    def touched(self, name: str, address: str) -> None:
        """Some touches, each with its commit, while a feed runs or none does."""
        path = self.playing.record.path
        feeding = Feeding(Settings(feed=address, record=path), path)
        sleep(BEGUN_S)  # the feed has loaded and tried; without one as long a rest
        for number in range(TOUCHES):
            began = perf_counter()
            self.playing.happens(StepDone(f"step{number % 9}", "pupil"))
            self.times.setdefault(name, []).append(perf_counter() - began)
            sleep(PAUSE_S)
        feeding.stop()


@contextmanager
def silent() -> Iterator[str]:
    """A far end that lets in and never says a word."""
    with socket.create_server(("127.0.0.1", 0), backlog=64) as far:
        yield f"postgresql+psycopg://feeds@127.0.0.1:{far.getsockname()[1]}/x"


@contextmanager
def networks() -> Iterator[dict[str, str]]:
    """The networks by name, with the address that leads into each."""
    with ExitStack() as stack:
        found = {
            "no feed": "",
            "refusing": "postgresql+psycopg://feeds@127.0.0.1:1/x",
            "never answering": stack.enter_context(silent()),
        }
        try:
            found["taking all"] = stack.enter_context(started()).database()
            Database(found["taking all"]).bring_up()
        except NoServer as reason:
            print(reason)
        yield found


def main() -> int:
    """Run the bench. Returns its exit code."""
    with TemporaryDirectory(prefix="bench-feed-") as folder, networks() as found:
        record = Record.open(Path(folder) / "record.sqlite")
        kiosk = Kiosk(Playing(record))
        for _ in range(ROUNDS):
            for name, address in found.items():
                kiosk.touched(name, address)
        record.close()
    floor, met = median(kiosk.times["no feed"]), True
    for name, times in kiosk.times.items():
        ratio = median(times) / floor
        met &= ratio <= MOST
        p99 = sorted(times)[len(times) * 99 // 100]
        print(
            f"{name:16} {median(times) * 1e3:6.2f} ms, p99 {p99 * 1e3:6.2f} ms; "
            f"{ratio:.2f} of no feed, <= {MOST} {'met' if ratio <= MOST else 'MISSED'}"
        )
    return 0 if met else 1
