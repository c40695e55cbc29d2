"""The kiosk's state and what may happen next: `decide` makes events, `advance` takes them in."""

from __future__ import annotations

from kiosk.core.kiosk.root import EMPTY, Kiosk, advance, replay

__all__ = ["EMPTY", "Kiosk", "advance", "replay"]
