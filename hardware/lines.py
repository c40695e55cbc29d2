"""Two contacts on a port's handshake lines, with the wires watched.

RTS feeds the make contact, which leads to CTS; DTR feeds the break contact, which leads to DSR.
Each contact is fed in turn while the other is not: a line that is high though nothing feeds it
is a wiring fault, and the look counts for nothing.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Protocol

from hardware.lost import Lost

MAKE, BREAK = 0, 1
SETTLE_S = 0.02  # an adapter reports its lines a few milliseconds late; common practice


class HandshakeLines(Protocol):
    """What a look asks of a port."""

    def feed(self, rts: bool, dtr: bool) -> None: ...
    def sense(self) -> tuple[bool, bool]: ...


def look(
    lines: HandshakeLines, wait: Callable[[float], object] = time.sleep
) -> tuple[tuple[int, bool], ...]:
    """The levels of the make contact (number 0) and the break contact (number 1).

    Raises `Lost`: `bad_answer` where a line is high unfed (a short to a supply or across the two
    contacts), `no_lines` or what the port says.
    """
    make, across = _sense(lines, True, False, wait)
    back, on_break = _sense(lines, False, True, wait)
    lines.feed(False, False)
    if across or back:
        raise Lost("bad_answer")
    return (MAKE, make), (BREAK, on_break)


def _sense(
    lines: HandshakeLines, rts: bool, dtr: bool, wait: Callable[[float], object]
) -> tuple[bool, bool]:
    lines.feed(rts, dtr)
    wait(SETTLE_S)
    return lines.sense()
