"""Tells systemd that the screen stands and that its loop goes round; silent where nobody asks."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping

from sdnotify import SystemdNotifier

SHARE = 4  # told four times as often as asked: one late beat is no restart


class Watchdog:
    """Fed by the screen's own loop and by nothing else, so that only its standing still counts.

    A slow card or a missing reader is shown on the screen; it does not stop these beats.
    """

    def __init__(
        self, tell: Callable[[str], None], now: Callable[[], float], asked: Mapping[str, str]
    ) -> None:
        self._tell, self._now = tell, now
        self._every_s = int(asked.get("WATCHDOG_USEC") or 0) / 1e6 / SHARE
        self._last = now()
        self._stands = False

    @classmethod
    def of_this_process(cls, now: Callable[[], float]) -> Watchdog:
        """The one that systemd asked for in the environment, if it did."""
        return cls(SystemdNotifier().notify, now, os.environ)

    def ready(self) -> None:
        """The first screen stands."""
        self._stands = True
        self._tell("READY=1")

    def beat(self) -> None:
        """The screen's loop went round once more; it counts once the screen has stood."""
        if self._stands and self._every_s and self._now() - self._last >= self._every_s:
            self._last = self._now()
            self._tell("WATCHDOG=1")
