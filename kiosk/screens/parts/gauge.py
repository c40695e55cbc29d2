"""A bar that fills."""

from __future__ import annotations

from kivy.uix.widget import Widget

from kiosk.screens.parts.plates import PlatePaint


class Gauge(Widget):
    """How much of a whole is done."""

    def __init__(self) -> None:
        super().__init__()
        self._whole, self._done = PlatePaint(), PlatePaint()
        self.canvas.add(self._whole)
        self.canvas.add(self._done)

    def show(self, done: int, whole: int) -> None:
        """Fill it to `done` of `whole`."""
        part = min(1.0, max(0.0, done / whole)) if whole > 0 else 0.0
        radius = self.height / 2
        self._whole.show("paper", "edge")
        self._whole.place(self.pos, self.size, radius, 2)
        fill = "action" if part else "none"
        self._done.show(fill, fill)
        self._done.place(self.pos, (max(self.height, self.width * part), self.height), radius, 0)
