"""A kiosk with no window, whose screen is touched at random, until it is killed.

`python -m tests.end_to_end.headless FOLDER SECONDS SEED` plays until a fault of the card was told
and overcome, so long at most, and writes into FOLDER/told one line of JSON for each screen: the
event it stands on, what it shows, and the head of the record.
"""

from __future__ import annotations

import json
import os
import random
import sys
import time
from collections.abc import Callable
from pathlib import Path

from kiosk.clock import Clock
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    EndSpell,
    GoBack,
    Leave,
    LeavePage,
    NameTrouble,
    PickAdult,
    PickJob,
    PickNotRight,
    PickPupil,
    ReadingIs,
    SeenRight,
    SomethingWrong,
    Still,
    StopEveryone,
    Touch,
    Touched,
    TypePin,
)
from kiosk.core.model import Adult, Reading
from kiosk.core.view import Button, View
from kiosk.people import hash_pin, pepper_for
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import Running, start
from kiosk.store import Record

PIN = "482915"
ENOUGH = 5  # events kept after a fault that show work goes on
RECORD, TOLD = "record.sqlite", "told"
LIKELY = {SeenRight: 40, Still: 40, PickPupil: 20, PickJob: 20, PickAdult: 20, AskAdult: 10}
UNLIKELY = {
    **dict.fromkeys((Leave, GoBack, EndSpell, PickNotRight), 0.3),
    **dict.fromkeys((SomethingWrong, NameTrouble, StopEveryone), 0.1),
    LeavePage: 1.0,
    Choose: 10.0,
}
BARRED = ("people", "quiet", "tighten")
"""The PIN stays the one that is known here, and no lesson is shut for long."""
LEADING_ON = ("open", "jobs_done", "pre_use_right", "again", "look", "resume", "return")


class Monkey:
    """Touches what is shown, most often what leads on; the drill's contacts change by chance."""

    def __init__(self, running: Running, chance: random.Random, told: int) -> None:
        assert running.loop is not None
        self.running, self.loop = running, running.loop
        self.chance, self._told = chance, told
        self._last = ""
        self._at_fault: int | None = None
        self.has_recovered = False
        """Whether a fault of the card was shown, and then a screen with more events kept."""

    def play(self, until: Callable[[], bool]) -> None:
        """Touch, and tell of every screen, until it is enough."""
        while not until():
            view = self.running.latest()
            self.tell(view)
            if self.chance.random() < (0.1 if view.screen == "drilling" else 0.01):
                self._turn_something(view.screen)
            touch = self._next_touch(view)
            if touch is None:
                time.sleep(0.005)
            else:
                self.running.post(Touched(view.number, touch))

    def tell(self, view: View) -> None:
        """One line, where the screen is another one: it was shown, so it may not be lost."""
        seq, digest = self.loop._keeper.head
        if tells_of_a_fault(view):
            self._at_fault = seq
        elif self._at_fault is not None and seq >= self._at_fault + ENOUGH:
            self.has_recovered = True
        line = json.dumps([view.seq, view.screen, view.title, view.unsaved, digest, seq])
        if line != self._last:
            os.write(self._told, line.encode() + b"\n")
            self._last = line

    def _turn_something(self, screen: str) -> None:
        """The isolator or the starter, on for drilling and otherwise mostly off."""
        name = self.chance.choice(("isolator", "starter"))
        is_on = self.chance.random() < (0.7 if screen == "drilling" else 0.1)
        self.loop.post(ReadingIs(name, Reading.ON if is_on else Reading.OFF, "settled"))

    def _next_touch(self, view: View) -> Touch | None:
        if view.pad is not None:
            return None if view.pad.busy else TypePin(view.pad.adult, PIN)
        called = tuple(b for b in (view.head.wrong, view.head.stop) if b)
        live = [b for b in (*view.buttons, *view.choices, *called) if b.live]
        return self.chance.choices(live, map(_weight, live))[0].touch if live else None


def tells_of_a_fault(view: View) -> bool:
    """Whether the screen says why the record can't be written."""
    return view.screen == "record_fault" or view.unsaved.startswith("The card")


def _weight(button: Button) -> float:
    kind = type(button.touch)
    if isinstance(button.touch, Act):
        if button.touch.what in BARRED:
            return 1e-9
        return 30.0 if button.touch.what in LEADING_ON else 0.2
    return LIKELY.get(kind, UNLIKELY.get(kind, 3.0))


def settings(folder: Path, boot: str) -> Settings:
    """A kiosk with the invented roster on the record in this folder."""
    return Settings(record=folder / RECORD, roster=TREE / "demo/roster/roster.csv", boot=boot)


def first_start(folder: Path) -> None:
    """Make the record, and give the first technician a PIN that is known here."""
    start(settings(folder, "boot0")).stop()
    record = Record.open(folder / RECORD)
    (adult,) = record.adults()
    hashed = hash_pin(PIN, pepper_for(folder / RECORD))
    record.keep_adult(Adult(adult.ref, adult.name, adult.role), hashed)
    record.close()


def run(folder: Path, seed: int, until: Callable[[Monkey], bool]) -> None:
    """Start, play and, if nobody kills it before, stop in order."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_APPEND
    told = os.open(folder / TOLD, flags, 0o600)
    running = start(settings(folder, f"boot{seed}"))
    monkey = Monkey(running, random.Random(seed), told)
    monkey.play(lambda: until(monkey))
    running.stop()
    os.close(told)


if __name__ == "__main__":
    _, at, seconds, number = sys.argv
    begun = Clock().us()
    late = begun + round(float(seconds) * 1e6)
    run(Path(at), int(number), lambda m: m.has_recovered or Clock().us() > late)
