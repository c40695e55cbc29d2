"""The kiosk's state and what may happen next: `decide` makes events, `advance` takes them in."""

from __future__ import annotations

from kiosk.core.kiosk.deadlines import Deadline, next_deadline
from kiosk.core.kiosk.decide import decide, from_outside
from kiosk.core.kiosk.root import EMPTY, Kiosk, advance, replay
from kiosk.core.kiosk.shop import Decided, Looked, Shop

__all__ = [
    "EMPTY",
    "Deadline",
    "Decided",
    "Kiosk",
    "Looked",
    "Shop",
    "advance",
    "decide",
    "from_outside",
    "next_deadline",
    "replay",
]
