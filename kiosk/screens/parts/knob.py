"""The isolator as a little knob that points at O or at I."""

from __future__ import annotations

from math import cos, radians, sin

from kivy.graphics import InstructionGroup
from kivy.uix.widget import Widget

from kiosk.screens.parts import paint
from kiosk.screens.parts.plates import PlatePaint

SIGNS = {"unknown": ("caution_pale", "caution"), "fault": ("stop_pale", "stop")}


class Knob(Widget):
    """A plate with O at the left and I at the top; a question mark where nobody knows."""

    def __init__(self) -> None:
        super().__init__()
        self._plate = PlatePaint()
        self._dial = InstructionGroup()
        self.canvas.add(self._plate)
        self.canvas.add(self._dial)
        self._shown: tuple[object, ...] = ()

    def show(self, isolator: str) -> None:
        """Show `off`, `on`, `unknown` or `fault`."""
        now = (isolator, *self.pos, *self.size)
        if now == self._shown:
            return
        self._shown = now
        fill, edge = SIGNS.get(isolator, ("paper", "ink"))
        self._plate.show(fill, edge)
        self._plate.place(self.pos, self.size, self.width * 0.16, max(2, self.width * 0.05))
        self._dial.clear()
        self._draw(isolator)

    def _draw(self, isolator: str) -> None:
        if isolator == "unknown":
            self._question()
        elif isolator == "fault":
            self._exclamation()
        else:
            self._turn(isolator == "on")

    def _turn(self, on: bool) -> None:
        side = self.width
        x, y = self.x + side * 0.6, self.y + side * 0.4
        far = side * 0.27
        tip = (x, y + far) if on else (x - far, y)
        self._signs(x, y, side, on)
        paint.disc(self._dial, (x, y), side * 0.17, "ink")
        paint.stroke(self._dial, ((x, y), tip), "ink", side * 0.15)

    def _signs(self, x: float, y: float, side: float, on: bool) -> None:
        top, left = self.y + side * 0.84, self.x + side * 0.16
        bar = ((x, top - side * 0.06), (x, top + side * 0.06))
        paint.stroke(self._dial, bar, "ink" if on else "line", side * 0.075)
        paint.ring(self._dial, (left, y), side * 0.075, "line" if on else "ink", side * 0.06)

    def _question(self) -> None:
        side, (x, y) = self.width, self.center
        turns = [radians(angle) for angle in range(170, -66, -12)]
        arc = [(x + side * 0.15 * cos(a), y + side * (0.13 + 0.15 * sin(a))) for a in turns]
        stem = [(x, y - side * 0.04), (x, y - side * 0.12)]
        paint.stroke(self._dial, [*arc, *stem], "ink", side * 0.1)
        paint.disc(self._dial, (x, y - side * 0.29), side * 0.065, "ink")

    def _exclamation(self) -> None:
        side, (x, y) = self.width, self.center
        paint.stroke(self._dial, ((x, y + side * 0.27), (x, y - side * 0.08)), "stop", side * 0.11)
        paint.disc(self._dial, (x, y - side * 0.28), side * 0.07, "stop")
