"""Grounds and rounded plates behind other things."""

from __future__ import annotations

from kivy.graphics import Color, Rectangle
from kivy.uix.widget import Widget

from kiosk.screens.parts.plates import PlatePaint
from kiosk.screens.theme import colour


class Ground(Widget):
    """A plain area with sharp edges."""

    def __init__(self) -> None:
        super().__init__()
        self._ink, self._area = Color(), Rectangle()
        self.canvas.add(self._ink)
        self.canvas.add(self._area)

    def show(self, fill: str) -> None:
        """Paint it where it has been put."""
        self._ink.rgba = colour(fill)
        self._area.pos, self._area.size = self.pos, self.size


class Plate(Widget):
    """A filled rounded plate with an edge."""

    def __init__(self) -> None:
        super().__init__()
        self._paint = PlatePaint()
        self.canvas.add(self._paint)

    def show(self, fill: str, edge: str, radius: float, width: float) -> None:
        """Paint it where it has been put."""
        self._paint.show(fill, edge)
        self._paint.place(self.pos, self.size, radius, width)
