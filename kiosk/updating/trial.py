"""A version on trial: confirmed once its screen has stood, ended where it shows only a fault.

Until then a crash, a screen that stands still or a start that takes too long ends it like any
version; the system starts it once more, and `starting` goes back to the former one after that.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from kiosk.updating.starting import running
from kiosk.updating.versions import Versions

STANDS_S = 60.0


class DidNotStart(Exception):
    """A version on trial came up with nothing but a fault to show."""


class Trial:
    """This process's own version; most often there is nothing to try, and all calls do nothing."""

    def __init__(self, versions: Versions | None, name: str, now: Callable[[], float]) -> None:
        self._versions, self._name, self._now = versions, name, now
        chosen = versions.chosen() if versions else None
        self._waits = chosen is not None and chosen.trial and chosen.version == name
        self._ready_s: float | None = None

    @classmethod
    def of_this_process(cls, now: Callable[[], float]) -> Trial:
        """The trial of the version that `starting` has started, if it is on one."""
        found = running(Path(sys.prefix))
        return cls(*found, now) if found else cls(None, "", now)

    def see(self, fault: str) -> None:
        """Raises DidNotStart where a version on trial has only a fault to show."""
        if self._waits and fault:
            raise DidNotStart(f"version {self._name}: {fault}")

    def ready(self) -> None:
        """The first screen stands."""
        self._ready_s = self._now()

    def beat(self) -> None:
        """The screen's loop went round once more; after a minute of it the trial is over."""
        if self._waits and self._ready_s is not None and self._now() - self._ready_s >= STANDS_S:
            self._waits = False
            with suppress(OSError):  # a card that takes nothing: the former version stays the next
                assert self._versions is not None
                self._versions.confirm(self._name)
