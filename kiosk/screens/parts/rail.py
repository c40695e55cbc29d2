"""The drill's own column at the left: its table rises with progress."""

from __future__ import annotations

from kivy.graphics import InstructionGroup
from kivy.uix.widget import Widget

from kiosk.screens.parts import paint
from kiosk.screens.parts.plates import PlatePaint


class Column(Widget):
    """Head, column, table and foot of a drill. `table` is the height of the table's top."""

    def __init__(self) -> None:
        super().__init__()
        names = ("column", "foot", "risen", "table", "head")
        self._plates = {name: PlatePaint() for name in names}
        for plate in self._plates.values():
            self.canvas.add(plate)
        self._bit = InstructionGroup()
        self.canvas.add(self._bit)
        self.table = 0.0
        self._bit_at = (0.0, 0.0, 0.0)

    def show(self, at: int, of: int, low: float) -> None:
        """Raise the table to step `at` of `of`; at the first it stands `low` pixels high."""
        w, h = self.size
        high = h - w * 1.15
        part = min(1.0, max(0, at - 1) / max(1, of - 1))
        self.table = self.y + low + max(0.0, high - low) * part
        self._put("column", 0.17, h * 0.03, 0.2, h * 0.9, "line")
        self._put("foot", 0.0, 0, 1.0, h * 0.032, "ink")
        self._put("risen", 0.17, h * 0.03, 0.2, self.table - self.y - h * 0.03, "action")
        self._put("table", 0.1, self.table - self.y - w * 0.2, 0.87, w * 0.2, "action")
        self._put("head", 0.1, h - w * 0.4, 0.87, w * 0.4, "soft")
        self._draw_bit()

    def _put(self, name: str, x: float, y: float, w: float, h: float, fill: str) -> None:
        plate = self._plates[name]
        plate.show(fill, fill)
        pos = (self.x + x * self.width, self.y + y)
        plate.place(pos, (w * self.width, max(1, h)), self.width * 0.04, 0)

    def _draw_bit(self) -> None:
        x, top, w = self.x + self.width * 0.72, self.top - self.width * 0.4, self.width * 0.075
        if self._bit_at == (x, top, w):
            return
        self._bit_at = (x, top, w)
        self._bit.clear()
        low = top - self.width * 0.16
        points = ((x - w, top), (x - w, low), (x, low - w * 1.4), (x + w, low), (x + w, top))
        paint.outline(self._bit, points, "soft")
