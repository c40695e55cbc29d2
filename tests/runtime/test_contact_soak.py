"""The wire at its worst, for long: disconnects with junk, a stepped clock, starts and stops."""

from __future__ import annotations

import hashlib
import random
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from hardware.reader import reader_for
from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.core.events import ClockStepped
from kiosk.store import Record
from tests.holding import descriptors, own_mb
from tests.runtime.at_the_wires import WIRING, AtTheWires, at_the_wires

FULL_LOSSES, SMALL_LOSSES = 200, 10
FULL_STARTS, SMALL_STARTS = 1000, 20
RECOVERY_S = 5.0
GROWTH_MB = 2.0
HOUR_NS = 3600 * 10**9


def junk(chance: random.Random) -> bytes:
    """Bytes left on the line: none, noise, a piece of an answer, a whole old answer."""
    kinds = (b"", chance.randbytes(chance.randrange(1, 200)), b"\x01\x02\x01", b"\x55" * 60)
    return chance.choice((*kinds, b"\x01\x02\x01\x01\x60\x48"))


def lose_and_find(kiosk: AtTheWires, chance: random.Random) -> None:
    """One disconnect with junk; back within five seconds, else the wait fails."""
    kiosk.unit.unplug(junk(chance))
    kiosk.word("unknown")
    kiosk.unit.plug()
    kiosk.word("off", RECOVERY_S)


@pytest.mark.timeout(1800)
def test_a_soak_of_forced_disconnects(
    tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    losses, chance = FULL_LOSSES if full else SMALL_LOSSES, random.Random(20261125)
    with at_the_wires(tmp_path) as kiosk:
        kiosk.word("off")
        for _ in range(5):
            lose_and_find(kiosk, chance)  # warms up: caches fill once
        kiosk.told()
        held, opened = own_mb(), descriptors()  # in this order: garbage may hold open files

        slowest = 0.0
        for _ in range(losses):
            began = time.monotonic()
            lose_and_find(kiosk, chance)
            slowest = max(slowest, time.monotonic() - began)

        grown = own_mb() - held
        assert [t.name for t in threading.enumerate()].count("contacts") == 1
        assert descriptors() == opened
        assert grown <= GROWTH_MB, f"{grown:.2f} MB"
        assert kiosk.told() == [("unknown", "unplugged"), ("off", "settled")] * losses
    sum_up(
        f"contact soak: {losses} losses with junk, {losses} recorded once each, slowest loss and "
        f"recovery {slowest:.2f} s, memory {grown:+.2f} MB, descriptors {opened}, reader alive"
    )


@pytest.mark.parametrize("hours", [1, -1])
def test_a_clock_stepped_an_hour_while_polling_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, hours: int
) -> None:
    plain, plain_ns = time.time, time.time_ns
    with at_the_wires(tmp_path) as kiosk:
        kiosk.word("off")
        kiosk.told()
        before = kiosk.running.latest()

        monkeypatch.setattr(time, "time", lambda: plain() + hours * 3600)
        monkeypatch.setattr(time, "time_ns", lambda: plain_ns() + hours * HOUR_NS)
        asked = kiosk.unit.questions
        kiosk.see(lambda v: kiosk.unit.questions >= asked + 12, "twelve more polls")

        assert kiosk.told() == []
        assert kiosk.running.latest().head == before.head
        kiosk.drill.turn_isolator(True)
        kiosk.word("on", 1.0)
    record = Record.open(tmp_path / "record.sqlite")
    steps = [e.event.by_us for e in record.entries() if isinstance(e.event, ClockStepped)]
    record.close()
    assert [round(by / 3.6e9) for by in steps] == [hours]


class Load:
    """Two threads that keep the processor busy."""

    def __init__(self) -> None:
        self._ended = threading.Event()
        self._threads = [threading.Thread(target=self._work, name="load") for _ in range(2)]

    def __enter__(self) -> Load:
        for thread in self._threads:
            thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        for thread in self._threads:
            thread.join()

    def _work(self) -> None:
        while not self._ended.is_set():
            hashlib.sha256(bytes(4096)).digest()


@pytest.mark.timeout(1800)
def test_started_and_stopped_under_load_it_raises_nothing_and_leaves_no_thread(
    full: bool, monkeypatch: pytest.MonkeyPatch, sum_up: Callable[[str], None]
) -> None:
    starts, chance, raised = FULL_STARTS if full else SMALL_STARTS, random.Random(5), []
    monkeypatch.setattr(threading, "excepthook", raised.append)
    faults = ("", "", "crc_error", "babble", "silent", "echo")
    with SimulatedUnit(SimulatedDrill().levels) as unit, Load():
        samples: list[object] = []
        reader = reader_for(WIRING, unit.port, samples.append, lambda: time.monotonic_ns() // 1000)
        before = descriptors()
        for _ in range(starts):
            unit.order(chance.choice(faults))
            reader.start()
            threading.Event().wait(chance.random() * 0.02)
            reader.stop()
            assert not reader.is_alive  # type: ignore[attr-defined]

        assert descriptors() == before
    assert raised == []
    assert "contacts" not in [thread.name for thread in threading.enumerate()]
    sum_up(f"contact starts: {starts} under load, {len(samples)} samples, no exception, no thread")
