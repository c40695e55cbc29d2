"""Small signs drawn as shapes, so that they need no letters and no font."""

from __future__ import annotations

from collections.abc import Callable

from kivy.graphics import InstructionGroup
from kivy.uix.widget import Widget

from kiosk.screens.parts import paint

Canvas = InstructionGroup


class Mark(Widget):
    """A sign by name, drawn in a square in the middle of its box."""

    def __init__(self) -> None:
        super().__init__()
        self._paint = InstructionGroup()
        self.canvas.add(self._paint)
        self._shown: tuple[object, ...] = ()

    @property
    def name(self) -> str:
        """The sign that it shows."""
        return str(self._shown[0]) if self._shown else ""

    def show(self, name: str, ink: str, ground: str = "paper") -> None:
        """Draw the sign where it has been put, unless it stands there already."""
        now = (name, ink, ground, *self.pos, *self.size)
        if now == self._shown:
            return
        self._shown = now
        self._paint.clear()
        MARKS[name](self._paint, self.center, min(self.size), ink, ground)


def _chevron(canvas: Canvas, centre: paint.Point, side: float, ink: str, dx: int, dy: int) -> None:
    x, y = centre
    a, b = side * 0.2, side * 0.38
    ends = ((x - dx * a - dy * b, y - dy * a - dx * b), (x - dx * a + dy * b, y - dy * a + dx * b))
    paint.stroke(canvas, (ends[0], (x + dx * a, y + dy * a), ends[1]), ink, side * 0.14)


def _up(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    _chevron(canvas, centre, side, ink, 0, 1)


def _down(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    _chevron(canvas, centre, side, ink, 0, -1)


def _delete(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    x, y = centre
    h, w = side * 0.3, side * 0.5
    shape = ((x - w, y), (x - w * 0.35, y + h), (x + w, y + h), (x + w, y - h))
    shape = (*shape, (x - w * 0.35, y - h), (x - w, y))
    paint.stroke(canvas, shape, ink, side * 0.07)
    d, mid = side * 0.12, x + w * 0.3
    paint.stroke(canvas, ((mid - d, y - d), (mid + d, y + d)), ink, side * 0.07)
    paint.stroke(canvas, ((mid - d, y + d), (mid + d, y - d)), ink, side * 0.07)


def _tick(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    x, y = centre
    points = (
        (x - side * 0.34, y),
        (x - side * 0.08, y - side * 0.27),
        (x + side * 0.36, y + side * 0.3),
    )
    paint.stroke(canvas, points, ink, side * 0.15)


def _stem(canvas: Canvas, centre: paint.Point, side: float, ink: str, lift: float = 0) -> None:
    x, y = centre[0], centre[1] + lift
    paint.stroke(canvas, ((x, y + side * 0.22), (x, y - side * 0.04)), ink, side * 0.12)
    paint.disc(canvas, (x, y - side * 0.24), side * 0.07, ink)


def _alert(canvas: Canvas, centre: paint.Point, side: float, ink: str, ground: str) -> None:
    paint.disc(canvas, centre, side / 2, ink)
    _stem(canvas, centre, side, ground)


def _caution(canvas: Canvas, centre: paint.Point, side: float, ink: str, ground: str) -> None:
    x, y = centre
    low, high, half = y - side * 0.42, y + side * 0.44, side * 0.5
    corners = ((x - half, low), (x, high), (x + half, low))
    paint.outline(canvas, corners, ink)
    paint.stroke(canvas, (*corners, corners[0]), ink, side * 0.08)
    _stem(canvas, centre, side * 0.72, ground, -side * 0.08)


def _halt(canvas: Canvas, centre: paint.Point, side: float, ink: str, ground: str) -> None:
    """Eight corners and a bar: nobody takes it for the round sign of an adult's turn."""
    x, y = centre
    near, far = side * 0.21, side * 0.5
    quarter = ((near, far), (far, near), (far, -near), (near, -far))
    corners = [(x + a, y + b) for a, b in quarter] + [(x - a, y - b) for a, b in quarter]
    paint.outline(canvas, corners, ink)
    paint.stroke(canvas, ((x - side * 0.26, y), (x + side * 0.26, y)), ground, side * 0.15)


def _speaker(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    """A loudspeaker and two waves of sound."""
    x, y = centre[0] - side * 0.12, centre[1]
    h, w = side * 0.14, side * 0.16
    cone = ((x - 2 * w, y - h), (x - w, y - h), (x + w, y - 3 * h))
    cone = (*cone, (x + w, y + 3 * h), (x - w, y + h), (x - 2 * w, y + h))
    paint.outline(canvas, cone, ink)
    for far in (0.2, 0.36):
        arc = [(far * (1 - abs(at) / 6), far * at / 3) for at in range(-3, 4)]
        bow = [(x + w + side * right, y + side * up) for right, up in arc]
        paint.stroke(canvas, bow, ink, side * 0.07)


def _bullet(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    paint.disc(canvas, centre, side / 2, ink)


def _circle(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    paint.ring(canvas, centre, side / 2 - 1.5, ink, 3)


def _box(canvas: Canvas, centre: paint.Point, side: float, ink: str, _ground: str) -> None:
    x, y, h = *centre, side * 0.42
    corners = ((x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h), (x - h, y - h))
    paint.stroke(canvas, corners, ink, side * 0.09)


def _ticked(canvas: Canvas, centre: paint.Point, side: float, ink: str, ground: str) -> None:
    _box(canvas, centre, side, ink, ground)
    _tick(canvas, centre, side * 0.7, ink, ground)


MARKS: dict[str, Callable[[Canvas, paint.Point, float, str, str], None]] = {
    "speaker": _speaker,
    "up": _up,
    "down": _down,
    "delete": _delete,
    "tick": _tick,
    "alert": _alert,
    "halt": _halt,
    "caution": _caution,
    "bullet": _bullet,
    "circle": _circle,
    "box": _box,
    "ticked": _ticked,
}
