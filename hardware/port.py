"""A serial port that fails in plain words. The only file that touches pyserial.

A pulled adapter shows itself as any of five kinds of exception, depending on the call that met
it; here each becomes `Lost`. The thread that opened a port is the one that closes it.
"""

from __future__ import annotations

import contextlib
import errno
import termios
from collections.abc import Callable
from typing import TypeVar

import serial

from hardware.lost import Lost

Result = TypeVar("Result")

FAULTS = (OSError, serial.SerialException, termios.error, TypeError, ValueError)

PARITIES = {
    "none": serial.PARITY_NONE,
    "even": serial.PARITY_EVEN,
    "odd": serial.PARITY_ODD,
}
READ_S = 0.1
WRITE_S = 0.2

_WORDS = {
    errno.EACCES: "no_permission",
    errno.EPERM: "no_permission",
    errno.EBUSY: "in_use",
    errno.EWOULDBLOCK: "in_use",
}


class Port:
    """One open port: bytes in and out, and the four handshake lines."""

    def __init__(self, line: serial.SerialBase) -> None:
        self._line = line

    def write(self, data: bytes) -> None:
        """Send `data` within 0.2 s, or raise `Lost`."""
        self._do(lambda: self._line.write(data))

    def read(self, count: int) -> bytes:
        """Up to `count` bytes, as many as came within 0.1 s, or raise `Lost`.

        A busy system can say that bytes are there and then give none (select(2), BUGS). A pulled
        adapter says so again at once, so it is asked twice before it counts as lost.
        """
        with contextlib.suppress(*FAULTS):
            return bytes(self._line.read(count))
        return bytes(self._do(lambda: self._line.read(count)))

    def discard(self) -> None:
        """Throw away what came in unasked."""
        self._do(lambda: self._line.reset_input_buffer())

    def feed(self, rts: bool, dtr: bool) -> None:
        """Set the two lines that feed the contacts; `Lost("no_lines")` if there are none."""
        self._do(lambda: self._set(rts, dtr), lines=True)

    def sense(self) -> tuple[bool, bool]:
        """The levels of CTS and DSR; `Lost("no_lines")` if the port has none."""
        return self._do(lambda: (bool(self._line.cts), bool(self._line.dsr)), lines=True)

    def close(self) -> None:
        """Let the port go; never fails."""
        with contextlib.suppress(*FAULTS):
            self._line.close()

    def _set(self, rts: bool, dtr: bool) -> None:
        self._line.rts = rts
        self._line.dtr = dtr

    def _do(self, act: Callable[[], Result], lines: bool = False) -> Result:
        try:
            return act()
        except FAULTS as fault:
            raise Lost(_word_within(fault, lines)) from fault


def open_port(path: str, baud: int = 9600, parity: str = "none") -> Port:
    """Open the port at `path` (or a pyserial URL) for this process alone: 8 data bits, 1 stop bit.

    Raises `Lost` with `no_permission`, `in_use` or `no_port` (absent, or no serial port at all).
    """
    try:
        line = serial.serial_for_url(
            path,
            baudrate=baud,
            parity=PARITIES[parity],
            timeout=READ_S,
            write_timeout=WRITE_S,
            exclusive=True,
        )
    except FAULTS as fault:
        raise Lost(_WORDS.get(getattr(fault, "errno", None) or 0, "no_port")) from fault
    return Port(line)


def _word_within(fault: Exception, lines: bool) -> str:
    """A port without handshake lines says ENOTTY; everything else means it is gone."""
    gone = getattr(fault, "errno", None) not in (errno.ENOTTY, errno.EINVAL)
    return "unplugged" if gone or not lines else "no_lines"
