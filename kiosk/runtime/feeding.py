"""The live feed: a child process that sends the record away, where the settings name an address."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from kiosk.runtime.settings import Settings

ADDRESS = "PILLARSIDE_FEED"
ENDS_S = 2.0


class Feeding:
    """The child, or nothing if no feed is wanted. Nobody waits for it and nothing hangs on it."""

    def __init__(self, settings: Settings, record: Path) -> None:
        self._child: subprocess.Popen[bytes] | None = None
        if settings.feed:
            words = [sys.executable, "-m", "kiosk.cli.feed", "--record", str(record)]
            words += ["--names"] if settings.feed_names else []
            words += ["--notes"] if settings.feed_notes else []
            told = os.environ | {ADDRESS: settings.feed}
            self._child = subprocess.Popen(words, stdin=subprocess.PIPE, env=told)

    def stop(self) -> None:
        """End it; what was not sent yet goes after the next start."""
        child, self._child = self._child, None
        if child is None:
            return
        child.terminate()
        try:
            child.communicate(timeout=ENDS_S)
        except subprocess.TimeoutExpired:
            child.kill()
            child.communicate()
