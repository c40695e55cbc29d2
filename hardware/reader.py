"""The contact readers: one thread owns the port, asks, and posts samples.

It never decides anything: `kiosk.core.contacts` does, on the loop's thread.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from threading import Event, Thread
from typing import TYPE_CHECKING, Protocol

from hardware import lines, modbus
from hardware.lost import Lost
from kiosk.core.contacts import Sample
from kiosk.core.model import ContactTimes, Wiring

if TYPE_CHECKING:
    from hardware.port import Port

SLOW_S, FAST_S = 0.2, 0.05  # 5 Hz, and 20 Hz from the first differing sample until settled
FIRST_WAIT_S, LAST_WAIT_S = 0.05, 5.0
STOP_S = 0.5
SILENCES = 10  # unanswered polls after which the port is opened anew
POLL_LOSSES = ("silent", "bad_answer", "refused")

Levels = tuple[tuple[int, bool], ...]


class Reader(Protocol):
    """What the runtime holds: posting samples between `start` and `stop`."""

    def start(self) -> None: ...
    def stop(self) -> None: ...


class NoReader:
    """The reader of a machine without contacts: posts nothing."""

    def start(self) -> None:
        """Nothing to start."""

    def stop(self) -> None:
        """Nothing to stop."""


def reader_for(
    wiring: Wiring, port: str, post: Callable[[Sample], None], now_us: Callable[[], int]
) -> Reader:
    """The reader that `wiring` names, over the port at the stable path `port`.

    `post` is called on the reader's own thread; `now_us` gives microseconds since boot.
    """
    match wiring.reader:
        case "none":
            return NoReader()
        case "modbus":
            return PortReader(port, wiring, _modbus_look(wiring), post, now_us)
        case "lines":
            return PortReader(port, wiring, lines.look, post, now_us)
    raise ValueError(f"reader {wiring.reader!r} is not one of: modbus, lines, none")


def _modbus_look(wiring: Wiring) -> Callable[[Port], Levels]:
    """Asks for all contacts in one question, from the lowest number in use to the highest."""
    numbers = _numbers(wiring) or (0,)
    size = modbus.PER_REGISTER if wiring.function == modbus.REGISTERS else 1
    first = numbers[0] // size
    count = numbers[-1] // size - first + 1

    def look(port: Port) -> Levels:
        data = modbus.poll(port, wiring.unit, first, count, wiring.function)
        levels = modbus.levels_of(data, wiring.function, count)
        return tuple(enumerate(levels, start=first * size))

    return look


def _numbers(wiring: Wiring) -> tuple[int, ...]:
    """The discrete inputs in use, lowest first."""
    wired = [n for _, pair in wiring.inputs for n in (pair.make, pair.on_break)]
    return tuple(sorted({n for n in wired if n is not None}))


class Pace:
    """When to look next: quick from the first differing sample until the levels have settled."""

    def __init__(self, times: ContactTimes) -> None:
        self._samples = max(times.samples, int(times.debounce.s / FAST_S) + 1)
        self._last: Levels | None = None
        self._equal = 0

    def after(self, levels: Levels | None) -> float:
        """Seconds to the next look, now that `levels` came (None: the look failed)."""
        self._equal = self._equal + 1 if levels is not None and levels == self._last else 0
        self._last = levels
        unsettled = levels is not None and self._equal < self._samples
        return FAST_S if unsettled else SLOW_S


class PortReader:
    """Looks at the contacts through a port that may go and come back at any time."""

    def __init__(
        self,
        path: str,
        wiring: Wiring,
        look: Callable[[Port], Levels],
        post: Callable[[Sample], None],
        now_us: Callable[[], int],
    ) -> None:
        self._path, self._wiring, self._look = path, wiring, look
        self._post, self._now_us = post, now_us
        self._ended = Event()
        self._thread: Thread | None = None
        self._told = ""
        self._wait_s = FIRST_WAIT_S

    def start(self) -> None:
        """Begin posting; a second call does nothing."""
        if self._thread is not None:
            if not self._ended.is_set():
                return
            self._thread.join()
        self._ended.clear()
        self._thread = Thread(target=self._run, name="contacts", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Post nothing any more and let the port go within 0.5 s; a second call does nothing."""
        self._ended.set()
        if self._thread is not None:
            self._thread.join(STOP_S)

    @property
    def is_alive(self) -> bool:
        """Whether the reader's thread runs."""
        return self._thread is not None and self._thread.is_alive()

    def _run(self) -> None:
        while not self._ended.is_set():
            self._once_open()
            self._ended.wait(self._wait_s)
            self._wait_s = min(2 * self._wait_s, LAST_WAIT_S)

    def _once_open(self) -> None:
        """Open the port and look until it is lost; returns when it has to be opened anew."""
        from hardware.port import open_port  # pyserial comes in only once there is a port to open

        try:
            port = open_port(self._path, self._wiring.baud, self._wiring.parity)
        except Lost as lost:
            self._tell(lost.word)
            return
        try:
            self._look_until_lost(port)
        except Lost as lost:
            self._tell(lost.word)
        finally:
            port.close()

    def _look_until_lost(self, port: Port) -> None:
        pace, silences, due = Pace(self._wiring.times), 0, time.monotonic()
        while not self._ended.is_set() and silences < SILENCES:
            levels, silent = self._look_once(port)
            silences = silences + 1 if silent else 0
            due = max(due + pace.after(levels), time.monotonic())
            self._ended.wait(due - time.monotonic())

    def _look_once(self, port: Port) -> tuple[Levels | None, bool]:
        """One look, posted: its levels if there were any, and whether the unit was silent."""
        try:
            levels = self._look(port)
        except Lost as lost:
            if lost.word not in POLL_LOSSES:
                raise
            self._wait_s = FIRST_WAIT_S
            self._post(Sample(self._now_us(), lost=lost.word))
            return None, lost.word == "silent"
        self._told, self._wait_s = "", FIRST_WAIT_S
        self._post(Sample(self._now_us(), levels))
        return levels, False

    def _tell(self, word: str) -> None:
        """Post the loss of the port once, not once a try."""
        news = word != self._told and not (self._told == "unplugged" and word == "no_port")
        if news and not self._ended.is_set():
            self._told = word
            self._post(Sample(self._now_us(), lost=word))
