"""A log of what was shown, for holding it against the record: one JSON line a view drawn."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kiosk.clock import Clock

if TYPE_CHECKING:
    from kiosk.core.view import View


class ShownLog:
    """Appends a line for each view as it is drawn. A view's `seq` is the last entry kept then."""

    def __init__(self, path: Path) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        self._clock = Clock()
        self._file = path.open("a", encoding="utf-8", buffering=1)

    def us(self) -> int:
        """Microseconds since boot."""
        return self._clock.us()

    def add(self, us: int, view: View, spots: list[dict[str, Any]], problems: list[str]) -> None:
        """A view that was drawn, and when; where its targets lie, and what the checker says."""
        line = {
            "us": us,
            "number": view.number,
            "seq": view.seq,
            "screen": view.screen,
            "title": view.title,
            "lines": view.lines,
            "who": view.head.who,
            "isolator": view.head.isolator_word,
            "band": view.band.text if view.band else "",
            "note": view.note,
            "unsaved": view.unsaved,
            "spots": spots,
            "problems": problems if not view.secret else [f"{len(problems)}"] * bool(problems),
        }
        self._file.write(json.dumps(line, ensure_ascii=False) + "\n")
