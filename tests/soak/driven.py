"""A kiosk composed for real but for its threads: driven, with time and contacts handed in.

Record, content, people, errands and loop are the ones that a kiosk starts with. A PIN is compared
at once, and hashed as at a kiosk only now and then, since a hash is meant to take long.
"""

from __future__ import annotations

import resource
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from kiosk.content.starting import Starting, load_for
from kiosk.core.contacts import Sample
from kiosk.core.inputs import DownloadEnded, Input, KioskEnding, PinChecked
from kiosk.core.kiosk import Shop
from kiosk.core.model import Adult
from kiosk.core.units import Moment
from kiosk.people import hash_pin, pepper_for, read_roster
from kiosk.runtime import start as composing
from kiosk.runtime.errands import Runners
from kiosk.runtime.inbox import Command
from kiosk.runtime.loop import Loop
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.sticks import Sticks
from kiosk.store import Record, RecordFault
from tests.recording import MAY_2026_US
from tests.runtime.driven import HandClock

PIN, MACHINE = "482915", "drill-1"
ROSTER = TREE / "demo" / "roster" / "roster.csv"
SECOND_US = 1_000_000
HASHED_EVERY = 100
POLL_US, SETTLED_S = 400_000, 1.6
PATIENCE_S = 2.0


@cache
def shipped() -> Starting:
    """The content that is shipped, read once."""
    return load_for(MACHINE, TREE / "sequences", None)


class Quick(Runners):
    """The kiosk's errands; most PINs are compared without a hash."""

    asked = 0

    def check_pin(self, adult: str, digits: str) -> None:
        """Compare a PIN; the answer comes as `PinChecked`."""
        Quick.asked += 1
        if Quick.asked % HASHED_EVERY:
            self._post(PinChecked(adult, digits == PIN))
        else:
            super().check_pin(adult, digits)


class Driven:
    """A kiosk on the record in `folder`, started again and again; `clock` is turned by hand."""

    def __init__(self, folder: Path) -> None:
        self.path, self.folder = folder / "record.sqlite", folder
        self.clock = HandClock(Moment("boot0", SECOND_US, MAY_2026_US, 2))
        self.settings = Settings(record=self.path, download_to=folder, boot="boot0")
        self.pepper = pepper_for(self.path)
        self.levels = {0: False, 1: True, 2: False}  # isolator make and break, starter
        self.boots, self.lost = 0, ""
        self.ended: list[DownloadEnded] = []
        self.start()
        self._known_pin()

    # --- beginning and end -----------------------------------------------------------------------

    def start(self) -> None:
        """As a kiosk starts, but for the loop's own thread and the reader."""
        found = shipped()
        assert found.content is not None and found.machine is not None
        self.record = Record.open(self.path, now=self.clock.now())
        groups, _ = read_roster(ROSTER)
        told = composing._take_in(self.record, ROSTER, groups, False)
        people = composing._people(self.record)
        shop = Shop(found.content, found.machine, people, "soak", not self.record.unknown)
        shop = composing._with_wishes(shop, self.record)
        self.runners = Quick(
            self.record,
            self.pepper,
            self.post,
            Sticks(self.settings, self.path, self.post),
            self._names_changed,
            MACHINE,
            lambda: self.clock.now().day,
        )
        state, faults = self.record.restore(), (RecordFault,)
        self.loop = Loop(shop, found.words, self.record, self.clock, self.runners, state, faults)
        self.issued = composing._begin(self.loop, self.record, self.pepper, self.clock, told)
        self.wait(SETTLED_S)

    def _names_changed(self) -> None:
        composing._read_people(self.loop, composing._people(self.record), self.record)

    def _known_pin(self) -> None:
        """The first technician's PIN becomes one that is known here."""
        (adult,) = self.record.adults()
        hashed = hash_pin(PIN, self.pepper)
        self.record.keep_adult(Adult(adult.ref, adult.name, adult.role), hashed)

    def end(self, orderly: bool = True) -> None:
        """In order as by a stop of the system, or with nothing said, as by a cut."""
        if orderly:
            self.loop.post(KioskEnding())
            self.loop.turn(self.clock.now())
        self.runners.stop()
        self.record.close()

    def restart(self, orderly: bool, off_s: float) -> None:
        """End, stay off so long, start under a new boot."""
        self.end(orderly)
        self.boots += 1
        wall = self.clock.moment.wall_us + round(off_s * SECOND_US)
        self.clock.moment = Moment(f"boot{self.boots}", SECOND_US, wall, 2)
        self.levels[2] = False
        self.start()

    # --- from outside ----------------------------------------------------------------------------

    def post(self, given: Input | Command) -> None:
        """What errands post; it is taken at the next turn."""
        if isinstance(given, DownloadEnded):
            self.ended.append(given)
        self.loop.post(given)

    def turn(self) -> None:
        """One turn of the loop."""
        self.loop.turn(self.clock.now())

    def wait(self, seconds: float) -> None:
        """Let time pass, with a poll of the contacts each 0.4 s, and turn."""
        for _ in range(round(seconds * SECOND_US / POLL_US)):
            self.clock.pass_us(POLL_US)
            levels = () if self.lost else tuple(self.levels.items())
            self.loop.post(Sample(self.clock.us(), levels, self.lost))
        self.turn()

    def isolator(self, on: bool) -> None:
        """Turn the handle; the reading settles."""
        self.levels[0], self.levels[1] = on, not on
        self.wait(SETTLED_S)

    def starter(self, on: bool) -> None:
        """Start or stop the drill; the reading settles."""
        self.levels[2] = on
        self.wait(SETTLED_S)

    @property
    def is_on(self) -> bool:
        """Whether the isolator is turned on."""
        return self.levels[0]

    def lose(self, why: str, seconds: float = 5.0) -> None:
        """The contacts' box says nothing good for a while."""
        self.lost = why
        self.wait(seconds)
        self.lost = ""
        self.wait(SETTLED_S)

    def answer(self) -> None:
        """Wait for work that is done elsewhere, and take it in."""
        self.loop.inbox.wait(PATIENCE_S)
        self.turn()

    @contextmanager
    def failing_card(self) -> Iterator[None]:
        """The kernel lets no file of this process grow, so that writing fails as on a bad card."""
        soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (64, hard))
        try:
            yield
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
