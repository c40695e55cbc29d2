"""The screens against a bare Kivy app on the same display, settings and panel, in the same run.

Tap: from the pointer's press to the frame that shows the next screen, with its event safe on the
card; the bare app commits one row to a plain SQLite file and changes between two screens. They are
tapped in turn, so that both meet the same load. Idle: processor time of both over the same stretch,
without a reader. Memory: of both, and what two thousand turns on the screen leave behind. Start:
to the first frame, and until it is ready for a touch with the contacts' reading on the screen.
`TURNS` in the environment asks for another number of turns; `-m soak` plays 10,000 lessons through
the loop.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from demo.bench import Bench
from demo.displays import Displays, NoDisplay
from demo.hand import Hand, Sight
from demo.kiosk import KioskProcess, command, issue_pins
from demo.played import Lesson
from kiosk.clock import Clock
from kiosk.runtime.settings import TREE
from tests.bench._figures import Figure, tell
from tests.bench._starts import Starts
from tests.end_to_end.robot import Pointer

TAPS, WARM_TAPS, PUPIL = 300, 30, "14"
TAP_LIMIT, IDLE_LIMIT, MEMORY_MB, GROWTH_MB = 1.3, 1.2, 60.0, 5.0
SETTLE_S, STRETCH_S, BARE_REST_S = 8.0, 40.0, 0.05
WARM_TURNS, TURNS = 200, int(os.environ.get("TURNS", "2000"))
STARTS, FIRST_LIMIT, READY_LIMIT = 7, 1.5, 4.0
PATIENCE_S = 60.0


@dataclass
class Bare:
    """The bare app in a process of its own; `lines` are its flips: when, and which screen."""

    display: str
    process: subprocess.Popen[str]
    pointer: Pointer
    screen: str = ""
    clock: Clock = field(default_factory=Clock)

    def tap(self) -> float:
        """Milliseconds from a tap to the frame that shows the other screen."""
        began = self.clock.us()
        self.pointer.do("mousemove", 400, 240, "click", 1)
        while True:
            us, screen = self.flip()
            if screen != self.screen:
                self.screen = screen
                return (us - began) / 1000

    def flip(self) -> tuple[int, str]:
        """The next frame."""
        assert self.process.stdout is not None
        us, screen = self.process.stdout.readline().split()
        return int(us), screen


def bare_words(folder: Path) -> list[str]:
    """The command that starts the bare app."""
    return [sys.executable, "-m", "tests.bench._bare", str(folder / "bare.sqlite")]


@contextmanager
def bare(display: str, folder: Path) -> Iterator[Bare]:
    """The bare app, after its first frame."""
    words = bare_words(folder)
    environment = {**os.environ, "DISPLAY": display}
    process = subprocess.Popen(
        words,
        cwd=TREE,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    app = Bare(display, process, Pointer(display))
    try:
        app.screen = app.flip()[1]
        yield app
    finally:
        process.terminate()
        process.wait(15)
        app.pointer.end()


def cpu_s(pid: int) -> float:
    """Processor time of all threads of a process so far, from the kernel's own count."""
    tasks = Path(f"/proc/{pid}/task").glob("*/schedstat")
    return sum(int(task.read_text().split()[0]) for task in tasks) / 1e9


def resident_mb(pid: int) -> float:
    """Megabytes that a process has in memory."""
    return int(Path(f"/proc/{pid}/statm").read_text().split()[1]) * 4096 / 1e6


# --- tap to next screen ---


@dataclass
class Tapped:
    """The kiosk in a turn: forward by its steps as far as a pupil may, then back, and again."""

    hand: Hand
    pointer: Pointer
    onward: bool = True
    clock: Clock = field(default_factory=Clock)

    def tap(self) -> float:
        """Milliseconds from a tap to the frame that shows the next step."""
        before = self.hand.wait("a step", lambda s: s.screen == "step", PATIENCE_S)
        spot = self._spot(before)
        began = self.clock.us()
        self.pointer.do("mousemove", spot[0], spot[1], "click", 1)
        after = self.hand.wait("the next", lambda s: s.seq > before.seq, PATIENCE_S)
        shown = next(s for _, s in self.hand.sights if s.seq > before.seq)
        assert after.seq == shown.seq
        return (shown.raw["us"] - began) / 1000

    def _spot(self, seen: Sight) -> tuple[int, int]:
        main = [spot for spot in seen.spots if spot.look == "main"]
        back = [spot for spot in seen.spots if spot.label == "Back"]
        self.onward = bool(main) and (self.onward or not back)
        chosen = (main if self.onward else back)[0]
        return chosen.x, chosen.y


