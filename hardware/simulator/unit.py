"""A Modbus RTU contact unit on a pseudo-terminal: real frames, a port to open, faults to order.

`port` is a link at a stable path, like those a system keeps for USB adapters: it is gone while
the unit is unplugged and leads to another terminal afterwards.
"""

from __future__ import annotations

import contextlib
import os
import select
import shutil
import tempfile
import tty
from collections.abc import Callable, Mapping
from pathlib import Path
from random import Random
from threading import Event, Lock, Thread

from hardware import modbus
from hardware.simulator.answers import ANSWER_FAULTS, answer, spoil
from hardware.simulator.wires import Wires

QUESTION = 8  # bytes of every question this unit knows
QUIET_S = 0.05  # after this much silence a piece of a question is forgotten
LATE_S = 0.4


class SimulatedUnit:
    """Answers for the contacts behind `levels`; plug it in, order faults, pull it out.

    Usable as a context manager. Its acts may come from any thread.
    """

    def __init__(
        self,
        levels: Callable[[], Mapping[int, bool]],
        number: int = 1,
        inputs: int = 8,
        functions: tuple[int, ...] = (modbus.INPUTS,),
    ) -> None:
        self.wires = Wires(levels)
        self._number, self._inputs, self._functions = number, inputs, functions
        self._folder = Path(tempfile.mkdtemp(prefix="contact-unit-"))
        self._lock = Lock()
        self._plugged: _Plugged | None = None
        self._fault, self._noise = "", Random(1)
        self.questions = 0

    @property
    def port(self) -> str:
        """The stable path of the unit's port."""
        return str(self._folder / "port")

    @property
    def is_plugged(self) -> bool:
        """Whether the port is there."""
        return self._plugged is not None

    def order(self, fault: str = "") -> None:
        """Answer with one of `ANSWER_FAULTS` from now on; empty for right answers."""
        if fault and fault not in ANSWER_FAULTS:
            raise ValueError(f"fault {fault!r} is not one of: {', '.join(ANSWER_FAULTS)}")
        self._fault = fault

    def plug(self) -> None:
        """Plug the unit in; a second call does nothing."""
        with self._lock:
            if self._plugged is None:
                self._plug_in()

    def move(self) -> None:
        """Pull it out and plug it in elsewhere: the same path now leads to another terminal."""
        with self._lock:
            before = self._plugged
            self._plug_in()  # while the old terminal still holds its number
        if before is not None:
            before.pull(b"")

    def unplug(self, junk: bytes = b"") -> None:
        """Pull the unit out, perhaps with some `junk` on the line; a second call does nothing."""
        with self._lock:
            plugged, self._plugged = self._plugged, None
            if plugged is not None:
                Path(self.port).unlink(missing_ok=True)
                plugged.pull(junk)

    def _plug_in(self) -> None:
        self._plugged = _Plugged(self._answer)
        new = self._folder / "new"
        new.symlink_to(self._plugged.terminal)
        new.replace(self.port)

    def close(self) -> None:
        """Pull it out and leave nothing behind."""
        self.unplug()
        shutil.rmtree(self._folder, ignore_errors=True)

    def __enter__(self) -> SimulatedUnit:
        self.plug()
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _answer(self, question: bytes, ended: Event) -> bytes:
        """What to send back for one whole question (empty if it is for another unit)."""
        if question[0] != self._number:
            return b""
        self.questions += 1
        fault = self._fault
        if fault == "late":
            ended.wait(LATE_S)
        right = answer(question, self.wires.look(), self._inputs, self._functions)
        return spoil(question, right, fault, self._noise)


class _Plugged:
    """One time of being plugged in: a pseudo-terminal and the thread that answers on it."""

    def __init__(self, answer_to: Callable[[bytes, Event], bytes]) -> None:
        self._answer_to = answer_to
        self._far, self._near = os.openpty()
        tty.setraw(self._near)
        os.set_blocking(self._far, False)
        self.terminal = os.ttyname(self._near)
        self._woken, self._wake = os.pipe()
        self._ended = Event()
        self._thread = Thread(target=self._run, name="contact unit", daemon=True)
        self._thread.start()

    def pull(self, junk: bytes) -> None:
        """Hang up: whoever has the port open is told by the system."""
        self._ended.set()
        os.write(self._wake, b"x")
        self._thread.join()
        self._send(junk)
        for end in (self._far, self._near, self._woken, self._wake):
            os.close(end)

    def _run(self) -> None:
        heard = b""
        while not self._ended.is_set():
            ready, _, _ = select.select([self._far, self._woken], [], [], QUIET_S)
            heard = self._serve(heard + self._hear()) if self._far in ready else b""

    def _hear(self) -> bytes:
        try:
            return os.read(self._far, 256)
        except OSError:
            return b""

    def _serve(self, heard: bytes) -> bytes:
        """Answer each whole question in `heard`; what is left may be the start of another."""
        while len(heard) >= QUESTION:
            if modbus.is_whole(heard[:QUESTION]):
                self._send(self._answer_to(heard[:QUESTION], self._ended))
                heard = heard[QUESTION:]
            else:
                heard = heard[1:]
        return heard

    def _send(self, data: bytes) -> None:
        with contextlib.suppress(OSError):
            if data:
                os.write(self._far, data)
