"""A kiosk composed for real, without a window, at a simulated drill: what it shows and records."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.core.events import ReadingChanged
from kiosk.core.model import ContactPair, ContactTimes, Wiring
from kiosk.core.units import Duration
from kiosk.core.view import View
from kiosk.runtime.commissioning.machine_file import write_contacts
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import Running, start
from kiosk.store.reading import ReadOnlyRecord

HASTY = ContactTimes(stale=Duration(1.4), chatter_per_min=9999)
INPUTS = (("isolator", ContactPair(0, 1)), ("starter", ContactPair(make=2)))
WIRING = Wiring("modbus", inputs=INPUTS, times=HASTY)
PATIENCE_S = 10.0


class NotShown(AssertionError):
    """What was waited for did not come on the screen in time."""


@dataclass
class AtTheWires:
    """The kiosk running, the drill and its unit, and how far the record has been looked at."""

    running: Running
    record: Path
    drill: SimulatedDrill
    unit: SimulatedUnit
    looked: int = field(default=0)

    def see(self, found: Callable[[View], bool], what: str, seconds: float = PATIENCE_S) -> View:
        """The first view that is as wanted within so many seconds."""
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            view = self.running.latest()
            if found(view):
                return view
            time.sleep(0.005)
        view = self.running.latest()
        raise NotShown(f"{what} not within {seconds} s; it says {view.head.isolator_word!r}")

    def word(self, isolator: str, seconds: float = PATIENCE_S) -> View:
        """The view once its head says this of the isolator."""
        return self.see(lambda v: v.head.isolator == isolator, f"isolator {isolator}", seconds)

    def told(self) -> list[tuple[str, str]]:
        """The isolator's readings recorded since last asked, each with why."""
        with ReadOnlyRecord(self.record) as record:
            entries = list(record.entries(self.looked + 1, record.head[0]))
        self.looked = entries[-1].seq if entries else self.looked
        events = [e.event for e in entries if isinstance(e.event, ReadingChanged)]
        return [(e.reading, e.why) for e in events if e.input == "isolator"]


@contextmanager
def nothing_searched() -> Iterator[None]:
    """Keep the garbage collector to what is made from here on."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


@contextmanager
def at_the_wires(
    folder: Path, wiring: Wiring = WIRING, port: str | None = None
) -> Iterator[AtTheWires]:
    """A kiosk whose machine has this wiring, at the unit's port or another one.

    What earlier tests left in memory is not searched for garbage meanwhile: in a large process
    that stops every thread for seconds, and the kiosk rightly says that nothing comes in.
    """
    school = folder / "school"
    write_contacts(TREE / "sequences", school, "drill-1", wiring)
    drill = SimulatedDrill(run_down=0.2)
    record = folder / "record.sqlite"
    with nothing_searched(), SimulatedUnit(drill.levels) as unit:
        running = start(
            Settings(school=school, record=record, port=unit.port if port is None else port)
        )
        try:
            assert running.loop is not None, running.fault
            yield AtTheWires(running, record, drill, unit)
        finally:
            running.stop()
