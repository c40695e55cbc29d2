"""A log of what was shown, for holding it against the record: one JSON line a view drawn."""

from __future__ import annotations

import json
import time
from pathlib import Path

from kiosk.core.view import View


class ShownLog:
    """Appends a line for each view as it is drawn. A view's `seq` is the last entry kept then."""

    def __init__(self, path: Path) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        self._file = path.open("a", encoding="utf-8", buffering=1)

    def __call__(self, view: View) -> None:
        line = {
            "us": time.clock_gettime_ns(time.CLOCK_BOOTTIME) // 1000,
            "number": view.number,
            "seq": view.seq,
            "screen": view.screen,
            "title": view.title,
            "who": view.head.who,
            "isolator": view.head.isolator_word,
            "unsaved": view.unsaved,
        }
        self._file.write(json.dumps(line, ensure_ascii=False) + "\n")
