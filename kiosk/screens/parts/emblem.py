"""Large calm signs for screens that have no drawing of their own."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin

from kivy.graphics import InstructionGroup
from kivy.uix.widget import Widget

from kiosk.screens.parts import paint
from kiosk.screens.parts.mark import MARKS

At = Callable[[float, float], paint.Point]


class Emblem(Widget):
    """A sign by name in a square: `drill`, `out`, `done`, `caution`, `alert`."""

    def __init__(self) -> None:
        super().__init__()
        self._paint = InstructionGroup()
        self.canvas.add(self._paint)
        self._shown: tuple[object, ...] = ()

    def show(self, name: str) -> None:
        """Draw the sign where it has been put, unless it stands there already."""
        now = (name, *self.pos, *self.size)
        if now != self._shown:
            self._shown = now
            self._paint.clear()
            EMBLEMS[name](self._paint, self._at, self.width)

    def _at(self, x: float, y: float) -> paint.Point:
        """A point given in hundredths of the side, from the lower left."""
        return (self.x + x * self.width / 100, self.y + y * self.height / 100)


def _rect(
    canvas: InstructionGroup, at: At, x: float, y: float, w: float, h: float, ink: str
) -> None:
    corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
    paint.outline(canvas, [at(*corner) for corner in corners], ink)


def _drill(canvas: InstructionGroup, at: At, side: float) -> None:
    """The pillar drill itself."""
    _rect(canvas, at, 16, 4, 68, 7, "ink")
    _rect(canvas, at, 28, 11, 9, 55, "line")
    _rect(canvas, at, 24, 32, 52, 6, "action")
    _rect(canvas, at, 24, 27, 17, 12, "action")
    head = ((16, 66), (16, 88), (26, 96), (70, 96), (80, 90), (80, 66))
    paint.outline(canvas, [at(*point) for point in head], "soft")
    _rect(canvas, at, 58, 58, 12, 8, "ink")
    bit = ((62, 58), (62, 46), (64, 42), (66, 46), (66, 58))
    paint.outline(canvas, [at(*point) for point in bit], "action")
    _rect(canvas, at, 52, 38, 24, 4, "wood")
    _handle(canvas, at, side)


def _handle(canvas: InstructionGroup, at: At, side: float) -> None:
    for turn in (0.17, 0.84, 1.5):
        x, y = 48 + 17 * cos(turn * pi), 78 + 17 * sin(turn * pi)
        paint.stroke(canvas, (at(48, 78), at(x, y)), "ink", side * 0.022)
        paint.disc(canvas, at(x, y), side * 0.03, "ink")
    paint.disc(canvas, at(48, 78), side * 0.055, "ink")


def _sign(name: str, ink: str, ground: str) -> Callable[[InstructionGroup, At, float], None]:
    def draw(canvas: InstructionGroup, at: At, side: float) -> None:
        MARKS[name](canvas, at(50, 50), side * 0.8, ink, ground)

    return draw


def _done(canvas: InstructionGroup, at: At, side: float) -> None:
    paint.disc(canvas, at(50, 50), side * 0.42, "action")
    MARKS["tick"](canvas, at(50, 50), side * 0.56, "paper", "action")


def _out(canvas: InstructionGroup, at: At, side: float) -> None:
    """The drill, struck through."""
    _drill(canvas, at, side)
    paint.stroke(canvas, (at(8, 10), at(92, 94)), "chalk", side * 0.14)
    paint.stroke(canvas, (at(8, 10), at(92, 94)), "stop", side * 0.075)


EMBLEMS: dict[str, Callable[[InstructionGroup, At, float], None]] = {
    "drill": _drill,
    "done": _done,
    "out": _out,
    "caution": _sign("caution", "caution", "ink"),
    "alert": _sign("alert", "adult", "paper"),
}
