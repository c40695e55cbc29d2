"""A callback at a steady interval that an error can't end."""

from __future__ import annotations

import logging
from collections.abc import Callable

from kivy.clock import Clock

LOG = logging.getLogger(__name__)


class Every:
    """Calls `what` every `seconds`, and `failed` after an error in it.

    Kivy drops an interval whose callback has raised.
    """

    def __init__(
        self,
        what: Callable[[], None],
        seconds: float,
        failed: Callable[[], None] = lambda: None,
    ) -> None:
        self._what, self._failed = what, failed
        self._event = Clock.schedule_interval(self._tick, seconds)
        self._event.cancel()

    def start(self) -> None:
        """Begin, unless it runs already."""
        if not self._event.is_triggered:
            self._event()

    def stop(self) -> None:
        """End, until started again."""
        self._event.cancel()

    def _tick(self, _dt: float) -> None:
        try:
            self._what()
        except Exception:
            LOG.exception("a repeated action of the screens failed")
            self._failed()
