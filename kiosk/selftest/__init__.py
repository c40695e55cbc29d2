"""Looks at the computer a kiosk runs on: what is there, what it says, and what to do about it.

Each look is a function that reads small files of the system below a root and gives a `Finding`.
It tells of the computer alone and never of the drill.
"""

from __future__ import annotations

from kiosk.selftest.card import disk_space, last_download, record_place, storage
from kiosk.selftest.finding import Finding, State
from kiosk.selftest.parts import clock, display, font, ports, speech, touch, watchdog

__all__ = [
    "Finding",
    "State",
    "clock",
    "disk_space",
    "display",
    "font",
    "last_download",
    "ports",
    "record_place",
    "speech",
    "storage",
    "touch",
    "watchdog",
]
