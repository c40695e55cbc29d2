"""The one place that reads clocks: time since boot for everything, the wall clock for people."""

from __future__ import annotations

import ctypes
import time
from pathlib import Path

from kiosk.core.units import Moment

STEP_US = 500_000  # a wall clock moved by more than this against time since boot is a step
_ERROR_STATE = 5  # adjtimex(2): TIME_ERROR, the clock is not synchronised
_EPOCH_2024_US = 1_704_067_200_000_000


class Clock:
    """Tells the moment, and whether the wall clock was stepped since it was last asked.

    `boot` names the boot; by default the kernel's own random boot id.
    """

    def __init__(self, boot: str = "") -> None:
        self.boot = boot or _kernel_boot_id()
        self._offset: int | None = None

    def us(self) -> int:
        """Microseconds since boot; never steps back."""
        return time.clock_gettime_ns(time.CLOCK_BOOTTIME) // 1000

    def now(self) -> Moment:
        """The moment, with the wall clock and how far it can be trusted."""
        us, wall = self.us(), time.time_ns() // 1000
        return Moment(self.boot, us, wall, quality(wall))

    def step(self, now: Moment) -> int:
        """By how many microseconds the wall clock was stepped since last asked; 0 if it was not."""
        offset = now.wall_us - now.us
        before, self._offset = self._offset, offset
        moved = offset - before if before is not None else 0
        return moved if abs(moved) > STEP_US else 0


def quality(wall_us: int) -> int:
    """0 if the wall clock was never set, 1 if it runs on from before, 2 if synchronised."""
    if wall_us < _EPOCH_2024_US:
        return 0
    return 2 if _is_synchronised() else 1


def _is_synchronised() -> bool:
    buffer = ctypes.create_string_buffer(512)  # struct timex, all zero: only asks
    try:
        state: int = ctypes.CDLL(None).adjtimex(buffer)
    except (OSError, AttributeError):
        return False
    return 0 <= state < _ERROR_STATE


def _kernel_boot_id() -> str:
    try:
        return Path("/proc/sys/kernel/random/boot_id").read_text().strip().replace("-", "")[:16]
    except OSError:
        return f"start{time.time_ns()}"
