"""The screen dimmed: a veil over all of it while nobody uses it."""

from __future__ import annotations

from kivy.graphics import Color, Rectangle
from kivy.uix.widget import Widget

DARK = 0.72


class Shade(Widget):
    """Lets through a little of what lies under it."""

    def __init__(self) -> None:
        super().__init__()
        self._area = Rectangle()
        self.canvas.add(Color(0, 0, 0, DARK))
        self.canvas.add(self._area)

    def show(self) -> None:
        """Lie over the box that it has been put into."""
        self._area.pos, self._area.size = self.pos, self.size