def taps_ms(display: str, other: str, folder: Path) -> tuple[list[float], list[float]]:
    """Milliseconds of each tap: the kiosk's, and the bare app's."""
    record, shown = folder / "record.sqlite", folder / "shown.jsonl"
    pins = issue_pins(record)
    with ExitStack() as stack:
        bench = stack.enter_context(Bench())
        kiosk = KioskProcess(display, record, shown, bench.port)
        stack.callback(kiosk.end)
        hand, pointer = Hand(display, shown, lambda sight: None), Pointer(display)
        stack.callback(pointer.end)
        hand.wait("the first screen", lambda sight: True, PATIENCE_S)
        lesson = Lesson(hand, bench, pins)
        lesson.open_lesson()
        lesson.begin(PUPIL)
        ours, floor = Tapped(hand, pointer), stack.enter_context(bare(other, folder))
        for _ in range(WARM_TAPS):
            ours.tap(), floor.tap()
        return _in_turn(ours, floor)


def _in_turn(ours: Tapped, floor: Bare) -> tuple[list[float], list[float]]:
    kiosk, app = [], []
    for _ in range(TAPS):
        kiosk.append(ours.tap())
        app.append(floor.tap())
        time.sleep(BARE_REST_S)
    return kiosk, app


def p99(values: Sequence[float]) -> float:
    """The value that one in a hundred lies above."""
    return statistics.quantiles(values, n=100, method="inclusive")[-1]


def tap_row(display: str, other: str, folder: Path) -> bool:
    """Measure and print taps."""
    ours, floor = taps_ms(display, other, folder)
    most, least = p99(ours), p99(floor)
    middle, bare_middle = statistics.median(ours), statistics.median(floor)
    said = f"p99 of {TAPS}; median {middle:.1f}, floor {bare_middle:.1f}"
    return tell(Figure("tap to next screen, safe", most, "ms", "times", TAP_LIMIT, least, said))


# --- idle, memory ---


def idle_rows(display: str, other: str, folder: Path) -> list[bool]:
    """Measure and print processor time at rest, and memory."""
    record = folder / "idle.sqlite"
    issue_pins(record)
    shown = folder / "idle.jsonl"
    words = command("run", "--record", str(record), "--shown", str(shown))
    silent = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    environment = {**os.environ, "DISPLAY": display}
    process = subprocess.Popen(words, cwd=TREE, env=environment, **silent)
    try:
        with bare(other, folder) as app:
            _wait_for(shown)
            time.sleep(SETTLE_S)
            pids = (process.pid, app.process.pid)
            before, began = [cpu_s(pid) for pid in pids], time.monotonic()
            time.sleep(STRETCH_S)
            lasted = time.monotonic() - began
            ours, floor = ((cpu_s(p) - b) / lasted * 100 for p, b in zip(pids, before, strict=True))
            memory, least = (resident_mb(pid) for pid in pids)
    finally:
        process.terminate()
        process.wait(15)
    return [
        tell(Figure("idle, no reader", ours, "% of core", "times", IDLE_LIMIT, floor)),
        tell(Figure("memory", memory, "MB", "plus", MEMORY_MB, least)),
    ]


def _wait_for(shown: Path) -> None:
    """Wait until something was shown."""
    until = time.monotonic() + PATIENCE_S
    while not (shown.exists() and shown.stat().st_size) and time.monotonic() < until:
        time.sleep(0.1)


def growth_row(display: str) -> bool:
    """Play turns on a screen and print what they leave in memory."""
    words = [sys.executable, "-m", "tests.bench._sessions", str(WARM_TURNS), str(TURNS)]
    environment = {**os.environ, "DISPLAY": display}
    played = subprocess.run(
        words, cwd=TREE, env=environment, check=True, stdout=subprocess.PIPE, text=True
    )
    before, after = map(float, played.stdout.split()[-2:])
    said = f"over {TURNS} turns on a screen, from {before:.0f} MB"
    return tell(Figure("memory growth", after - before, "MB", "most", GROWTH_MB, note=said))


# --- start ---


def start_rows(display: str, folder: Path) -> list[bool]:
    """Measure and print starts, the kiosk's and the bare app's in turn; medians are compared."""
    record = folder / "starts.sqlite"
    issue_pins(record)
    with Bench() as bench:
        starts = Starts(display, folder, record)
        starts.bare_s(bare_words(folder)), starts.kiosk_s(bench)
        told = [(starts.bare_s(bare_words(folder)), *starts.kiosk_s(bench)) for _ in range(STARTS)]
        starts.end()
    floor, first, ready = (statistics.median(column) for column in zip(*told, strict=True))
    return [
        tell(Figure(what, took, "s", "times", limit, floor))
        for what, took, limit in (
            ("start to first frame", first, FIRST_LIMIT),
            ("start to ready, reading shown", ready, READY_LIMIT),
        )
    ]


def main() -> int:
    """Measure. Returns 0 only if every row is met."""
    try:
        with Displays() as displays, tempfile.TemporaryDirectory(prefix="bench-") as name:
            one, two = displays.of(800, 480), displays.of(800, 481)
            folder, large = Path(name), displays.of(1280, 900)
            rows = [tap_row(one, two, folder), *idle_rows(one, two, folder)]
            rows += [*start_rows(one, folder), growth_row(large)]
            return 0 if all(rows) else 1
    except NoDisplay as reason:
        print(reason)
        return 1


if __name__ == "__main__":
    sys.exit(main())
