"""What ends the screens: a technician's wish to start anew, or a thread that nothing works without.

A thread that ends by an error is told in the log of faults beside the record. If it was one that
the kiosk can't do without, the screens say plainly that they are at fault, and the process ends,
to be started afresh; the start after it asks first whether the drill is turning.
"""

from __future__ import annotations

import logging
import signal
import threading
from collections.abc import Callable
from dataclasses import dataclass, field

LOG = logging.getLogger(__name__)
NEEDED = ("loop", "pins")
"""The threads by name: whoever decides, and whoever checks PINs."""


class NotWorking(Exception):
    """A thread that the kiosk can't do without has ended by an error."""


@dataclass
class Ending:
    """Asked at each turn of the screens' own loop.

    `anew` says whether a technician has asked for the kiosk to start anew.
    """

    anew: Callable[[], bool] = lambda: False
    ended: list[str] = field(default_factory=list)

    def watch(self) -> None:
        """Be told of threads that end by an error, from now on."""
        threading.excepthook = self._ended

    def _ended(self, told: threading.ExceptHookArgs) -> None:
        name = told.thread.name if told.thread else "?"
        value = told.exc_value or told.exc_type()
        LOG.error("the thread %s ended by an error", name, exc_info=value)
        if name in NEEDED:
            self.ended.append(name)

    def look(self) -> None:
        """End the screens in order if that was asked for; raises NotWorking after an error."""
        if self.ended:
            raise NotWorking(f"the thread {self.ended[0]} has ended")
        if self.anew():
            signal.raise_signal(signal.SIGTERM)
